// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/housecatalogue.h"

#include <algorithm>

namespace ramplight {

namespace {

const NamedLimit* named(const std::vector<NamedLimit>& limits, const QString& name)
{
    const auto at = std::ranges::find(limits, name, &NamedLimit::name);
    return at == limits.end() ? nullptr : &*at;
}

void fill(Limit& limit, const Catalogue& catalogue, const HouseRules& rules)
{
    if (limit.named.isEmpty())
        return;
    const std::optional<NamedLimit> found = namedLimit(catalogue, rules, limit.named);
    if (!found)
        return;
    limit.owner = found->owner;
    limit.source = found->source;
    limit.min = found->min;
    limit.max = found->max;
}

} // namespace

std::optional<NamedLimit> namedLimit(const Catalogue& catalogue, const HouseRules& rules,
                                     const QString& name)
{
    if (const NamedLimit* house = named(catalogue.houseLimits, name)) {
        NamedLimit limit = *house;
        const auto own = std::ranges::find(rules.limits, name, &HouseLimit::name);
        if (own != rules.limits.end())
            (limit.min ? limit.min : limit.max) = own->value;
        return limit;
    }
    const auto country = std::ranges::find(catalogue.countries, rules.country, &Country::id);
    if (country == catalogue.countries.end())
        return std::nullopt;
    const NamedLimit* limit = named(country->limits, name);
    return limit == nullptr ? std::nullopt : std::optional(*limit);
}

Catalogue houseCatalogue(const Catalogue& file, const SiteState& site)
{
    Catalogue catalogue = baseCatalogue(file, site);
    adjust(catalogue, site);
    for (OperationSpec& spec : catalogue.operations) {
        for (ReadingSpec& reading : spec.readings)
            for (Limit& limit : reading.limits)
                fill(limit, catalogue, site.rules);
        if (spec.fresh)
            fill(*spec.fresh, catalogue, site.rules);
    }
    TreadRule& tread = catalogue.tread;
    if (const auto limit = namedLimit(catalogue, site.rules, tread.named)) {
        tread.minTenthsMm = limit->min.value_or(tread.minTenthsMm);
        tread.owner = limit->owner;
        tread.source = limit->source;
    }
    return catalogue;
}

} // namespace ramplight
