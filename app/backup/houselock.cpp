// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"

namespace ramplight {

tl::expected<HouseLock, QString> HouseLock::inCommon(const QString& folder)
{
    return take(folder, HeldFile::How::InCommon,
                QStringLiteral("The workshop in %1 is being brought back from a backup. Wait until "
                               "that is done.")
                    .arg(folder));
}

tl::expected<HouseLock, QString> HouseLock::alone(const QString& folder)
{
    return take(folder, HeldFile::How::Alone,
                QStringLiteral("A kiosk or another command is at work in %1. Nothing was changed; "
                               "close it and try again.")
                    .arg(folder));
}

tl::expected<HouseLock, QString> HouseLock::take(const QString& folder, HeldFile::How how,
                                                 const QString& otherwise)
{
    const QString path = folder + QLatin1Char('/') + fileName;
    auto file = HeldFile::take(path, how);
    if (file)
        return HouseLock(std::move(*file));
    if (file.error() == HeldFile::held)
        return tl::unexpected(otherwise);
    return tl::unexpected(
        QStringLiteral("%1 cannot be written. Nothing was changed; look at the folder's owner "
                       "and at the disk.")
            .arg(path));
}

} // namespace ramplight
