// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopsearch.h"

#include "planning/dice.h"
#include "planning/dispatching.h"
#include "planning/indexing.h"
#include "planning/shopscheduler.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

namespace ramplight::planning {

namespace {

/// What soon begins stays as it was planned, where that is still possible.
std::vector<Fixed> steadyJobs(const ShopIndex& index, const ShopSearch& search)
{
    const Shop& shop = index.shop();
    std::vector<Fixed> steady;
    if (search.previous.size() != shop.jobs.size())
        return steady;
    std::vector<int> soon;
    for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
        const PlanMinute start = search.previous[i].start;
        if (!shop.jobs[i].running && start >= 0 && start < search.steadyMinutes)
            soon.push_back(static_cast<int>(i));
    }
    std::stable_sort(soon.begin(), soon.end(), [&search](int a, int b) {
        return search.previous[at(a)].start < search.previous[at(b)].start;
    });
    ShopScheduler scheduler(index);
    scheduler.begin({});
    for (const int job : soon) {
        const std::vector<int>& after = shop.jobs[at(job)].after;
        const bool isOpen = std::all_of(after.begin(), after.end(),
                                        [&](int before) { return scheduler.isPlaced(before); });
        if (isOpen && scheduler.placeAt(job, search.previous[at(job)]))
            steady.push_back({job, scheduler.placement(job)});
    }
    return steady;
}

// Simulated annealing on one order of jobs (Kirkpatrick, Gelatt and Vecchi 1983), in cycles of
// which each is twice as long as the one before and begins with the best: so it needs no clock.
// The state of the plan is kept every few jobs: a changed order is placed from its first change on,
// given up when it costs too much, and known to be the old plan as soon as the state is the same.
class ShopAnnealing
{
public:
    ShopAnnealing(const ShopIndex& index, const ShopSearch& search)
        : m_index(index)
        , m_budget(search.budget)
        , m_dice(search.seed)
        , m_steady(steadyJobs(index, search))
        , m_start(index)
        , m_work(index)
    {
        m_start.begin(m_steady);
    }

    ShopPlan run()
    {
        begin();
        const int n = static_cast<int>(m_list.size());
        std::int64_t cycle = firstCycle;
        std::int64_t step = 0;
        int idle = 0;
        double scale = std::max(m_cost, 1.0);
        while (!m_budget.isOver(m_made) && idle < idleAtMost) {
            m_trial = m_list;
            const int from = n < 2 ? -1 : (m_dice.chance(carShare) ? moveCar() : moveJob());
            if (from < 0) {
                ++idle;
                continue;
            }
            idle = 0;
            const double cooled = std::pow(coldest / hottest, double(step) / double(cycle));
            const double limit = m_cost - scale * hottest * cooled * std::log(1.0 - m_dice.share());
            const Made made = makeFrom(from, limit);
            if (made.cost <= limit)
                accept(from, made);
            if (++step < cycle)
                continue;
            step = 0;
            cycle *= 2;
            scale = std::max(m_bestCost, 1.0) / 2;
            restart(m_bestList);
        }
        m_best.schedules = m_made;
        return m_best;
    }

private:
    struct Made
    {
        double cost = 0;
        int states = 0; ///< one past the last kept state that is not the old one
    };

    // Tuned on 20 workshops (seeds 1 to 20 of the bench's; it measures others).
    static constexpr std::int64_t firstCycle = 8'000;
    static constexpr double hottest = 0.001; ///< share of the cost
    static constexpr double coldest = 0.00005;
    static constexpr double carShare = 0.9; ///< moves of a car's jobs rather than of one job
    static constexpr int farthestCar = 300; ///< places
    static constexpr int farthestJob = 20;  ///< jobs passed that want the same people or bays
    static constexpr int gap = 24;          ///< jobs between two kept states
    static constexpr int idleAtMost = 500;  ///< moves that change nothing before it gives up

    [[nodiscard]] const Shop& shop() const { return m_index.shop(); }
    [[nodiscard]] int carOf(int job) const { return shop().jobs[at(job)].car; }

