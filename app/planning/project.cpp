// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/project.h"

#include <algorithm>

namespace ramplight::planning {

std::vector<std::vector<int>> successorsOf(const Project& project)
{
    std::vector<std::vector<int>> all;
    all.reserve(project.activities.size());
    for (const Activity& activity : project.activities)
        all.push_back(activity.successors);
    return all;
}

std::vector<int> topologicalOrder(const Project& project)
{
    const auto n = static_cast<std::size_t>(project.size());
    std::vector<int> open(n, 0);
    for (const Activity& activity : project.activities) {
        for (const int next : activity.successors)
            ++open[static_cast<std::size_t>(next)];
    }
    std::vector<int> order;
    order.reserve(n);
    for (std::size_t i = 0; i < n; ++i) {
        if (open[i] == 0)
            order.push_back(static_cast<int>(i));
    }
    for (std::size_t at = 0; at < order.size(); ++at) {
        for (const int next : project.activities[static_cast<std::size_t>(order[at])].successors) {
            if (--open[static_cast<std::size_t>(next)] == 0)
                order.push_back(next);
        }
    }
    return order;
}

int criticalPath(const Project& project)
{
    std::vector<int> earliest(project.activities.size(), 0);
    int longest = 0;
    for (const int i : topologicalOrder(project)) {
        const Activity& activity = project.activities[static_cast<std::size_t>(i)];
        const int end = earliest[static_cast<std::size_t>(i)] + activity.duration;
        longest = std::max(longest, end);
        for (const int next : activity.successors) {
            int& start = earliest[static_cast<std::size_t>(next)];
            start = std::max(start, end);
        }
    }
    return longest;
}

int lowerBound(const Project& project)
{
    int bound = criticalPath(project);
    for (std::size_t k = 0; k < project.capacities.size(); ++k) {
        if (project.capacities[k] <= 0)
            continue;
        int work = 0;
        for (const Activity& activity : project.activities)
            work += activity.duration * activity.needs[k];
        bound = std::max(bound, (work + project.capacities[k] - 1) / project.capacities[k]);
    }
    return bound;
}

} // namespace ramplight::planning
