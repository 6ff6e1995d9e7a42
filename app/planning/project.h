// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <array>
#include <vector>

// The classical resource-constrained project scheduling problem: activities with a fixed duration,
// an order between them and renewable resources of constant capacity. The core that the workshop's
// planner stands on is measured with it.
namespace ramplight::planning {

/// Kinds of resource of a project at most: their free amounts share one machine word.
inline constexpr int maxResources = 4;
/// Largest capacity of a resource, and largest need: 15 bits beside a guard bit.
inline constexpr int maxCapacity = 0x7FFF;

using Needs = std::array<int, maxResources>;

struct Activity
{
    int duration = 0;                 ///< whole time units; 0: a milestone
    Needs needs = {};                 ///< of each resource while it runs, at most its capacity
    std::vector<int> successors = {}; ///< by index; may start when this has ended
};

struct Project
{
    std::vector<Activity> activities; ///< without a cycle
    Needs capacities = {};

    [[nodiscard]] int size() const { return static_cast<int>(activities.size()); }
};

/// Longest chain of durations: no schedule is shorter.
[[nodiscard]] int criticalPath(const Project& project);
/// No schedule is shorter: the longest chain, or the work of a resource by its capacity.
[[nodiscard]] int lowerBound(const Project& project);
/// The successors of each.
[[nodiscard]] std::vector<std::vector<int>> successorsOf(const Project& project);
/// The activities in an order in which each comes after all it waits for.
[[nodiscard]] std::vector<int> topologicalOrder(const Project& project);

} // namespace ramplight::planning
