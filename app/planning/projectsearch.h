// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/budget.h"
#include "planning/project.h"

#include <cstdint>
#include <vector>

// The search for a short schedule of a project.
namespace ramplight::planning {

struct ProjectSchedule
{
    std::vector<int> starts; ///< time units from the project's start, by activity
    int makespan = 0;
    std::int64_t schedules = 0; ///< generated to find it
};

/// The shortest schedule that the budget lets it find: at least one schedule is made. Ends at once
/// when a schedule is as short as the lower bound. The project is without a cycle, no need is above
/// its capacity.
[[nodiscard]] ProjectSchedule shortSchedule(const Project& project, const Budget& budget,
                                            std::uint64_t seed);

} // namespace ramplight::planning
