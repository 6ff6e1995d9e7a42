// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/accesserror.h"

#include <QCoreApplication>

namespace ramplight {

QString words(AccessError error)
{
    const auto say = [](const char* text) {
        return QCoreApplication::translate("ramplight", text);
    };
    switch (error) {
    case AccessError::PinNotDigits:
        return say("A PIN is made of the digits 0 to 9 only. Choose another one.");
    case AccessError::PinWrongLength:
        return say("This PIN has too few or too many digits. Choose another one.");
    case AccessError::PinAllSame:
        return say("One digit over and over is the first thing anybody tries. Choose another PIN.");
    case AccessError::PinStraightRun:
        return say("Digits that count up or down are too easily guessed. Choose another PIN.");
    case AccessError::PinRepeats:
        return say("A short group that repeats is too easily guessed. Choose another PIN.");
    case AccessError::NobodyNamed:
        return say("It was not said whose PIN that is. Nothing was changed. Try again.");
    case AccessError::WrongPin:
        return say("That PIN is not right.");
    case AccessError::HashDamaged:
        return say("What is kept of this person's PIN is damaged. A manager can set a new PIN.");
    case AccessError::HashingFailed:
        return say("The PIN could not be checked: the machine is short of memory, or the PIN cost "
                   "settings are out of range. Nothing was changed. Try again, then call whoever "
                   "looks after the kiosk.");
    case AccessError::KeyFileMissing:
        return say("The site's key file is not there. Put it back from your safe copy; without it "
                   "no PIN can be checked.");
    case AccessError::KeyFileExists:
        return say("There is a key file already, and it was left as it is. A new one would make "
                   "every PIN and every sealed record of this site worthless.");
    case AccessError::KeyFileTooOpen:
        return say("Other accounts of this machine may read or change the site's key file. Give it "
                   "to the kiosk's account alone (mode 0600) and start again.");
    case AccessError::KeyFileDamaged:
        return say("The site's key file is damaged. Put it back from your safe copy.");
    case AccessError::KeyFileNewer:
        return say("The site's key file was written by a newer version of this program. Update the "
                   "program; the file was left as it is.");
    case AccessError::KeyFileNoReading:
        return say("The system does not let the program read the site's key file. Check whose file "
                   "it is, and the disk.");
    case AccessError::KeyFileNoWriting:
        return say("The site's key file could not be written, and nothing was left behind. Check "
                   "the folder and the free space, then try again.");
    case AccessError::ServerAway:
        return say("The workshop's server is away. PINs and badges can be changed when it is back; "
                   "nothing was changed.");
    case AccessError::CopyChanged:
        return say("The workshop's server is away, and this kiosk's copy of the staff was changed "
                   "by somebody. Nobody can sign in here until the server is back.");
    case AccessError::StoreAway:
        return say("The staff list cannot be reached just now. Nothing was changed. Try again.");
    }
    return {};
}

} // namespace ramplight
