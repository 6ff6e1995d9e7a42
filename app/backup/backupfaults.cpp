// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backup.h"

#include "backup/backupfolder.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"
#include "storage/verifier.h"

#include <QFileInfo>

#include <algorithm>

// What is wrong with a backup, and which can be brought back.
namespace ramplight {
namespace {

bool wasToldOf(const Backup& backup, const QString& what)
{
    return std::ranges::any_of(backup.manifest.faults, [&](const QString& told) {
        return told.startsWith(what + QLatin1Char(':'));
    });
}

QString nameOf(const PhotoId& id)
{
    return QStringLiteral("photo %1").arg(id.text);
}

/// Whether the ledger and what else is its own are what was written, and nothing was built into the
/// file. All backups share the photos and the words: one of these that does not read would make all
/// of them useless.
bool canComeBack(const Backup& backup)
{
    return !wasToldOf(backup, schemaFaults()) && fileFaultsOf(backup).isEmpty();
}

} // namespace

tl::expected<Backup, QString> newestWhole(const QString& folder, const HeadKeeper& keeper)
{
    const auto all = backupsIn(folder);
    if (!all)
        return tl::unexpected(all.error());
    const auto isOurs = [&](const Backup& backup) {
        return keeper.ageOf(backup.manifest.keyId) >= 0;
    };
    // Restore would refuse another site's. Keys that fit none are told so there.
    const bool knowsAny = std::ranges::any_of(*all, isOurs);
    for (const Backup& backup : *all) {
        if (knowsAny && (!isOurs(backup) || sealOf(backup.manifest, keeper) == ManifestSeal::Wrong))
            continue;
        if (canComeBack(backup))
            return backup;
    }
    return tl::unexpected(
        QStringLiteral("There is no whole backup in %1. Nothing was changed.").arg(folder));
}

QStringList fileFaultsOf(const Backup& backup)
{
    QStringList faults;
    for (const BackupFile& file : backup.manifest.files) {
        const auto is = fileAt(backup.path + QLatin1Char('/') + file.name);
        if (!is)
            faults.append(is.error());
        else if (*is != file)
            faults.append(QStringLiteral("%1 is not what was written.").arg(file.name));
    }
    return faults;
}

QStringList faultsOf(const Backup& backup)
{
    QStringList faults = fileFaultsOf(backup);
    const QString folder = QFileInfo(backup.path).absolutePath();
    const PhotoStore photos(sharedPhotos(folder));
    for (const PhotoId& id : backup.manifest.photos)
        if (const auto bytes = photos.open(id); !bytes)
            faults.append(QStringLiteral("%1: %2").arg(nameOf(id), words(bytes.error())));
    const TranscriptStore transcripts(sharedTranscripts(folder));
    for (const QString& id : backup.manifest.transcripts)
        if (const auto bytes = transcripts.open({id}); !bytes)
            faults.append(QStringLiteral("transcript %1: %2").arg(id, bytes.error()));
    return faults;
}

Lacking lackingIn(const Backup& backup, const PhotoVault& photos, const QString& transcripts)
{
    const QString folder = QFileInfo(backup.path).absolutePath();
    const PhotoStore shared(sharedPhotos(folder));
    Lacking lacking;
    for (const PhotoId& id : backup.manifest.photos)
        if (!shared.open(id) && !photos.open(id) && !wasToldOf(backup, nameOf(id)))
            ++lacking.photos;
    const TranscriptStore sharedWords(sharedTranscripts(folder));
    const TranscriptStore words(transcripts);
    for (const QString& id : backup.manifest.transcripts)
        if (!sharedWords.open({id}) && !words.open({id}))
            ++lacking.walkRounds;
    return lacking;
}

} // namespace ramplight
