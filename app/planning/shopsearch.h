// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/budget.h"
#include "planning/shop.h"

#include <cstdint>

// The search for a good plan of the workshop.
namespace ramplight::planning {

struct ShopSearch
{
    Budget budget = {};
    std::uint64_t seed = 1;
    /// The plan until now, its minutes counted from the new plan's start, by job of the new shop
    /// (not planned: the job is new). Empty: there is none.
    std::vector<Placement> previous = {};
    /// What starts sooner than this keeps person, bay and start, as long as that is possible; so
    /// does what should have begun by now, as late as it is.
    int steadyMinutes = 120;
};

/// The best plan that the budget lets it find; at least the best of the dispatching rules. The shop
/// has no faults. Deterministic for a seed and a number of schedules.
[[nodiscard]] ShopPlan planShop(const Shop& shop, const ShopSearch& search);

} // namespace ramplight::planning
