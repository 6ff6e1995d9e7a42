// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"
#include "domain/site.h"
#include "planning/forecast.h"
#include "planning/housecalendar.h"
#include "planning/shop.h"

#include <map>
#include <span>

// The planner's workshop out of the house's own values: cars in prep, staff, bays and calendar.
namespace ramplight::planning {

/// A workshop to plan, and what its numbers stand for.
struct HouseShop
{
    Shop shop;
    ShopKeys keys;
    std::vector<PersonId> people;
    std::vector<BayId> bays;
    std::vector<CarId> cars;
    std::vector<OperationId> jobs; ///< of the job's car; null: foreseen, not open yet
    /// By foreseen job: those whose signing opens it.
    std::map<int, std::vector<int>> openers = {};
};

/// Days ahead that are planned.
inline constexpr int plannedDays = 60;

/// Everything that is open on cars that are here and not released. What is blocked waits for its
/// part or firm to the day that was said, or to tomorrow's opening where that day is over. Nobody
/// is named for work that the house has no able and qualified person for: it stays unplanned. With
/// the catalogue in force, also the work that closing the open one is certain to open
/// (domain/foreseen.h); null: only what is open.
[[nodiscard]] HouseShop shopOf(std::span<const CarState> cars, const SiteState& site,
                               const HouseCalendar& calendar, Moment now,
                               const Catalogue* catalogue = nullptr);

/// What a car's signed-off work teaches. Work of several people teaches nothing of one of them and
/// is left out, as is what an outside firm did.
[[nodiscard]] std::vector<WorkRecord> recordsOf(const CarState& car);

} // namespace ramplight::planning
