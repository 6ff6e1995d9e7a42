// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/housecalendar.h"

#include <QDateTime>
#include <QLocale>

#include <algorithm>

namespace ramplight::planning {

namespace {

bool isClosed(const HouseCalendar& calendar, QDate day)
{
    return std::ranges::find(calendar.closed, day) != calendar.closed.end();
}

std::size_t weekdayOf(QDate day)
{
    return static_cast<std::size_t>(day.dayOfWeek() - 1);
}

std::array<DayTimes, 7> weekOf(const WeekHours& hours)
{
    std::array<DayTimes, 7> week;
    for (std::size_t d = 0; d < std::min(week.size(), hours.size()); ++d) {
        week[d] = {hours[d].opens, hours[d].closes, {}};
        if (hours[d].hasBreak())
            week[d].breaks = {{hours[d].breakFrom, hours[d].breakTo}};
    }
    return week;
}

/// In order, and what touches is one.
std::vector<Span> merged(std::vector<Span> spans)
{
    std::ranges::sort(spans, {}, &Span::from);
    std::vector<Span> whole;
    for (const Span& span : spans) {
        if (!whole.empty() && span.from <= whole.back().to)
            whole.back().to = std::max(whole.back().to, span.to);
        else
            whole.push_back(span);
    }
    return whole;
}

} // namespace

HouseCalendar calendarOf(const SiteState& site)
{
    HouseCalendar calendar;
    calendar.week = weekOf(site.rules.week);
    calendar.closed = site.rules.closed;
    for (const auto& [id, person] : site.people) {
        if (!person.times.week.empty())
            calendar.shifts[id] = weekOf(person.times.week);
        for (const DaysAway& away : person.times.away)
            calendar.away[id].push_back(
                {startOf(away.first, site.rules), startOf(away.last.addDays(1), site.rules)});
        for (const ExtraHours& extra : person.times.extra)
            calendar.extra[id].push_back({extra.day, {extra.from, extra.to}});
    }
    return calendar;
}

PlanClock::PlanClock(Moment start, const HouseRules& rules)
    : m_start(start)
    , m_zone(zoneOf(rules))
{
}

PlanMinute PlanClock::minuteOf(Moment moment) const
{
    const qint64 span = moment.ms - m_start.ms;
    return static_cast<PlanMinute>(span >= 0 ? span / 60'000 : -((59'999 - span) / 60'000));
}

PlanMinute PlanClock::minuteOf(QDate day, int localMinute) const
{
    const QDateTime midnight(day, QTime(0, 0), m_zone);
    const QDateTime at(day.addDays(localMinute / (24 * 60)),
                       QTime(localMinute / 60 % 24, localMinute % 60), m_zone);
    return minuteOf(
        Moment{(at.isValid() ? at : midnight.addSecs(localMinute * 60)).toMSecsSinceEpoch()});
}

Moment PlanClock::momentOf(PlanMinute minute) const
{
    return m_start.plusMinutes(minute);
}

QDate PlanClock::dayOf(PlanMinute minute) const
{
    return QDateTime::fromMSecsSinceEpoch(momentOf(minute).ms, m_zone).date();
}

QString PlanClock::words(PlanMinute minute) const
{
    const QDateTime at = QDateTime::fromMSecsSinceEpoch(momentOf(minute).ms, m_zone);
    const qint64 away = dayOf(0).daysTo(at.date());
    // A weekday is one to come.
    return QLocale().toString(at, away == -1              ? QStringLiteral("'yesterday' hh:mm")
                                  : away >= 0 && away < 7 ? QStringLiteral("ddd hh:mm")
                                                          : QStringLiteral("d MMM hh:mm"));
}

const DayTimes* openOn(const HouseCalendar& calendar, QDate day)
{
    const DayTimes& times = calendar.week[weekdayOf(day)];
    return isClosed(calendar, day) || times.closes <= times.opens ? nullptr : &times;
}

WorkTimes workTimesOf(const HouseCalendar& calendar, PersonId person, const PlanClock& clock,
                      int days)
{
    std::vector<Span> spans;
    const auto own = calendar.shifts.find(person);
    const QDate first = clock.dayOf(0);
    for (int d = 0; d < days; ++d) {
        const QDate day = first.addDays(d);
        if (isClosed(calendar, day))
            continue;
        const DayTimes& times = own == calendar.shifts.end() ? calendar.week[weekdayOf(day)]
                                                             : own->second[weekdayOf(day)];
        if (times.closes <= times.opens)
            continue;
        std::vector<Span> breaks = times.breaks;
        std::sort(breaks.begin(), breaks.end(),
                  [](const Span& a, const Span& b) { return a.from < b.from; });
        int from = times.opens;
        for (const Span& pause : breaks) {
            if (pause.from > from)
                spans.push_back({clock.minuteOf(day, from),
                                 clock.minuteOf(day, std::min(pause.from, times.closes))});
            from = std::max(from, pause.to);
        }
        if (from < times.closes)
            spans.push_back({clock.minuteOf(day, from), clock.minuteOf(day, times.closes)});
    }
    if (const auto extra = calendar.extra.find(person); extra != calendar.extra.end()) {
        for (const auto& [day, span] : extra->second)
            if (day >= first && first.daysTo(day) < days)
                spans.push_back({clock.minuteOf(day, span.from), clock.minuteOf(day, span.to)});
        spans = merged(std::move(spans));
    }
    if (const auto away = calendar.away.find(person); away != calendar.away.end()) {
        for (const Away& absence : away->second) {
            const PlanMinute gone = clock.minuteOf(absence.from);
            const PlanMinute back = clock.minuteOf(absence.to);
            std::vector<Span> left;
            for (const Span& span : spans) {
                left.push_back({span.from, std::min(span.to, gone)});
                left.push_back({std::max(span.from, back), span.to});
            }
            spans.swap(left);
            std::erase_if(spans, [](const Span& span) { return span.to <= span.from; });
        }
    }
    for (Span& span : spans)
        span.from = std::max(span.from, 0);
    return WorkTimes(std::move(spans));
}

} // namespace ramplight::planning
