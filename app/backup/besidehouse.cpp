// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/besidehouse.h"

#include "backup/houselock.h"
#include "evidence/durablefile.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

namespace ramplight {
namespace {

const QString setAsideWhy = QStringLiteral("before");

} // namespace

QString restoreDraftOf(const QString& house)
{
    return house + QStringLiteral(".restoring");
}

QString restoreDraftsName()
{
    return QStringLiteral(".drafts");
}

QString houseAsideOf(const QString& house, Moment now)
{
    return asideName(house, setAsideWhy, now);
}

QString newestSetAside(const QString& house)
{
    const QFileInfo place(house);
    const QStringList aside =
        place.absoluteDir().entryList({place.fileName() + QStringLiteral(".%1-*").arg(setAsideWhy)},
                                      QDir::Dirs | QDir::Hidden, QDir::Name);
    return aside.empty() ? QString() : place.absoluteDir().filePath(aside.back());
}

bool finishRestore(const QString& house, const QString& database)
{
    const QString draft = restoreDraftOf(house);
    const QString aside = newestSetAside(house);
    if (QFileInfo::exists(house) || aside.isEmpty() ||
        !QFile::exists(draft + QLatin1Char('/') + database) ||
        QFileInfo::exists(draft + QLatin1Char('/') + restoreDraftsName()))
        return false;
    // Whoever is at it holds what it set aside, and finishes it.
    const auto alone = HouseLock::alone(aside);
    return alone && QDir().rename(draft, house) &&
           bringToDisk(QFileInfo(house).absolutePath()).has_value();
}

} // namespace ramplight
