// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shop.h"
#include "planning/shopscheduler.h"

#include <span>

// What a workshop does without a plan: whoever is free takes, of what can be begun now, the job
// that a rule puts first. The search starts from these, and is measured against them.
namespace ramplight::planning {

enum class Rule {
    FirstCome,       ///< the car that has been here longest
    EarliestPromise, ///< the car that is promised first
    /// The car with the least time to spare between its promise and what is still to be done on it
    LeastSlack,
    /// Apparent tardiness cost (Vepsalainen and Morton 1987): weight by work left, falling off with
    /// slack; look-ahead 2
    TardinessCost,
};
inline constexpr Rule allRules[] = {Rule::FirstCome, Rule::EarliestPromise, Rule::LeastSlack,
                                    Rule::TardinessCost};

/// The plan that a rule makes (non-delay schedule generation: nobody waits who could begin).
/// fixed as in ShopScheduler::begin(). The index outlives the call only.
[[nodiscard]] ShopPlan dispatched(const ShopIndex& index, Rule rule,
                                  std::span<const Fixed> fixed = {},
                                  Choice choice = Choice::FirstDone);

} // namespace ramplight::planning
