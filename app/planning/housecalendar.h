// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/houserules.h"
#include "domain/ids.h"
#include "domain/moment.h"
#include "domain/site.h"
#include "planning/worktimes.h"

#include <QDate>
#include <QTimeZone>

#include <array>
#include <map>
#include <vector>

// When the house works, as the planner has it.
namespace ramplight::planning {

/// Local minutes of a day: 8 * 60 is eight in the morning.
struct DayTimes
{
    int opens = 8 * 60;
    int closes = 17 * 60;
    std::vector<Span> breaks = {{12 * 60, 12 * 60 + 30}};
};

/// Somebody is away, sick, on a course.
struct Away
{
    Moment from;
    Moment to;
};

struct HouseCalendar
{
    /// Monday to Sunday; a day on which nobody works opens and closes at 0.
    std::array<DayTimes, 7> week = {DayTimes{}, DayTimes{},         DayTimes{},        DayTimes{},
                                    DayTimes{}, DayTimes{0, 0, {}}, DayTimes{0, 0, {}}};
    std::vector<QDate> closed; ///< holidays
    /// Shifts of those who have others than the house.
    std::map<PersonId, std::array<DayTimes, 7>> shifts = {};
    std::map<PersonId, std::vector<Away>> away = {};
    /// A day's minutes that somebody works, too.
    std::map<PersonId, std::vector<std::pair<QDate, Span>>> extra = {};
};

/// As the house's rules and the people's own times have it.
[[nodiscard]] HouseCalendar calendarOf(const SiteState& site);

/// Turns the house's time into minutes of a plan that starts at a moment, and back. Days of clock
/// changes are as long as they are.
class PlanClock
{
public:
    /// A zone that is unknown counts as UTC.
    PlanClock(Moment start, const HouseRules& rules);

    [[nodiscard]] PlanMinute minuteOf(Moment moment) const;
    [[nodiscard]] PlanMinute minuteOf(QDate day, int localMinute) const;
    [[nodiscard]] Moment momentOf(PlanMinute minute) const;
    [[nodiscard]] QDate dayOf(PlanMinute minute) const;
    /// "Thu 14:00" from the start's day to six days on, "yesterday 14:00", "3 Dec 14:00" otherwise.
    [[nodiscard]] QString words(PlanMinute minute) const;

private:
    Moment m_start;
    QTimeZone m_zone;
};

/// From the start of the plan on, so many days.
[[nodiscard]] WorkTimes workTimesOf(const HouseCalendar& calendar, PersonId person,
                                    const PlanClock& clock, int days);
/// The house's hours of a day, less breaks; empty where it is closed.
[[nodiscard]] const DayTimes* openOn(const HouseCalendar& calendar, QDate day);

} // namespace ramplight::planning
