// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/dice.h"
#include "planning/forecast.h"

#include <vector>

// A workshop whose people, kinds of work and cars take longer or shorter than the catalogue says,
// the work that it signed off, and what then really happens to a plan.
namespace ramplight::test {

struct InventedHouse
{
    planning::Shop shop; ///< with the catalogue's minutes
    planning::ShopKeys keys;
    std::vector<planning::WorkRecord> records; ///< of the time before; some timers ran on
    std::vector<double> jobMedians; ///< true ones of the shop's jobs, car and person left aside
    std::vector<double> jobSpreads;
    std::vector<double> people;   ///< true factors, as logarithms
    std::vector<double> carKinds; ///< likewise, by car of the shop
    double carSpread = 0.2;
};

[[nodiscard]] InventedHouse inventedHouse(std::uint64_t seed, int cars, int records);

/// When the cars are ready in one course of things, everybody keeping to the plan's order.
[[nodiscard]] std::vector<planning::PlanMinute>
whatHappens(const InventedHouse& house, const planning::ShopPlan& plan, planning::Dice& dice);

} // namespace ramplight::test
