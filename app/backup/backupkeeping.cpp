// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupkeeping.h"

#include <algorithm>
#include <set>
#include <utility>

namespace ramplight {
namespace {

using Span = std::pair<int, int>;

Span daySpan(const QDate& date)
{
    return {date.year(), date.dayOfYear()};
}

Span weekSpan(const QDate& date)
{
    int year = 0;
    const int week = date.weekNumber(&year);
    return {year, week};
}

Span monthSpan(const QDate& date)
{
    return {date.year(), date.month()};
}

} // namespace

std::vector<QDateTime> superfluous(std::vector<QDateTime> made, const KeepCounts& counts)
{
    std::set<QDateTime> kept;
    if (!made.empty())
        kept.insert(made.front());
    for (const auto& [spanOf, count] : {std::pair{&daySpan, counts.days},
                                        {&weekSpan, counts.weeks},
                                        {&monthSpan, counts.months}}) {
        std::set<Span> seen;
        for (const QDateTime& time : made) {
            if (std::cmp_greater_equal(seen.size(), count))
                break;
            if (seen.insert(spanOf(time.date())).second)
                kept.insert(time);
        }
    }
    std::erase_if(made, [&](const QDateTime& time) { return kept.contains(time); });
    std::ranges::reverse(made);
    return made;
}

} // namespace ramplight
