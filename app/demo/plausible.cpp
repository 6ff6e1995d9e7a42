// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/plausible.h"

namespace ramplight::demo {

int plausibleFigure(const ReadingSpec& spec)
{
    switch (spec.unit) {
    case Unit::NewtonMetre:
        return 120;
    case Unit::Bar:
        return 24;
    case Unit::Micrometre:
        return 300;
    default:
        return 220;
    }
}

ReadingValue plausibleReading(const Operation& operation, const ReadingSpec& spec,
                              const PlaceId& place, QRandomGenerator& random)
{
    switch (spec.kind) {
    case ReadingKind::Text:
        return {{}, QStringLiteral("as marked, no. %1").arg(random.bounded(100, 999))};
    case ReadingKind::Choice: {
        // Some answers go with something else: take the plainest one that lets it close.
        for (const ChoiceOption& option : spec.options)
            if (option.closes && option.opens.isEmpty())
                return {{}, option.id};
        for (const ChoiceOption& option : spec.options)
            if (option.closes)
                return {{}, option.id};
        return {{}, spec.options.front().id};
    }
    case ReadingKind::Figure:
        if (const Figure* figure = operation.figure(spec.key, place))
            return {figure->value, {}};
        return {plausibleFigure(spec), {}};
    case ReadingKind::Record:
        return {int(random.bounded(2, 40)), {}};
    case ReadingKind::Limit:
        break;
    }
    int low = 0;
    int high = 1'000'000;
    for (const Limit& limit : spec.limits) {
        low = std::max(low, limit.min.value_or(low));
        high = std::min(high, limit.max.value_or(high));
    }
    if (const Figure* figure = operation.figure(spec.key, place))
        (spec.neededIsMax ? high : low) = figure->value;
    if (high == 1'000'000)
        return {low + int(random.bounded(low / 2 + 8)), {}};
    return {low + int(random.bounded(std::max(1, (high - low) / 2 + 1))), {}};
}

} // namespace ramplight::demo
