// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/limitrows.h"

#include "domain/housecatalogue.h"
#include "domain/say.h"
#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

QString boundWords(std::optional<int> min, std::optional<int> max, int decimals, Unit unit)
{
    if (min && max)
        return say("%1 to %2")
            .arg(valueWords(*min, decimals, Unit::None), valueWords(*max, decimals, unit));
    if (min)
        return say("at least %1").arg(valueWords(*min, decimals, unit));
    return max ? say("at most %1").arg(valueWords(*max, decimals, unit)) : say("not set");
}

} // namespace

LimitRow limitRow(const NamedLimit& limit, bool own)
{
    LimitRow row;
    row.rowId = limit.name;
    row.title = sentence(limit.title);
    row.boundWords = boundWords(limit.min, limit.max, limit.decimals, limit.unit);
    row.ownerWords = words(limit.owner);
    row.source = limit.source;
    row.own = own;
    row.valueText = typedText(limit.min.value_or(limit.max.value_or(0)), limit.decimals);
    row.unitWords = unitWords(limit.unit);
    row.decimals = limit.decimals;
    return row;
}

std::vector<LimitRow> limitRows(const OperationSpec& spec, const OperationSpec& shipped)
{
    std::vector<LimitRow> rows;
    for (const ReadingSpec& reading : spec.readings) {
        const Limit* own = ownLimit(reading);
        const auto before = std::ranges::find(shipped.readings, reading.key, &ReadingSpec::key);
        const Limit* ownBefore = before == shipped.readings.end() ? nullptr : ownLimit(*before);
        for (std::size_t i = 0; i < reading.limits.size(); ++i) {
            const Limit& limit = reading.limits[i];
            NamedLimit shown;
            shown.name = QStringLiteral("%1/%2").arg(reading.key).arg(i);
            shown.title = reading.title;
            shown.unit = reading.unit;
            shown.decimals = reading.decimals;
            shown.owner = limit.owner;
            shown.source = limit.source;
            shown.min = limit.min;
            shown.max = limit.max;
            // One number on one pad: a span keeps its two ends.
            const bool oneEnd = limit.min.has_value() != limit.max.has_value();
            LimitRow row = limitRow(shown, &limit == own && oneEnd);
            row.changed = &limit == own && ownBefore != nullptr &&
                          (ownBefore->min != limit.min || ownBefore->max != limit.max);
            rows.push_back(row);
        }
        if (!reading.neededFrom)
            continue;
        LimitRow row;
        row.rowId = QStringLiteral("%1/car").arg(reading.key);
        row.title = sentence(reading.title);
        row.boundWords = say("this car's own, entered before the work");
        row.ownerWords = words(*reading.neededFrom);
        rows.push_back(row);
    }
    return rows;
}

} // namespace ramplight
