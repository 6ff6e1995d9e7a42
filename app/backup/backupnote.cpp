// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupnote.h"

#include "backup/summedjson.h"

#include <QTimeZone>

namespace ramplight {

BackupHealth healthOf(const BackupNote& note, bool hasFolder, Moment now)
{
    if (!hasFolder)
        return BackupHealth::NotSetUp;
    if (!note.words.isEmpty())
        return BackupHealth::Failed;
    if (isStaleBackup(note.goodAt, note.since, now))
        return BackupHealth::Stale;
    if (note.goodAt.isNull())
        return BackupHealth::Waiting;
    return note.faults.isEmpty() ? BackupHealth::Good : BackupHealth::Faulty;
}

bool isDue(const BackupNote& note, bool hasFolder, QTime at, const QDateTime& now)
{
    if (!hasFolder)
        return false;
    QDateTime last(now.date(), at, now.timeZone());
    if (last > now)
        last = last.addDays(-1);
    const qint64 nowMs = now.toMSecsSinceEpoch();
    const auto since = [&](Moment moment) {
        return moment.ms >= last.toMSecsSinceEpoch() && moment.ms <= nowMs;
    };
    if (since(note.goodAt))
        return false;
    return !since(note.triedAt) || note.triedAt.plusMinutes(tryAgainAfterMinutes).ms <= nowMs;
}

BackupNote readNote(const QString& path)
{
    return noteIn<BackupNote>(path);
}

tl::expected<void, QString> keepNote(const QString& path, const BackupNote& note)
{
    return keepSummed(path, toJson(note));
}

} // namespace ramplight
