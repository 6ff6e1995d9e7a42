// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shop.h"

#include <functional>
#include <vector>

// Why a car is ready when it is: what each of its last steps waits for, back to now.
namespace ramplight::planning {

enum class WaitFor {
    Nothing,    ///< it begins with the plan, or as soon as the car is there
    InHand,     ///< it waits no more: somebody is on it
    EarlierJob, ///< work of the same car, or its cure
    Part,       ///< its part, or an outside firm
    Arrival,    ///< the car itself
    Person,     ///< whoever does it has other work first
    Bay,        ///< another car is in the bay
    Elsewhere,  ///< the car is in hand: other work that does not go together with it
    WorkTimes,  ///< nobody who may is at work, or not for long enough
    NoOne,      ///< nobody may do it, or not within the times that people have
};

/// One step back.
struct Reason
{
    int job = -1;
    WaitFor wait = WaitFor::Nothing;
    PlanMinute until = 0; ///< when it can begin
    int other = -1;       ///< the job that it waits for; -1: none
    int person = -1;
    int bay = -1;
};

/// What one job waits for last. The job of its reason is itself.
[[nodiscard]] Reason reasonOf(const Shop& shop, const ShopPlan& plan, int job);

/// From the job that makes the car ready back to one that waits for nothing of the plan; another
/// car's jobs are followed, too, at most so many steps. Empty when nothing of the car is left.
[[nodiscard]] std::vector<Reason> reasonsFor(const Shop& shop, const ShopPlan& plan, int car,
                                             int steps = 12);

/// The reason as a sentence without its end: "valet waits for bay 3 until Thu 14:00, behind S1042".
/// time says a minute of the plan in words; a job of another car than this one is said with its
/// car: "S1042: panel is in hand".
[[nodiscard]] QString words(const Shop& shop, const Reason& reason,
                            const std::function<QString(PlanMinute)>& time, int car);

/// The same where the job is named already: "waits for bay 3 until Thu 14:00, behind S1042".
[[nodiscard]] QString wordsBehindTitle(const Shop& shop, const Reason& reason,
                                       const std::function<QString(PlanMinute)>& time);

/// The same to whoever does it: "after panel on this car".
[[nodiscard]] QString wordsToPerson(const Shop& shop, const Reason& reason,
                                    const std::function<QString(PlanMinute)>& time);

} // namespace ramplight::planning
