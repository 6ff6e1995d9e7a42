// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/workhours.h"

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

constexpr std::size_t daysOfWeek = 7;
constexpr int dayMinutes = 24 * 60;

bool isInDay(int from, int to)
{
    return from >= 0 && to <= dayMinutes && from <= to;
}

} // namespace

WeekHours usualWeek()
{
    const DayHours day{8 * 60, 17 * 60, 12 * 60, 12 * 60 + 30};
    return {day, day, day, day, day, {}, {}};
}

QString hourWords(int minute)
{
    const QLatin1Char zero('0');
    return QStringLiteral("%1:%2").arg(minute / 60, 2, 10, zero).arg(minute % 60, 2, 10, zero);
}

PersonTimes with(PersonTimes times, DaysAway away)
{
    std::erase_if(times.away, [&away](const DaysAway& other) {
        if (other.first > away.last.addDays(1) || other.last < away.first.addDays(-1))
            return false;
        away = {std::min(away.first, other.first), std::max(away.last, other.last)};
        return true;
    });
    times.away.push_back(away);
    std::ranges::sort(times.away, {}, &DaysAway::first);
    return times;
}

PersonTimes with(PersonTimes times, ExtraHours extra)
{
    std::erase_if(times.extra, [&extra](const ExtraHours& other) {
        if (other.day != extra.day || other.from > extra.to || other.to < extra.from)
            return false;
        extra.from = std::min(extra.from, other.from);
        extra.to = std::max(extra.to, other.to);
        return true;
    });
    times.extra.push_back(extra);
    std::ranges::sort(times.extra, {},
                      [](const ExtraHours& one) { return std::pair(one.day, one.from); });
    return times;
}

std::optional<QString> weekFault(const WeekHours& week)
{
    if (week.size() != daysOfWeek)
        return QStringLiteral("a week has seven days");
    if (!std::ranges::all_of(week,
                             [](const DayHours& day) { return isInDay(day.opens, day.closes); }))
        return QStringLiteral("a day closes after it opens, before midnight");
    if (!std::ranges::all_of(week, [](const DayHours& day) {
            return !day.hasBreak() || (day.breakFrom >= day.opens && day.breakTo <= day.closes);
        }))
        return QStringLiteral("a break lies within its day");
    if (std::ranges::all_of(week, &DayHours::isOff))
        return QStringLiteral("work is done on one day of the week at least");
    return std::nullopt;
}

std::optional<QString> timesFault(const PersonTimes& times)
{
    if (!times.week.empty())
        if (auto fault = weekFault(times.week))
            return fault;
    if (!std::ranges::all_of(times.away, [](const DaysAway& away) {
            return away.first.isValid() && away.last >= away.first;
        }))
        return QStringLiteral("days away end on or after the day on which they begin");
    if (!std::ranges::all_of(times.extra, [](const ExtraHours& extra) {
            return extra.day.isValid() && isInDay(extra.from, extra.to) && extra.to > extra.from;
        }))
        return QStringLiteral("extra hours end after they begin, before midnight");
    return std::nullopt;
}

} // namespace ramplight
