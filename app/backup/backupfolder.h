// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/backupmanifest.h"
#include "backup/heldfile.h"
#include "evidence/evidenceerror.h"

#include <QString>

#include <tl/expected.hpp>

#include <optional>

namespace ramplight {

/// A folder of backups, held by the one that is made into it. Other programs and other machines
/// find it taken.
class BackupFolder
{
public:
    /// Makes the folder where it is missing. A link to one is none: whoever prepared a stick would
    /// choose what is written and pruned. Error: words, of who is in the way or of what is wrong
    /// with the folder or its disk.
    [[nodiscard]] static tl::expected<BackupFolder, QString> alone(const QString& folder);

private:
    explicit BackupFolder(std::optional<HeldFile> file)
        : m_file(std::move(file))
    {
    }
    std::optional<HeldFile> m_file; ///< none where the disk knows no locks
};

/// Makes a folder for what is written into a backup's. Error: words; also that there is a link.
[[nodiscard]] tl::expected<void, QString> makeOwnFolder(const QString& folder);

/// Takes a folder away with what is in it; of a link itself, and of nothing that it names.
bool removeFolder(const QString& folder);

/// Where all backups of a folder keep what is named by its hash.
[[nodiscard]] QString sharedPhotos(const QString& folder);
[[nodiscard]] QString sharedTranscripts(const QString& folder);

/// What a file holds now; it is read in pieces. Error: words.
[[nodiscard]] tl::expected<BackupFile, QString> fileAt(const QString& path);

/// Why a backup could not write something, and whose disk it is: the house's may have room. Words.
[[nodiscard]] QString notWritten(const QString& path, EvidenceError error);

/// A disk took it, and gives something else back. Words.
[[nodiscard]] QString notKept(const QString& path);

} // namespace ramplight
