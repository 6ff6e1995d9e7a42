// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/backupkeeping.h"
#include "backup/backupmanifest.h"
#include "backup/backupnote.h"
#include "domain/knowncatalogues.h"
#include "evidence/photovault.h"
#include "storage/storesettings.h"

#include <QDateTime>
#include <QString>

#include <tl/expected.hpp>

#include <functional>
#include <vector>

// Backups of a site, in a folder on another disk, which other sites may share. Errors are words for
// a person.
//
//     <folder>/20310504-203000/ledger.sqlite   a database of its own, whatever the house works with
//                              corrections.jsonl
//                              manifest.json   what is in it, with hashes; written last
//     <folder>/photos/, <folder>/transcripts/  shared by all backups: what is kept by its hash
//     never
//                                              changes
//
// The names are times in UTC. The site's key file is never in it: a backup that is stolen verifies
// no PIN. A kiosk's settings are not either: they are that machine's, and may hold a password.
namespace ramplight {

/// Where what is to be kept lies.
struct BackupSource
{
    StoreSettings store;
    HeadKeeper keeper;
    const PhotoVault& photos;
    QString transcripts; ///< folder
    QString corrections; ///< file; may be missing
    QString program;     ///< version
    /// What opened work is held against; asked once, on the thread that makes the backup.
    std::function<tl::expected<KnownCatalogues, QString>()> known = {};
    QString kiosk = {}; ///< the machine's name, for the site's other kiosks

    /// How it is opened: a database that was made anew has no site, and a backup makes none there.
    [[nodiscard]] StoreSettings asItIs() const
    {
        StoreSettings there = store;
        there.siteMustBeThere = true;
        return there;
    }
};

struct Backup
{
    QString path;
    BackupManifest manifest;

    [[nodiscard]] QDateTime madeAt() const
    {
        return QDateTime::fromMSecsSinceEpoch(manifest.madeAt.ms);
    }
};

/// Those that are whole in form, site by site and of each the latest made first, whatever the
/// clocks said: by their numbers, without these by the ledger's length. Their bytes are not read.
/// Error: the folder is not there.
[[nodiscard]] tl::expected<std::vector<Backup>, QString> backupsIn(const QString& folder);

/// Reads a backup's manifest. Error: why it is none.
[[nodiscard]] tl::expected<Backup, QString> backupAt(const QString& path);

/// The newest in the folder that can be brought back: the files beside its list are as they were
/// written. Photos and words never decide that, see lackingIn(). Reads those files from end to end.
/// Where the keeper knows the key of one, only those of its site count, and one whose list was
/// changed since is passed by. Error: there is none.
[[nodiscard]] tl::expected<Backup, QString> newestWhole(const QString& folder,
                                                        const HeadKeeper& keeper = {});

/// Everything that is wrong with a backup: files that are missing or not what was written, photos
/// and words that are not in the shared folders. Reads every byte.
[[nodiscard]] QStringList faultsOf(const Backup& backup);
/// Of these the files beside the list: the database and what reviewers corrected.
[[nodiscard]] QStringList fileFaultsOf(const Backup& backup);

/// What would not come back with a backup, or did not: neither the folder that all backups share
/// nor the house has it as it was written. What was missing when the backup was made is not counted
/// again.
struct Lacking
{
    int photos = 0;
    int walkRounds = 0; ///< of which the words are gone; what was made of them is in the ledger

    friend bool operator==(const Lacking&, const Lacking&) = default;
};

/// In the place of a house with these photos, and transcripts in this folder. Reads every byte.
[[nodiscard]] Lacking lackingIn(const Backup& backup, const PhotoVault& photos,
                                const QString& transcripts);

/// Makes a backup while others work, checks it from end to end as `verify` checks a workshop, gives
/// it its name, and only then removes those of its site that are superfluous, but never the newest
/// of which the check found nothing. What it found stands in the manifest. Photos that are in the
/// folder already are read again once a week, and each time as long as something is wrong with
/// them. What was written is read again from the disk, as far as the kernel can be told to. Blocks
/// for as long as it takes; any thread without a connection of its own; one at a time in a folder.
/// The folder above `folder` must exist. Nothing is left behind after an error.
[[nodiscard]] tl::expected<Backup, QString> makeBackup(const BackupSource& source,
                                                       const QString& folder, Moment now,
                                                       const KeepCounts& counts = {});

/// makeBackup(), and what became of it noted in `notePath` (backupnote.h): also where it came to
/// nothing. One that was made and found something wrong with the house counts as made: to make it
/// once more would not mend that. One of a server is noted there, too, for the site's other kiosks.
BackupNote backUpAndNote(const BackupSource& source, const QString& folder, const QString& notePath,
                         Moment now);

/// Removes photos and words that no backup of the folder names; nothing as long as one of them
/// cannot be read. For makeBackup() and its tests.
void removeUnnamed(const QString& folder);

} // namespace ramplight
