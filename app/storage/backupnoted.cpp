// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/backupnoted.h"

#include <QJsonDocument>

namespace ramplight {

namespace {

const QString settingName = QStringLiteral("last-backup");

} // namespace

tl::expected<SiteBackup, StoreError> notedBackup(Store& store)
{
    const auto text = store.settings().value(settingName);
    if (!text)
        return tl::unexpected(text.error());
    SiteBackup backup;
    if (*text && !fromJson(QJsonDocument::fromJson((*text)->toUtf8()).object(), backup).isEmpty())
        return SiteBackup();
    return backup;
}

tl::expected<void, StoreError> noteBackup(Store& store, const SiteBackup& backup)
{
    const auto noted = notedBackup(store);
    if (!noted)
        return tl::unexpected(noted.error());
    if (noted->goodAt > backup.goodAt && !noted->isStale(backup.goodAt))
        return {};
    return store.settings().set(
        settingName,
        QString::fromUtf8(QJsonDocument(toJson(backup)).toJson(QJsonDocument::Compact)));
}

} // namespace ramplight
