// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

// Why a photo was not taken in, kept or found. The answer of every fallible call of this layer.
namespace ramplight {

enum class EvidenceError {
    // What came in.
    Empty,         ///< there is nothing in it: no bytes, or a picture without width or height
    TooManyBytes,  ///< a larger file than PhotoLimits allows
    TooManyPixels, ///< more pixels than PhotoLimits allows, whatever the file's size
    NotAPhoto,     ///< neither JPEG nor PNG, nor one of the kinds named below
    Drawing,       ///< SVG: a drawing that would be executed rather than looked at
    MovingPicture, ///< GIF or animated PNG
    PhoneFormat,   ///< HEIC or AVIF, as telephones make them
    Disguised,     ///< begins like a JPEG or PNG and is something else
    Truncated,     ///< begins well and ends early, like a file still being copied
    Damaged,       ///< whole in length, and its inside cannot be read
    PrintColours,  ///< a JPEG in four printing inks, whose colours on a screen would be a guess
    DeepColour,    ///< more than 8 bits a colour: no camera's photo, and twice the memory
    // Where it is kept or comes from.
    NoSuchPhoto,   ///< no photo with this id here
    KeptDamaged,   ///< the kept bytes are no longer those that were stored
    FolderMissing, ///< the folder is not there or is no folder
    NotPermitted,  ///< the system does not let the program read or write there
    DiskFull,      ///< no space; nothing was kept
    CannotWrite,   ///< writing failed otherwise; nothing was kept
    CannotRead,    ///< reading failed
    DatabaseAway,  ///< the database that keeps the photos does not answer
};

/// What a person at the wall is told: what happened, what was kept, what to do.
[[nodiscard]] QString words(EvidenceError error);

} // namespace ramplight
