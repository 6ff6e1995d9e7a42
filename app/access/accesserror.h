// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

// What can go wrong with PINs, sign-in and the site's key file. The answer of every fallible call
// of this layer.
namespace ramplight {

enum class AccessError {
    PinNotDigits,     ///< a new PIN holds something other than 0 to 9
    PinWrongLength,   ///< a new PIN is shorter or longer than the house asks for
    PinAllSame,       ///< a new PIN is one digit over and over
    PinStraightRun,   ///< a new PIN counts up or down (also through 9 to 0)
    PinRepeats,       ///< a new PIN is a shorter group written several times
    NobodyNamed,      ///< a new PIN is for no person
    WrongPin,         ///< the PIN does not belong to the kept hash
    HashDamaged,      ///< what is kept for this person is no Argon2id hash
    HashingFailed,    ///< hashing could not run: too little memory, or cost settings out of range
    KeyFileMissing,   ///< no key file where the site's settings say it is
    KeyFileExists,    ///< a key file was to be made where one is already; it was left alone
    KeyFileTooOpen,   ///< other accounts of the machine may read or change the key file
    KeyFileDamaged,   ///< the key file is cut, altered, or something else altogether
    KeyFileNewer,     ///< the key file was written by a newer version of the program
    KeyFileNoReading, ///< the system refuses to read the key file
    KeyFileNoWriting, ///< the system refuses to write the key file; nothing was left behind
    ServerAway,       ///< the server is away: PINs and badges are only read from this kiosk's copy
    CopyChanged,      ///< this kiosk's copy of the staff is not what the site's key sealed
    StoreAway,        ///< what is kept about staff cannot be reached now; nothing was changed
};

/// What a person at the wall is told: what happened, what was kept, what to do.
[[nodiscard]] QString words(AccessError error);

} // namespace ramplight
