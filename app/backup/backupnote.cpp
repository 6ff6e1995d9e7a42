// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupnote.h"

#include "evidence/durablefile.h"

#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>

namespace ramplight {

BackupHealth healthOf(const BackupNote& note, bool hasFolder, Moment now)
{
    if (!hasFolder)
        return BackupHealth::NotSetUp;
    if (!note.words.isEmpty())
        return BackupHealth::Failed;
    if (note.goodAt.isNull())
        return BackupHealth::Waiting;
    return note.goodAt.plusMinutes(staleAfterHours * 60) < now ? BackupHealth::Stale
                                                               : BackupHealth::Good;
}

BackupNote readNote(const QString& path)
{
    QFile file(path);
    BackupNote note;
    if (!file.open(QIODevice::ReadOnly) ||
        !fromJson(QJsonDocument::fromJson(file.readAll()).object(), note).isEmpty())
        return {};
    return note;
}

tl::expected<void, QString> keepNote(const QString& path, const BackupNote& note)
{
    const QByteArray bytes = QJsonDocument(toJson(note)).toJson(QJsonDocument::Indented);
    if (const auto kept = writeFileDurably(path, QFileInfo(path).absolutePath(), bytes); !kept)
        return tl::unexpected(words(kept.error()));
    return {};
}

} // namespace ramplight