    /// Starts from the best of the rules' plans and of three that take car by car.
    void begin()
    {
        for (const Rule rule : allRules) {
            const ShopPlan plan = dispatched(m_index, rule, m_steady);
            ++m_made;
            if (m_best.jobs.empty() || plan.cost < m_best.cost)
                m_best = plan;
        }
        m_list = listOf(m_best);
        m_states.assign(m_list.size() / gap + 2, m_start);
        m_newStates = m_states;
        m_position.assign(shop().jobs.size(), -1);
        restart(m_list);
        std::vector<double> work(shop().cars.size(), 0);
        for (const ShopJob& job : shop().jobs)
            work[at(job.car)] += job.minutes.usual;
        const std::array<std::function<double(int)>, 3> keys = {
            [this](int car) { return double(shop().cars[at(car)].promised); },
            [this](int car) {
                return double(shop().cars[at(car)].promised) / shop().cars[at(car)].weight;
            },
            [this, &work](int car) { return work[at(car)] / shop().cars[at(car)].weight; }};
        const std::vector<int> first = m_list;
        std::vector<int> chosen = m_list;
        double cost = m_cost;
        for (const auto& key : keys) {
            std::vector<int> list = first;
            std::stable_sort(list.begin(), list.end(), [&](int a, int b) {
                return std::pair(key(carOf(a)), carOf(a)) < std::pair(key(carOf(b)), carOf(b));
            });
            restart(list);
            if (m_cost < cost) {
                cost = m_cost;
                chosen = listOf(m_work.plan());
            }
        }
        restart(chosen);
    }

    /// The jobs that are not fixed, by their start in a plan, none before what it waits for.
    [[nodiscard]] std::vector<int> listOf(const ShopPlan& plan)
    {
        std::vector<int> list;
        for (int i = 0; i < static_cast<int>(plan.jobs.size()); ++i) {
            if (!m_start.isPlaced(i))
                list.push_back(i);
        }
        std::stable_sort(list.begin(), list.end(), [&](int a, int b) {
            const PlanMinute startA = plan.jobs[at(a)].start;
            const PlanMinute startB = plan.jobs[at(b)].start;
            return startA != startB ? startA < startB : m_index.tail(a) > m_index.tail(b);
        });
        putInOrder(list);
        return list;
    }

