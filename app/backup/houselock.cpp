// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"

#include <QFile>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ramplight {

tl::expected<HouseLock, QString> HouseLock::inCommon(const QString& folder)
{
    return take(folder, LOCK_SH,
                QStringLiteral("The workshop in %1 is being brought back from a backup. Wait until "
                               "that is done.")
                    .arg(folder));
}

tl::expected<HouseLock, QString> HouseLock::alone(const QString& folder)
{
    return take(folder, LOCK_EX,
                QStringLiteral("A kiosk or another command is at work in %1. Nothing was changed; "
                               "close it and try again.")
                    .arg(folder));
}

tl::expected<HouseLock, QString> HouseLock::take(const QString& folder, int how,
                                                 const QString& otherwise)
{
    const QString path = folder + QLatin1Char('/') + fileName;
    const int file = ::open(QFile::encodeName(path).constData(), O_RDWR | O_CREAT | O_CLOEXEC,
                            S_IRUSR | S_IWUSR);
    if (file < 0)
        return tl::unexpected(
            QStringLiteral("%1 cannot be written. Nothing was changed; look at the folder's owner "
                           "and at the disk.")
                .arg(path));
    HouseLock lock(file);
    if (::flock(file, how | LOCK_NB) != 0)
        return tl::unexpected(otherwise);
    return lock;
}

HouseLock::~HouseLock()
{
    if (m_file >= 0)
        ::close(m_file);
}

} // namespace ramplight
