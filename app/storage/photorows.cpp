// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/photorows.h"

#include "storage/sitemove.h"

#include <QDateTime>

namespace ramplight {

QString photoFormText(PhotoForm form)
{
    switch (form) {
    case PhotoForm::Panel:
        return QStringLiteral("panel");
    case PhotoForm::Card:
        return QStringLiteral("card");
    case PhotoForm::Full:
        break;
    }
    return QStringLiteral("full");
}

tl::expected<void, SqlFault> writePhotoRows(Connection& connection, const SiteId& site,
                                            const PhotoId& photo,
                                            const std::vector<ShelvedBytes>& forms)
{
    auto transaction = Transaction::writeAside(connection);
    if (!transaction)
        return tl::unexpected(transaction.error());
    if (auto here = checkIsHere(connection, site); !here)
        return here;
    Writer writer(connection);
    for (const ShelvedBytes& one : forms)
        writer.run("INSERT INTO photo_bytes (site, photo, form, kept_at, bytes)"
                   " VALUES (?, ?, ?, ?, ?)"
                   " ON CONFLICT (site, photo, form) DO UPDATE SET"
                   " kept_at = excluded.kept_at, bytes = excluded.bytes",
                   {site.text, photo.text, photoFormText(one.form),
                    QDateTime::currentMSecsSinceEpoch(), one.bytes});
    if (!writer.good())
        return tl::unexpected(writer.fault());
    return transaction->commit();
}

tl::expected<bool, SqlFault> hasPhotoRows(Connection& connection, const SiteId& site,
                                          const PhotoId& photo)
{
    auto rows = connection.run("SELECT 1 FROM photo_bytes"
                               " WHERE site = ? AND photo = ? AND form = 'full'",
                               {site.text, photo.text});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next();
}

} // namespace ramplight
