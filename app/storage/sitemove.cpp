// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/sitemove.h"

#include "domain/say.h"

#include <QDateTime>
#include <QLocale>

namespace ramplight {
namespace {

QString movedWords(const SiteMove& move)
{
    return say("This workshop is no longer in this database. On %1 it was moved to %2. Nothing was "
               "written here. Work with it there; to have it here again, move it back from there "
               "(ramplight migrate-store --to-server).")
        .arg(QLocale(QLocale::English)
                 .toString(QDateTime::fromMSecsSinceEpoch(move.at.ms),
                           QStringLiteral("d MMMM yyyy, HH:mm")),
             move.to);
}

tl::expected<void, SqlFault> note(Connection& connection, const SiteId& site, bool away,
                                  const SiteMove& move)
{
    auto rows = connection.run("INSERT INTO site_move (site, number, at, away, place)"
                               " SELECT ?, coalesce(max(number), 0) + 1, ?, ?, ? FROM site_move"
                               " WHERE site = ?",
                               {site.text, move.at.ms, away ? 1 : 0, move.to, site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    return {};
}

} // namespace

tl::expected<std::optional<SiteMove>, SqlFault> movedAway(Connection& connection,
                                                          const SiteId& site)
{
    auto rows = connection.run("SELECT away, at, place FROM site_move WHERE site = ?"
                               " ORDER BY number DESC LIMIT 1",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    if (!rows->next() || rows->whole(0) == 0)
        return std::optional<SiteMove>();
    return SiteMove{{rows->number(1)}, rows->text(2)};
}

tl::expected<void, SqlFault> checkIsHere(Connection& connection, const SiteId& site)
{
    const auto away = movedAway(connection, site);
    if (!away)
        return tl::unexpected(away.error());
    if (*away)
        return tl::unexpected(SqlFault{SqlFault::Kind::Moved, movedWords(**away)});
    return {};
}

tl::expected<void, SqlFault> markMoved(Connection& connection, const SiteId& site,
                                       const SiteMove& move)
{
    return note(connection, site, true, move);
}

tl::expected<void, SqlFault> unmarkMoved(Connection& connection, const SiteId& site,
                                         const SiteMove& back)
{
    return note(connection, site, false, back);
}

} // namespace ramplight
