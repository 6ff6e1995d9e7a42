// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/projectscheduler.h"
#include "planning/indexing.h"

#include <algorithm>
#include <numeric>

namespace ramplight::planning {

namespace {

constexpr std::uint64_t guards = 0x8000'8000'8000'8000ULL;

std::uint64_t packed(const Needs& amounts)
{
    std::uint64_t word = 0;
    for (std::size_t k = 0; k < amounts.size(); ++k)
        word |= static_cast<std::uint64_t>(amounts[k]) << (16 * k);
    return word;
}

} // namespace

ProjectScheduler::ProjectScheduler(const Project& project)
    : m_size(project.size())
    , m_lowerBound(planning::lowerBound(project))
    , m_full(packed(project.capacities) | guards)
    , m_precedence(successorsOf(project))
{
    const std::size_t n = project.activities.size();
    int horizon = 1;
    for (const Activity& activity : project.activities) {
        m_durations.push_back(activity.duration);
        horizon += activity.duration;
        m_needs.push_back(packed(activity.needs));
    }
    m_latestFinishes.assign(n, criticalPath(project));
    const std::vector<int> order = topologicalOrder(project);
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        for (const int next : m_precedence.after(*i)) {
            m_latestFinishes[at(*i)] = std::min(m_latestFinishes[at(*i)],
                                                m_latestFinishes[at(next)] - m_durations[at(next)]);
        }
    }
    m_starts.assign(n, 0);
    m_ends.assign(n, 0);
    m_order = order;
    m_sorted.assign(n, 0);
    m_free.assign(at(horizon) + 1, m_full);
    m_counts.assign(at(horizon) + 2, 0);
}

void ProjectScheduler::clear(int until)
{
    std::fill_n(m_free.begin(), m_dirty, m_full);
    m_dirty = until;
    ++m_passes;
}

// A need fits where no lane borrows from its guard bit.
int ProjectScheduler::place(int activity, int earliest)
{
    const int duration = m_durations[at(activity)];
    const Word need = m_needs[at(activity)];
    int start = earliest;
    int fitting = 0;
    Word* const units = m_free.data();
    for (int t = earliest; fitting < duration; ++t) {
        if (((units[t] - need) & guards) == guards) {
            ++fitting;
        } else {
            fitting = 0;
            start = t + 1;
        }
    }
    for (int t = start; t < start + duration; ++t)
        units[t] -= need;
    m_starts[at(activity)] = start;
    m_ends[at(activity)] = start + duration;
    return start + duration;
}

int ProjectScheduler::placeInOrder()
{
    clear(0);
    int makespan = 0;
    for (const int i : m_order) {
        int earliest = 0;
        for (const int before : m_precedence.before(i))
            earliest = std::max(earliest, m_ends[at(before)]);
        makespan = std::max(makespan, place(i, earliest));
    }
    m_dirty = makespan;
    return m_makespan = makespan;
}

int ProjectScheduler::serial(std::span<const int> list)
{
    std::copy(list.begin(), list.end(), m_order.begin());
    return placeInOrder();
}

int ProjectScheduler::parallel(std::span<const int> list)
{
    clear(0);
    std::copy(list.begin(), list.end(), m_order.begin());
    std::copy(list.begin(), list.end(), m_sorted.begin());
    std::size_t left = m_sorted.size();
    for (const int i : list)
        m_ends[at(i)] = -1;
    int makespan = 0;
    for (int now = 0; left > 0;) {
        int next = makespan + 1;
        bool started = false;
        std::size_t kept = 0;
        for (std::size_t k = 0; k < left; ++k) {
            const int i = m_sorted[k];
            int earliest = 0;
            for (const int before : m_precedence.before(i)) {
                const int end = m_ends[at(before)];
                earliest = end < 0 ? -1 : std::max(earliest, end);
                if (end < 0)
                    break;
            }
            const bool fits = earliest >= 0 && earliest <= now &&
                              ((m_free[at(now)] - m_needs[at(i)]) & guards) == guards;
            if (fits) {
                // What runs now only ends later: what fits at its start fits throughout.
                const int end = place(i, now);
                makespan = std::max(makespan, end);
                started = started || end == now;
            } else {
                m_sorted[kept++] = i;
            }
        }
        left = kept;
        if (started)
            continue;
        for (const int i : list) {
            if (m_ends[at(i)] > now)
                next = std::min(next, m_ends[at(i)]);
        }
        now = next;
    }
    m_dirty = makespan;
    return m_makespan = makespan;
}

// Counting sort of m_order, stable.
void ProjectScheduler::sortBy(std::span<const int> keys, int largest)
{
    std::fill_n(m_counts.begin(), largest + 2, 0);
    for (const int i : m_order)
        ++m_counts[at(keys[at(i)]) + 1];
    for (int t = 0; t <= largest; ++t)
        m_counts[at(t) + 1] += m_counts[at(t)];
    for (const int i : m_order)
        m_sorted[at(m_counts[at(keys[at(i)])]++)] = i;
    m_order.swap(m_sorted);
}

int ProjectScheduler::pushLate()
{
    sortBy(m_ends, m_makespan);
    clear(m_makespan);
    const int end = m_makespan;
    int first = end;
    Word* const units = m_free.data();
    for (auto i = m_order.rbegin(); i != m_order.rend(); ++i) {
        int latest = end;
        for (const int next : m_precedence.after(*i))
            latest = std::min(latest, m_starts[at(next)]);
        const int duration = m_durations[at(*i)];
        const Word need = m_needs[at(*i)];
        int finish = latest;
        int fitting = 0;
        for (int t = latest - 1; fitting < duration; --t) {
            if (((units[t] - need) & guards) == guards) {
                ++fitting;
            } else {
                fitting = 0;
                finish = t;
            }
        }
        for (int t = finish - duration; t < finish; ++t)
            units[t] -= need;
        m_starts[at(*i)] = finish - duration;
        m_ends[at(*i)] = finish;
        first = std::min(first, finish - duration);
    }
    for (const int i : m_order) {
        m_starts[at(i)] -= first;
        m_ends[at(i)] -= first;
    }
    m_makespan = end - first;
    return m_makespan;
}

int ProjectScheduler::pushEarly()
{
    sortBy(m_starts, m_makespan);
    return placeInOrder();
}

int ProjectScheduler::justify()
{
    pushLate();
    return pushEarly();
}

void ProjectScheduler::writeOrder(std::span<int> list)
{
    sortBy(m_starts, m_makespan);
    std::copy(m_order.begin(), m_order.end(), list.begin());
}

} // namespace ramplight::planning
