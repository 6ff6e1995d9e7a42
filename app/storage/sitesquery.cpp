// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/sitesquery.h"

#include "storage/entrytable.h"
#include "storage/wallquery.h"

#include <utility>

namespace ramplight {

tl::expected<std::vector<SiteFacts>, StoreError> SitesQuery::after(const SiteId& site, int most,
                                                                   Moment now)
{
    std::vector<SiteId> sites;
    {
        auto rows = m_ledger.connection().run(
            "SELECT site FROM site WHERE site > ? AND NOT EXISTS"
            " (SELECT 1 FROM site_move WHERE site_move.site = site.site AND away = 1"
            " AND number = (SELECT max(number) FROM site_move last WHERE last.site = site.site))"
            " ORDER BY site LIMIT ?",
            {site.text, most});
        if (!rows)
            return tl::unexpected(storeError(rows.error()));
        while (rows->next())
            sites.push_back({rows->text(0)});
    }
    std::vector<SiteFacts> facts;
    for (const SiteId& one : sites) {
        auto found = factsOf(one, now);
        if (!found)
            return tl::unexpected(found.error());
        facts.push_back(std::move(*found));
    }
    return facts;
}

tl::expected<SiteFacts, StoreError> SitesQuery::factsOf(const SiteId& site, Moment now)
{
    const auto entries = entriesAfter(m_ledger.connection(), site, siteStream(), 0);
    if (!entries)
        return tl::unexpected(storeError(entries.error()));
    SiteState state;
    for (const Entry& entry : *entries)
        // One that this program does not know is for that site's own check to tell.
        if (const auto envelope = siteEnvelopeOf(entry))
            apply(state, *envelope);
    const auto wall = WallQuery(m_ledger, site).wall();
    if (!wall)
        return tl::unexpected(wall.error());
    return siteFacts(site, state, *wall, now);
}

} // namespace ramplight
