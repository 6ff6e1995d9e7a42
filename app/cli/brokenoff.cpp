// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/brokenoff.h"

#include "backup/besidehouse.h"

#include <QDir>
#include <QFileInfo>

namespace ramplight {

QStringList finishWhatBrokeOff(const HousePaths& paths, Moment now)
{
    QStringList told;
    const QString root = QDir(paths.root()).absolutePath();
    if (finishRestore(root, QFileInfo(paths.database()).fileName()))
        told.append(
            QStringLiteral("%1: bringing a backup back broke off at its end; it was finished.")
                .arg(root));
    if (!mayFinishRemake(paths.database()))
        return told;
    const auto alone = HouseLock::alone(root);
    if (alone && finishRemake(paths.database(), now))
        told.append(QStringLiteral("%1: making it anew broke off at its end; it was finished.")
                        .arg(paths.database()));
    return told;
}

QString whatWasSetAside(const HousePaths& paths)
{
    const QFileInfo database(paths.database());
    if (database.size() > 0)
        return {};
    const QDir folder = database.absoluteDir();
    const QStringList damaged = folder.entryList(
        {database.fileName() + QStringLiteral(".damaged-*")}, QDir::Files, QDir::Name);
    if (!damaged.empty())
        return QStringLiteral("The workshop's file %1 is missing or empty, and beside it lies %2, "
                              "which was damaged and set aside. Nothing was made. Bring a backup "
                              "back (ramplight restore FOLDER), or give %2 that name again and "
                              "start again. To begin another workshop, move it away first.")
            .arg(database.absoluteFilePath(), folder.filePath(damaged.back()));
    const QString before = newestSetAside(folder.absolutePath());
    if (before.isEmpty() || QFileInfo(before + QLatin1Char('/') + database.fileName()).size() <= 0)
        return {};
    return QStringLiteral("There is no workshop in %1, and beside it lies %2, which was set aside "
                          "when a backup was brought back. Nothing was made. Bring the backup back "
                          "once more (ramplight restore FOLDER --keys %2/site.keys), or move %1 "
                          "away, give %2 that name and start again. To begin another workshop, "
                          "move %2 away first.")
        .arg(folder.absolutePath(), before);
}

} // namespace ramplight
