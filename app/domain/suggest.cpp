// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/suggest.h"

#include "domain/contains.h"

#include <algorithm>

namespace ramplight {

namespace {

bool fits(const Suggestion& suggestion, const CarFacts& facts, const PlaceInfo& place,
          Condition condition, std::optional<Severity> severity)
{
    const bool severityFits =
        suggestion.severities.empty() || (severity && fitsAny(suggestion.severities, *severity));
    return severityFits && fitsAny(suggestion.placeKinds, place.kind) &&
           fitsAny(suggestion.places, place.id) && fitsAny(suggestion.conditions, condition) &&
           (!suggestion.ifFact || facts.is(*suggestion.ifFact));
}

} // namespace

std::vector<Remedy> usualRemedies(const Catalogue& catalogue, const CarFacts& facts,
                                  const PlaceId& place, Condition condition,
                                  std::optional<Severity> severity)
{
    const PlaceInfo* info = placeInfo(place);
    if (info == nullptr)
        return {};
    for (const Suggestion& suggestion : catalogue.suggestions)
        if (fits(suggestion, facts, *info, condition, severity))
            return suggestion.remedies;
    return {Remedy::Investigate};
}

std::vector<Condition> usualConditions(const Catalogue& catalogue, const PlaceId& place)
{
    const PlaceInfo* info = placeInfo(place);
    if (info == nullptr)
        return {};
    for (const LikelyConditions& likely : catalogue.likely)
        if (fitsAny(likely.placeKinds, info->kind) && fitsAny(likely.places, place))
            return likely.conditions;
    return {};
}

} // namespace ramplight
