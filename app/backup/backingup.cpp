// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backup.h"
#include "log/log.h"
#include "storage/backupnoted.h"
#include "storage/store.h"

#include <QRegularExpression>

#include <tuple>

// A backup of the day, and the word about it.
namespace ramplight {

namespace {

/// As much as can be read on a wall: the first, and of a photo's id the beginning.
QString inShort(const QStringList& faults)
{
    static const QRegularExpression id(QStringLiteral("\\b([0-9a-f]{8})[0-9a-f]{56}\\b"));
    const QString first = faults.value(0).replace(id, QStringLiteral("\\1..."));
    return faults.size() < 2 ? first
                             : QStringLiteral("%1 (and %2 more)").arg(first).arg(faults.size() - 1);
}

/// The site's other kiosks. Where it cannot be told they warn, though there is one.
void tellOthers(const BackupSource& source, Moment now)
{
    if (source.store.kind != StoreKind::PostgreSql)
        return;
    auto store = Store::open(source.asItIs(), source.keeper);
    const auto told =
        store ? noteBackup(**store, {now, source.kiosk}) : tl::unexpected(std::move(store.error()));
    if (!told)
        log::warn(
            QStringLiteral("the backup cannot be noted at the server: %1").arg(told.error().words));
}

} // namespace

BackupNote backUpAndNote(const BackupSource& source, const QString& folder, const QString& notePath,
                         Moment now)
{
    BackupNote note = readNote(notePath);
    note.triedAt = now;
    if (note.goodAt.isNull() && note.since.isNull())
        note.since = now;
    // One that never comes to its end was tried, too. That this cannot be kept is told below.
    std::ignore = keepNote(notePath, note);
    note.words.clear();
    if (const auto backup = makeBackup(source, folder, now); !backup) {
        note.words = backup.error();
    } else {
        note.goodAt = now;
        note.path = backup->path;
        note.since = {};
        note.faults = inShort(backup->manifest.faults);
        for (const QString& fault : backup->manifest.faults)
            log::error(QStringLiteral("found while backing up: %1").arg(fault));
        tellOthers(source, now);
    }
    if (const auto kept = keepNote(notePath, note); !kept)
        log::error(
            QStringLiteral("the note about the backup cannot be kept: %1").arg(kept.error()));
    if (!note.words.isEmpty())
        log::error(QStringLiteral("backup: %1").arg(note.words));
    return note;
}

} // namespace ramplight
