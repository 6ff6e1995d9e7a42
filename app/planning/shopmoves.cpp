// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopmoves.h"
#include "planning/indexing.h"

#include <algorithm>

namespace ramplight::planning {

ShopMoves::ShopMoves(const ShopIndex& index, const OrderedPlan& plan, Dice& dice, double exchanges)
    : m_index(index)
    , m_plan(plan)
    , m_dice(dice)
    , m_exchanges(exchanges)
{
}

int ShopMoves::carOf(int job) const
{
    return shop().jobs[at(job)].car;
}

int ShopMoves::change(std::vector<int>& trial)
{
    m_trial = m_plan.list;
    if (m_dice.chance(m_exchanges)) {
        const int first = exchange();
        if (first >= 0) {
            trial.swap(m_trial);
            return first;
        }
        m_trial = m_plan.list;
    }
    int from = m_dice.chance(chainShare) ? moveChain() : -1;
    if (from < 0) {
        m_trial = m_plan.list;
        if (m_dice.chance(carShare)) {
            const int pivot = m_dice.below(static_cast<int>(m_plan.list.size()));
            const bool forward = m_dice.chance(0.5);
            from = moveCar(pivot, forward, m_dice.between(1, farthestCar));
        } else {
            from = moveJob();
        }
    }
    trial.swap(m_trial);
    return from;
}

void ShopMoves::putInOrder(std::vector<int>& list)
{
    const auto isFree = [this](int job) {
        return !m_done[at(job)] && m_plan.position[at(job)] >= 0;
    };
    m_done.assign(shop().jobs.size(), 0);
    m_ordered.clear();
    for (const int job : list) {
        m_stack.push_back(job);
        while (!m_stack.empty()) {
            const int top = m_stack.back();
            const std::size_t depth = m_stack.size();
            if (isFree(top)) {
                for (const int before : m_index.precedence().before(top)) {
                    if (isFree(before))
                        m_stack.push_back(before);
                }
                if (m_stack.size() > depth)
                    continue;
                m_done[at(top)] = 1;
                m_ordered.push_back(top);
            }
            m_stack.pop_back();
        }
    }
    list.swap(m_ordered);
}

/// Drawn by its lateness; negative: none is late.
int ShopMoves::lateCar()
{
    double sum = 0;
    for (const double late : m_plan.late)
        sum += late > 0 ? lateBase + late : 0;
    if (sum <= 0)
        return -1;
    double drawn = m_dice.share() * sum;
    int last = -1;
    for (std::size_t car = 0; car < m_plan.late.size(); ++car) {
        if (m_plan.late[car] <= 0)
            continue;
        last = static_cast<int>(car);
        drawn -= lateBase + m_plan.late[car];
        if (drawn < 0)
            break;
    }
    return last;
}

int ShopMoves::lastJobOf(int car) const
{
    int last = -1;
    for (const int job : m_index.jobsOf(car)) {
        const bool isLater =
            last < 0 || m_plan.placements[at(job)].clear > m_plan.placements[at(last)].clear;
        if (m_plan.position[at(job)] >= 0 && isLater)
            last = job;
    }
    return last;
}

// From a late car's last job back along what each job waits for: its own car's work, or other work
// that has its people or bays meanwhile. Somewhere on the way a job passes what is in its way.
int ShopMoves::moveChain()
{
    const int car = lateCar();
    int job = car < 0 ? -1 : lastJobOf(car);
    for (int steps = 0; steps < longestChain; ++steps) {
        if (job < 0 || m_plan.position[at(job)] < 0)
            return -1;
        PlanMinute ready =
            std::max(shop().jobs[at(job)].notBefore, shop().cars[at(carOf(job))].from);
        int binding = -1;
        for (const int before : m_index.precedence().before(job)) {
            if (m_plan.placements[at(before)].clear > ready) {
                ready = m_plan.placements[at(before)].clear;
                binding = before;
            }
        }
        const int blocker = blockerOf(job, ready);
        if (blocker >= 0 && !m_dice.chance(goOn))
            return passBlocker(job, blocker);
        job = binding >= 0 && (blocker < 0 || m_dice.chance(ownWait)) ? binding : blocker;
    }
    return -1;
}

/// One of those that have what a job needs while it waits; negative: it does not wait.
int ShopMoves::blockerOf(int job, PlanMinute ready)
{
    const PlanMinute start = m_plan.placements[at(job)].start;
    int blocker = -1;
    if (start <= ready || start == never)
        return blocker;
    int seen = 0;
    for (int place = m_plan.position[at(job)] - 1; place >= 0; --place) {
        const int other = m_plan.list[at(place)];
        const Placement& there = m_plan.placements[at(other)];
        if (there.start < start && there.clear > ready && competes(other, job) &&
            m_dice.below(++seen) == 0)
            blocker = other;
    }
    return blocker;
}

int ShopMoves::passBlocker(int job, int blocker)
{
    const int place = m_plan.position[at(job)];
    const int before = m_plan.position[at(blocker)];
    if (m_dice.chance(chainSwap))
        return swapCars(before, place);
    if (m_dice.chance(chainCar))
        return moveCar(place, true, place - before);
    if (m_dice.chance(chainBack))
        return moveCar(before, false, place - before);
    m_moved = {carOf(job), -1};
    const auto begin = m_trial.begin();
    std::rotate(begin + before, begin + place, begin + place + 1);
    putInOrder(m_trial);
    return firstChange();
}

/// A car's jobs from some place on go forward; those from it on, or up to it, go back.
int ShopMoves::moveCar(int pivot, bool forward, int distance)
{
    m_wishes.clear();
    m_moved = {carOf(m_plan.list[at(pivot)]), -1};
    wish(pivot, forward || m_dice.chance(0.5), forward ? -distance : distance);
    return merge();
}

int ShopMoves::swapCars(int early, int late)
{
    m_wishes.clear();
    m_moved = {carOf(m_plan.list[at(late)]), carOf(m_plan.list[at(early)])};
    if (m_moved[0] == m_moved[1])
        return -1;
    wish(late, true, early - late);
    wish(early, true, late - early);
    return merge();
}

void ShopMoves::wish(int pivot, bool after, int by)
{
    for (const int job : m_index.jobsOf(carOf(m_plan.list[at(pivot)]))) {
        const int place = m_plan.position[at(job)];
        if (place >= 0 && (after ? place >= pivot : place <= pivot))
            m_wishes.push_back({place + by, by, place});
    }
}

int ShopMoves::merge()
{
    const std::vector<int>& list = m_plan.list;
    std::sort(m_wishes.begin(), m_wishes.end(), [](const Wish& a, const Wish& b) {
        return a.place != b.place ? a.place < b.place : a.was < b.was;
    });
    m_goes.assign(list.size(), 0);
    for (const Wish& one : m_wishes)
        m_goes[at(one.was)] = 1;
    m_trial.clear();
    std::size_t next = 0;
    for (int place = 0; place < static_cast<int>(list.size()); ++place) {
        if (m_goes[at(place)])
            continue;
        // Whoever moves passes the one whose place it wants.
        while (next < m_wishes.size() &&
               m_wishes[next].place + (m_wishes[next].by > 0 ? 1 : 0) <= place)
            m_trial.push_back(list[at(m_wishes[next++].was)]);
        m_trial.push_back(list[at(place)]);
    }
    while (next < m_wishes.size())
        m_trial.push_back(list[at(m_wishes[next++].was)]);
    putInOrder(m_trial);
    return firstChange();
}

int ShopMoves::firstChange() const
{
    const auto changed = std::mismatch(m_trial.begin(), m_trial.end(), m_plan.list.begin()).first;
    return changed == m_trial.end() ? -1 : static_cast<int>(changed - m_trial.begin());
}

/// Two jobs of different cars that want the same bays, or without any the same people, change
/// places, however far apart they are.
int ShopMoves::exchange()
{
    const int n = static_cast<int>(m_plan.list.size());
    const int place = m_dice.below(n);
    const int job = m_plan.list[at(place)];
    const ShopJob& one = shop().jobs[at(job)];
    int other = -1;
    int seen = 0;
    for (int p = 0; p < n; ++p) {
        const ShopJob& two = shop().jobs[at(m_plan.list[at(p)])];
        const bool isAlike = two.bays == one.bays && (one.bays >= 0 || two.crew == one.crew);
        if (isAlike && two.car != one.car && m_dice.below(++seen) == 0)
            other = p;
    }
    if (other < 0)
        return -1;
    m_moved = {one.car, carOf(m_plan.list[at(other)])};
    std::swap(m_trial[at(place)], m_trial[at(other)]);
    putInOrder(m_trial);
    return firstChange();
}

/// One job passes some that want the same people or bays.
int ShopMoves::moveJob()
{
    const int n = static_cast<int>(m_plan.list.size());
    const int place = m_dice.below(n);
    const int job = m_plan.list[at(place)];
    m_moved = {carOf(job), -1};
    int lowest = 0;
    int highest = n - 1;
    for (const int before : m_index.precedence().before(job))
        lowest = std::max(lowest, m_plan.position[at(before)] + 1);
    for (const int after : m_index.precedence().after(job)) {
        if (m_plan.position[at(after)] >= 0)
            highest = std::min(highest, m_plan.position[at(after)] - 1);
    }
    const int direction = m_dice.chance(0.5) ? -1 : 1;
    int left = m_dice.between(1, farthestJob);
    int to = -1;
    for (int p = place + direction; p >= lowest && p <= highest && left > 0; p += direction) {
        if (competes(m_plan.list[at(p)], job)) {
            to = p;
            --left;
        }
    }
    if (to < 0)
        return -1;
    const auto begin = m_trial.begin();
    if (to < place)
        std::rotate(begin + to, begin + place, begin + place + 1);
    else
        std::rotate(begin + place, begin + place + 1, begin + to + 1);
    return std::min(place, to);
}

bool ShopMoves::competes(int a, int b) const
{
    const ShopJob& one = shop().jobs[at(a)];
    const ShopJob& other = shop().jobs[at(b)];
    return one.car == other.car || m_index.crewsMeet(one.crew, other.crew) ||
           (one.bays >= 0 && one.bays == other.bays);
}

} // namespace ramplight::planning
