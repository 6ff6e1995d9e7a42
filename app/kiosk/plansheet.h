// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/site.h"
#include "planning/houseplan.h"

#include <QDate>
#include <QString>

#include <vector>

// A plan laid out on days and lanes, as its drawing shows it. Pure.
namespace ramplight {

/// A day on which the house works, in local minutes.
struct SheetDay
{
    QDate date;
    int opens = 0;
    int closes = 0;
    std::vector<planning::Span> breaks = {};
};

/// A bay or a person.
struct SheetLane
{
    int id = 0;      ///< bay or person
    int number = -1; ///< in the plan's shop
    QString title;
    QString second; ///< what the bay is for, the person's skills
};

/// What a lane does for a stretch of one day. Times in local minutes, inside opening hours.
struct SheetBar
{
    int job = 0;
    int lane = 0;
    int from = 0;
    int to = 0;
    int clear = 0;      ///< its waiting time is over then
    bool begins = true; ///< false: it goes on from the day before
    bool running = false;
    bool late = false; ///< its car is
    QString stock = {};
    QString title = {};
};

struct PlanSheet
{
    std::vector<SheetDay> days;
    std::vector<SheetLane> bays;
    std::vector<SheetLane> people;
    std::vector<std::vector<SheetBar>> byBay; ///< by day
    std::vector<std::vector<SheetBar>> byPerson;

    [[nodiscard]] const std::vector<SheetLane>& lanes(bool ofPeople) const
    {
        return ofPeople ? people : bays;
    }
    [[nodiscard]] const std::vector<std::vector<SheetBar>>& bars(bool ofPeople) const
    {
        return ofPeople ? byPerson : byBay;
    }
};

/// As many days as the plan and its forecast need, at least two and at most fifteen.
[[nodiscard]] PlanSheet sheetOf(const planning::HousePlan& plan, const SiteState& site);
/// Where a minute of the plan lies on the sheet, as days and parts of a day from the first one on:
/// 1.5 is the middle of the second. Kept within the sheet; nights and closed days have no width.
[[nodiscard]] double placeOn(const PlanSheet& sheet, const planning::HousePlan& plan,
                             planning::PlanMinute minute);

} // namespace ramplight
