// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/activitylist.h"
#include "planning/project.h"

#include <cstdint>
#include <span>
#include <vector>

// Schedules out of orders. Serial generation places one activity after the other as early as
// resources allow; parallel generation goes through time and starts what fits (Kelley 1963; Kolisch
// 1996). Justification pushes a schedule to its end and back to its start and never makes it
// longer (Valls, Ballestin and Quintanilla 2005).
namespace ramplight::planning {

/// Makes the schedules of one project; holds the buffers, so that a schedule costs no memory.
/// One per thread; a pass of 120 activities takes microseconds.
class ProjectScheduler
{
public:
    explicit ProjectScheduler(const Project& project);

    [[nodiscard]] const Precedence& precedence() const { return m_precedence; }
    [[nodiscard]] int size() const { return m_size; }
    [[nodiscard]] int lowerBound() const { return m_lowerBound; }
    /// When each has to end for the project to take no longer than its longest chain, resources
    /// left aside: smaller is more urgent.
    [[nodiscard]] std::span<const int> latestFinishes() const { return m_latestFinishes; }

    /// Each pass below leaves starts() and answers the makespan. list is an order of all
    /// activities in which each comes after those it waits for.
    int serial(std::span<const int> list);
    /// Starts, at each moment, those that may and fit, in the order of list.
    int parallel(std::span<const int> list);
    /// Pushes the schedule at hand as late as its makespan allows, last ends first, then as early
    /// as resources allow: two passes.
    int justify();
    int pushLate();
    int pushEarly();

    [[nodiscard]] std::span<const int> starts() const { return m_starts; }
    /// The schedule at hand as a list: by start; equal starts by position in the order before.
    void writeOrder(std::span<int> list);
    /// Passes made so far.
    [[nodiscard]] std::int64_t passes() const { return m_passes; }

private:
    using Word = std::uint64_t;
    void clear(int until);
    int place(int activity, int earliest);
    /// Each of m_order as early as it can begin; the makespan.
    int placeInOrder();
    void sortBy(std::span<const int> keys, int largest);

    int m_size = 0;
    int m_lowerBound = 0;
    Word m_full = 0; ///< all capacities, with guard bits
    std::vector<int> m_durations;
    std::vector<Word> m_needs;
    Precedence m_precedence;
    std::vector<int> m_latestFinishes;
    std::vector<int> m_starts;
    std::vector<int> m_ends;
    std::vector<Word> m_free; ///< by time unit
    std::vector<int> m_order;
    std::vector<int> m_sorted;
    std::vector<int> m_counts;
    int m_dirty = 0; ///< time units of m_free that are not full
    int m_makespan = 0;
    std::int64_t m_passes = 0;
};

} // namespace ramplight::planning
