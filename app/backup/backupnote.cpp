// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupnote.h"

#include "evidence/durablefile.h"

#include <QCryptographicHash>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>
#include <QTimeZone>

namespace ramplight {

namespace {

constexpr QLatin1StringView sumKey{"sum"};

/// Of everything else that is noted, in the order in which it is written.
QString sumOf(QJsonObject noted)
{
    noted.remove(sumKey);
    const QByteArray text = QJsonDocument(noted).toJson(QJsonDocument::Compact);
    return QString::fromLatin1(QCryptographicHash::hash(text, QCryptographicHash::Sha256).toHex());
}

} // namespace

BackupHealth healthOf(const BackupNote& note, bool hasFolder, Moment now)
{
    if (!hasFolder)
        return BackupHealth::NotSetUp;
    if (!note.words.isEmpty())
        return BackupHealth::Failed;
    const auto isOver = [now](Moment since, int hours) {
        return !since.isNull() && since.plusMinutes(hours * 60) < now;
    };
    if (note.goodAt.isNull())
        return isOver(note.since, waitingForHours) ? BackupHealth::Stale : BackupHealth::Waiting;
    return isOver(note.goodAt, staleAfterHours) ? BackupHealth::Stale : BackupHealth::Good;
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
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return {};
    const QJsonObject noted = QJsonDocument::fromJson(file.readAll()).object();
    BackupNote note;
    // An older program wrote no sum.
    const bool isWhole = !noted.contains(sumKey) || noted.value(sumKey).toString() == sumOf(noted);
    if (!isWhole || !fromJson(noted, note).isEmpty())
        return {};
    return note;
}

tl::expected<void, QString> keepNote(const QString& path, const BackupNote& note)
{
    QJsonObject noted = toJson(note);
    noted.insert(sumKey, sumOf(noted));
    const QByteArray bytes = QJsonDocument(noted).toJson(QJsonDocument::Indented);
    if (const auto kept = writeFileDurably(path, QFileInfo(path).absolutePath(), bytes); !kept)
        return tl::unexpected(words(kept.error()));
    return {};
}

} // namespace ramplight