    /// Moves what a job waits for before it, where it is not.
    void putInOrder(std::vector<int>& list)
    {
        m_done.assign(shop().jobs.size(), 0);
        m_ordered.clear();
        for (const int job : list) {
            m_stack.push_back(job);
            while (!m_stack.empty()) {
                const int top = m_stack.back();
                const std::size_t depth = m_stack.size();
                if (!m_done[at(top)] && !m_start.isPlaced(top)) {
                    for (const int before : m_index.precedence().before(top)) {
                        if (!m_done[at(before)] && !m_start.isPlaced(before))
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

    void restart(const std::vector<int>& list)
    {
        m_trial = list;
        m_cost = std::numeric_limits<double>::max();
        const Made made = make(0, static_cast<int>(list.size()), m_cost);
        accept(0, made);
    }

    void accept(int from, const Made& made)
    {
        m_list.swap(m_trial);
        for (std::size_t k = at(from); k < m_list.size(); ++k)
            m_position[at(m_list[k])] = static_cast<int>(k);
        for (int state = from / gap + 1; state < made.states; ++state)
            std::swap(m_states[at(state)], m_newStates[at(state)]);
        m_cost = made.cost;
        if (m_bestList.empty() || m_cost < m_bestCost - 1e-9) {
            m_bestCost = m_cost;
            m_bestList = m_list;
            if (m_cost < m_best.cost - 1e-9)
                m_best = m_work.plan();
        }
    }

    [[nodiscard]] Made makeFrom(int from, double limit)
    {
        int last = static_cast<int>(m_list.size()) - 1;
        while (last > from && m_trial[at(last)] == m_list[at(last)])
            --last;
        return make(from, last, limit);
    }

    /// Places the tried order, which differs from the list in places from .. last.
    [[nodiscard]] Made make(int from, int last, double limit)
    {
        ++m_made;
        const int n = static_cast<int>(m_trial.size());
        const int state = from / gap;
        m_work = state == 0 ? m_start : m_states[at(state)];
        for (int k = state * gap; k < n; ++k) {
            if (k % gap == 0 && k > from) {
                if (k > last && m_states[at(k / gap)].print() == m_work.print())
                    return {m_cost, k / gap};
                m_newStates[at(k / gap)] = m_work;
            }
            m_work.place(m_trial[at(k)]);
            if (m_work.costSoFar() > limit)
                return {std::numeric_limits<double>::infinity(), 0};
        }
        return {m_work.finalCost(), (n - 1) / gap + 1};
    }

    // Each move changes m_trial and answers the first place that changed; negative: none did.

    /// A car's jobs from some place on go forward, or those up to it back, by the same distance.
    [[nodiscard]] int moveCar()
    {
        const int n = static_cast<int>(m_list.size());
        const int pivot = m_dice.below(n);
        const int car = carOf(m_list[at(pivot)]);
        const bool forward = m_dice.chance(0.5);
        const int distance = m_dice.between(1, farthestCar);
        m_moved.clear();
        for (const int job : m_index.jobsOf(car)) {
            const int place = m_position[at(job)];
            if (place >= 0 && (forward ? place >= pivot : place <= pivot))
                m_moved.push_back(place);
        }
        std::sort(m_moved.begin(), m_moved.end());
        m_trial.clear();
        std::size_t next = 0;  // of the moved ones to be put in
        std::size_t taken = 0; // of the moved ones to be left out
        for (int place = 0; place < n; ++place) {
            if (taken < m_moved.size() && m_moved[taken] == place) {
                ++taken;
                continue;
            }
            while (next < m_moved.size() &&
                   m_moved[next] + (forward ? -distance : distance) < place)
                m_trial.push_back(m_list[at(m_moved[next++])]);
            m_trial.push_back(m_list[at(place)]);
        }
        while (next < m_moved.size())
            m_trial.push_back(m_list[at(m_moved[next++])]);
        putInOrder(m_trial);
        const auto changed = std::mismatch(m_trial.begin(), m_trial.end(), m_list.begin()).first;
        return changed == m_trial.end() ? -1 : static_cast<int>(changed - m_trial.begin());
    }

    /// One job passes some that want the same people or bays.
    [[nodiscard]] int moveJob()
    {
        const int n = static_cast<int>(m_list.size());
        const int place = m_dice.below(n);
        const int job = m_list[at(place)];
        int lowest = 0;
        int highest = n - 1;
        for (const int before : m_index.precedence().before(job))
            lowest = std::max(lowest, m_position[at(before)] + 1);
        for (const int after : m_index.precedence().after(job)) {
            if (m_position[at(after)] >= 0)
                highest = std::min(highest, m_position[at(after)] - 1);
        }
        const int direction = m_dice.chance(0.5) ? -1 : 1;
        int left = m_dice.between(1, farthestJob);
        int to = -1;
        for (int p = place + direction; p >= lowest && p <= highest && left > 0; p += direction) {
            if (competes(m_list[at(p)], job)) {
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

    [[nodiscard]] bool competes(int a, int b) const
    {
        const ShopJob& one = shop().jobs[at(a)];
        const ShopJob& other = shop().jobs[at(b)];
        return one.car == other.car || m_index.crewsMeet(one.crew, other.crew) ||
               (one.bays >= 0 && one.bays == other.bays);
    }

    const ShopIndex& m_index;
    const Budget& m_budget;
    Dice m_dice;
    std::vector<Fixed> m_steady;
    ShopScheduler m_start; ///< with what is fixed
    ShopScheduler m_work;
    std::vector<ShopScheduler> m_states; ///< after each gap of the list
    std::vector<ShopScheduler> m_newStates;
    std::vector<int> m_list;
    std::vector<int> m_trial;
    std::vector<int> m_position; ///< in the list, by job; negative: fixed
    std::vector<int> m_bestList;
    std::vector<int> m_ordered;
    std::vector<int> m_stack;
    std::vector<char> m_done;
    std::vector<int> m_moved;
    double m_cost = 0;
    double m_bestCost = 0;
    std::int64_t m_made = 0;
    ShopPlan m_best;
};

} // namespace

ShopPlan planShop(const Shop& shop, const ShopSearch& search)
{
    const ShopIndex index(shop);
    return ShopAnnealing(index, search).run();
}

} // namespace ramplight::planning
