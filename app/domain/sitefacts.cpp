// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/sitefacts.h"

#include <algorithm>

namespace ramplight {

SiteFacts siteFacts(const SiteId& id, const SiteState& site, const std::vector<CarCard>& wall,
                    Moment now)
{
    SiteFacts facts{id, site.name};
    const QDate today = dayOf(now, site.rules);
    for (const CarCard& card : wall) {
        ++facts.inPrep;
        facts.held += card.isHeldBySafety(now) ? 1 : 0;
        facts.ready += card.statusAt(now) == CarStatus::ReadyForRelease ? 1 : 0;
        facts.late += card.promised.isValid() && card.promised < today ? 1 : 0;
        if (facts.oldestChange.isNull() || card.lastAt < facts.oldestChange)
            facts.oldestChange = card.lastAt;
    }
    return facts;
}

} // namespace ramplight
