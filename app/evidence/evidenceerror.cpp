// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/evidenceerror.h"

#include <QCoreApplication>

namespace ramplight {

QString words(EvidenceError error)
{
    const auto say = [](const char* text) {
        return QCoreApplication::translate("ramplight", text);
    };
    switch (error) {
    case EvidenceError::Empty:
        return say("There is nothing in this file. Take the photo again.");
    case EvidenceError::TooManyBytes:
        return say(
            "This file is too large. Set the camera to a smaller picture and take it again.");
    case EvidenceError::TooManyPixels:
        return say("This picture has too many pixels. Set the camera to a smaller picture and take "
                   "it again.");
    case EvidenceError::NotAPhoto:
        return say("This is not a photo. JPEG and PNG pictures are taken, whatever their name.");
    case EvidenceError::Drawing:
        return say("This is a drawing, not a photo. JPEG and PNG pictures are taken.");
    case EvidenceError::MovingPicture:
        return say("This picture moves. Take a still photo as JPEG or PNG.");
    case EvidenceError::PhoneFormat:
        return say("This photo is in a telephone's own format. Set the telephone to save JPEG (the "
                   "most compatible format) and take it again.");
    case EvidenceError::Disguised:
        return say("This file begins like a photo and is something else. It was not opened.");
    case EvidenceError::Truncated:
        return say("The end of this photo is missing. If it is still being copied, wait and choose "
                   "it again.");
    case EvidenceError::Damaged:
        return say("This photo is damaged and cannot be read. Take it again.");
    case EvidenceError::PrintColours:
        return say("This picture is in printing inks (CMYK), so its colours would be a guess. Save "
                   "it as an ordinary photo.");
    case EvidenceError::DeepColour:
        return say("This picture has more than 8 bits for each colour. Save it as an ordinary "
                   "photo.");
    case EvidenceError::NoSuchPhoto:
        return say("This photo is not here. The record still names it: look in the backup.");
    case EvidenceError::KeptDamaged:
        return say("This photo is no longer what was stored, so it is not shown. Put it back from "
                   "the backup.");
    case EvidenceError::FolderMissing:
        return say("The folder is not there. Check the settings, and whether its disk or share is "
                   "connected.");
    case EvidenceError::NotPermitted:
        return say("The system does not let the program into this folder or file. Check whose it "
                   "is.");
    case EvidenceError::DiskFull:
        return say("The disk is full, and the photo was not kept. Make room and try again.");
    case EvidenceError::CannotWrite:
        return say("The photo could not be written and was not kept. Try again, then check the "
                   "disk.");
    case EvidenceError::CannotRead:
        return say("The file could not be read. Try again, then check the disk.");
    case EvidenceError::DatabaseAway:
        return say("The database that keeps the photos does not answer, and nothing was changed "
                   "there. Try again, then check the server and the network.");
    }
    return {};
}

} // namespace ramplight
