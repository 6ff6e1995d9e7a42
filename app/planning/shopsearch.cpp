// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopsearch.h"

#include "planning/dice.h"
#include "planning/dispatching.h"
#include "planning/indexing.h"
#include "planning/shopmoves.h"
#include "planning/shopscheduler.h"
#include "planning/shopsketch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <limits>
#include <span>

namespace ramplight::planning {

namespace {

/// Where a job was to begin, or the first minute from now on at which that person is at work: what
/// was to begin a minute ago and has not been taken up is still theirs.
PlanMinute startNow(const Shop& shop, const Placement& was)
{
    if (was.start >= 0)
        return was.start;
    return was.person < 0 ? 0 : shop.people[at(was.person)].times.nextWork(0);
}

/// Puts a job where it was; what follows work that begins later than it was to, follows it.
bool placeSteadily(ShopScheduler& scheduler, int jobs, int job, const Placement& was,
                   PlanMinute start, PlanMinute slip)
{
    std::vector<PlanMinute> starts = {start};
    for (int one = 0; one < jobs && slip > 0; ++one) {
        const Placement& placed = scheduler.placement(one);
        for (const PlanMinute over : {placed.end, placed.clear}) {
            if (scheduler.isPlaced(one) && over > start && over <= start + slip)
                starts.push_back(over);
        }
    }
    std::ranges::sort(starts);
    return std::ranges::any_of(starts, [&](PlanMinute from) {
        Placement there = was;
        there.start = from;
        return scheduler.placeAt(job, there);
    });
}

/// What soon begins stays as it was planned, where that is still possible.
std::vector<Fixed> steadyJobs(const ShopIndex& index, const ShopSearch& search)
{
    const Shop& shop = index.shop();
    std::vector<Fixed> steady;
    if (search.previous.size() != shop.jobs.size())
        return steady;
    std::vector<int> soon;
    PlanMinute slip = 0;
    for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
        const Placement& was = search.previous[i];
        // What nobody took up for as long as a plan is kept is planned anew.
        if (shop.jobs[i].running || was.start >= search.steadyMinutes ||
            was.start <= -search.steadyMinutes)
            continue;
        soon.push_back(static_cast<int>(i));
        if (const PlanMinute start = startNow(shop, was); start != never)
            slip = std::max(slip, start - was.start);
    }
    std::stable_sort(soon.begin(), soon.end(), [&search](int a, int b) {
        return search.previous[at(a)].start < search.previous[at(b)].start;
    });
    ShopScheduler scheduler(index);
    scheduler.begin({});
    for (const int job : soon) {
        const std::span<const int> after = index.precedence().before(job);
        const bool isOpen = std::all_of(after.begin(), after.end(),
                                        [&](int before) { return scheduler.isPlaced(before); });
        if (!isOpen || scheduler.isPlaced(job))
            continue;
        const std::vector<int>& jobs = index.jobsOf(shop.jobs[at(job)].car);
        std::vector<int> placed;
        std::ranges::copy_if(jobs, std::back_inserter(placed),
                             [&](int one) { return !scheduler.isPlaced(one); });
        const Placement& was = search.previous[at(job)];
        if (!placeSteadily(scheduler, static_cast<int>(shop.jobs.size()), job, was,
                           startNow(shop, was), slip))
            continue;
        for (const int one : placed) {
            if (scheduler.isPlaced(one))
                steady.push_back({one, scheduler.placement(one)});
        }
    }
    return steady;
}

/// How a search goes about it.
struct Manner
{
    int steps = 0;      ///< moves in a cycle
    double hottest = 0; ///< share of half the cost
    double coldest = 0;
    double exchanges = 0; ///< share of moves that exchange two jobs in the same bays
    /// Sketches that are planned first: the share of the greatest load from which on one keeps what
    /// is scarce.
    std::span<const double> sketches = {};
    int schedulesBetweenStops = 1; ///< before it asks again whether to stop
};

// Tuned on 44 workshops (seeds 1 to 20 and 101 to 124 of the bench's; it measures others), the
// sketches on seeds 1 to 16.
constexpr std::array sketchesOfWhole = {0.8, 0.8, 0.8};
constexpr Manner ofWhole = {
    .steps = 5'000, .hottest = 0.03, .coldest = 0.001, .sketches = sketchesOfWhole};
constexpr Manner ofSketch = {.steps = 15'000,
                             .hottest = 0.06,
                             .coldest = 0.003,
                             .exchanges = 0.7,
                             .schedulesBetweenStops = 32};
constexpr double sketchPlacements = 2e6; ///< jobs placed to plan a sketch, at most
constexpr double sketchShare = 0.18;     ///< of the whole budget, each

// Simulated annealing on one order of jobs (Kirkpatrick, Gelatt and Vecchi 1983), in short cycles
// that each begin with the best, hot enough to leave it: so it needs no clock, and is not caught.
// The state of the plan is kept every few jobs: a changed order is placed from its first change on,
// given up when it costs too much, and known to be the old plan as soon as the state is the same.
class ShopAnnealing
{
public:
    ShopAnnealing(const ShopIndex& index, const Budget& budget, std::uint64_t seed,
                  std::vector<Fixed> steady, const Manner& manner)
        : m_index(index)
        , m_budget(budget)
        , m_seed(seed)
        , m_dice(seed)
        , m_steady(std::move(steady))
        , m_manner(manner)
        , m_start(index, Choice::SpareScarce)
        , m_work(index, Choice::SpareScarce)
        , m_moves(index, m_now, m_dice, manner.exchanges)
    {
        m_start.begin(m_steady);
    }

    ShopPlan run()
    {
        begin();
        while (goesOn()) {
            restart(m_bestList);
            anneal(std::max(m_bestCost, 1.0) / 2);
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

    static constexpr double hope = 0.01;   ///< share of it that later jobs may make good again
    static constexpr int gap = 24;         ///< jobs between two kept states
    static constexpr int idleAtMost = 500; ///< moves that change nothing before it gives up

    [[nodiscard]] bool goesOn() const
    {
        // To look at a clock takes as long as a sketch.
        const bool asks = m_made % m_manner.schedulesBetweenStops == 0;
        const bool isOver = asks ? m_budget.isOver(m_made) : m_made >= m_budget.schedules;
        return !isOver && m_idle < idleAtMost;
    }

    void anneal(double scale)
    {
        for (std::int64_t step = 0; step < m_manner.steps && goesOn();) {
            const int from = m_now.list.size() < 2 ? -1 : m_moves.change(m_trial);
            if (from < 0) {
                ++m_idle;
                continue;
            }
            m_idle = 0;
            const double cooled = std::pow(m_manner.coldest / m_manner.hottest,
                                           double(step) / double(m_manner.steps));
            const double worse =
                -scale * m_manner.hottest * cooled * std::log(1.0 - m_dice.share());
            const Made made = makeFrom(from, m_cost + worse, worse + scale * hope);
            if (made.cost <= m_cost + worse)
                accept(from, made);
            ++step;
        }
    }

    [[nodiscard]] const Shop& shop() const { return m_index.shop(); }
    [[nodiscard]] int carOf(int job) const { return shop().jobs[at(job)].car; }

    /// Makes the rules' plans and three that take car by car; the best order of them is the start.
    void begin()
    {
        std::vector<ShopPlan> plans;
        for (const Choice choice : {Choice::FirstDone, Choice::SpareScarce}) {
            for (const Rule rule : allRules) {
                plans.push_back(dispatched(m_index, rule, m_steady, choice));
                ++m_made;
                if (m_best.jobs.empty() || plans.back().cost < m_best.cost)
                    m_best = plans.back();
            }
        }
        const std::size_t n = shop().jobs.size();
        m_now.position.assign(n, 0);
        m_now.placements.resize(n);
        m_now.late.assign(shop().cars.size(), 0);
        for (int job = 0; job < static_cast<int>(n); ++job) {
            if (m_start.isPlaced(job)) {
                m_now.position[at(job)] = -1;
                m_now.placements[at(job)] = m_start.placement(job);
            }
        }
        m_now.list = listOf(m_best);
        m_states.assign(m_now.list.size() / gap + 2, m_start);
        m_newStates = m_states;
        m_rise.assign(n, 0);
        m_newRise = m_rise;
        restart(m_now.list);
        std::vector<double> work(shop().cars.size(), 0);
        for (const ShopJob& job : shop().jobs)
            work[at(job.car)] += job.minutes.usual;
        const std::array<std::function<double(int)>, 3> keys = {
            [this](int car) { return double(shop().cars[at(car)].promised); },
            [this](int car) {
                return double(shop().cars[at(car)].promised) / shop().cars[at(car)].weight;
            },
            [this, &work](int car) { return work[at(car)] / shop().cars[at(car)].weight; }};
        const std::vector<int> first = m_now.list;
        for (const auto& key : keys) {
            std::vector<int> list = first;
            std::stable_sort(list.begin(), list.end(), [&](int a, int b) {
                return std::pair(key(carOf(a)), carOf(a)) < std::pair(key(carOf(b)), carOf(b));
            });
            restart(list);
            plans.push_back(m_work.plan());
        }
        for (const ShopPlan& plan : plans)
            restart(listOf(plan));
        std::uint64_t seed = m_seed;
        for (const double scarceFrom : m_manner.sketches) {
            if (goesOn())
                sketch(scarceFrom, seed++);
        }
    }

    /// Plans a sketch of the workshop; what it comes to is one more start.
    void sketch(double scarceFrom, std::uint64_t seed)
    {
        const ShopSketch sketch(m_index, m_steady, scarceFrom);
        if (!sketch.isWorthwhile())
            return;
        const ShopIndex index(sketch.shop(), sketch.crowd());
        const double jobs = double(sketch.shop().jobs.size());
        const double share = jobs / double(shop().jobs.size());
        const Budget budget{
            .schedules = std::llround(std::min(sketchPlacements / jobs,
                                               double(m_budget.schedules) * sketchShare / share)),
            .stop = m_budget.stop};
        const ShopPlan plan = ShopAnnealing(index, budget, seed, sketch.fixed(), ofSketch).run();
        const std::vector<double> starts = sketch.latestStarts(plan);
        std::vector<int> list = m_bestList;
        std::stable_sort(list.begin(), list.end(),
                         [&](int a, int b) { return starts[at(a)] < starts[at(b)]; });
        m_moves.putInOrder(list);
        restart(list);
        m_made += std::llround(double(plan.schedules) * share);
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
        m_moves.putInOrder(list);
        return list;
    }

    void restart(const std::vector<int>& list)
    {
        m_trial = list;
        m_cost = std::numeric_limits<double>::max();
        std::fill(m_rise.begin(), m_rise.end(), 0.0);
        accept(0, make(0, static_cast<int>(list.size()), m_cost, m_cost));
    }

    void accept(int from, const Made& made)
    {
        m_now.list.swap(m_trial);
        const std::size_t n = m_now.list.size();
        for (std::size_t k = at(from); k < n; ++k)
            m_now.position[at(m_now.list[k])] = static_cast<int>(k);
        for (std::size_t k = at(from / gap * gap); k < std::min(n, at(made.states * gap)); ++k) {
            const int job = m_now.list[k];
            m_now.placements[at(job)] = m_work.placement(job);
            m_rise[at(job)] = m_newRise[at(job)];
        }
        for (std::size_t c = 0; c < m_now.late.size(); ++c) {
            PlanMinute ready = 0;
            for (const int job : m_index.jobsOf(static_cast<int>(c)))
                ready = std::max(ready, std::min(m_now.placements[at(job)].clear, lateAtMost));
            m_now.late[c] = latenessOf(shop().cars[c], ready);
        }
        for (int state = from / gap + 1; state < made.states; ++state)
            std::swap(m_states[at(state)], m_newStates[at(state)]);
        m_cost = made.cost;
        if (m_bestList.empty() || m_cost < m_bestCost - 1e-9) {
            m_bestCost = m_cost;
            m_bestList = m_now.list;
            if (m_cost < m_best.cost - 1e-9)
                m_best = m_work.plan();
        }
    }

    [[nodiscard]] Made makeFrom(int from, double limit, double patience)
    {
        int last = static_cast<int>(m_now.list.size()) - 1;
        while (last > from && m_trial[at(last)] == m_now.list[at(last)])
            --last;
        return make(from, last, limit, patience);
    }

    /// Places the tried order, which differs from the list in places from .. last. Gives it up once
    /// it costs more than the limit, or has made the jobs that are placed, and the moved cars,
    /// cost so much more than they did that it is out of patience.
    [[nodiscard]] Made make(int from, int last, double limit, double patience)
    {
        constexpr Made givenUp = {std::numeric_limits<double>::infinity(), 0};
        ++m_made;
        const int n = static_cast<int>(m_trial.size());
        const int state = from / gap;
        m_work = state == 0 ? m_start : m_states[at(state)];
        double worse = 0;
        for (const int car : m_moves.moved()) {
            if (car < 0)
                continue;
            for (const int job : m_index.jobsOf(car)) {
                if (m_now.position[at(job)] >= state * gap)
                    worse -= m_rise[at(job)];
            }
        }
        for (int k = state * gap; k < n; ++k) {
            if (k % gap == 0 && k > from) {
                if (k > last && m_states[at(k / gap)].print() == m_work.print())
                    return {m_cost, k / gap};
                m_newStates[at(k / gap)] = m_work;
            }
            const int job = m_trial[at(k)];
            const double before = m_work.costSoFar();
            m_work.place(job);
            const double rise = m_work.costSoFar() - before;
            m_newRise[at(job)] = rise;
            worse += m_moves.hasMoved(carOf(job)) ? rise : rise - m_rise[at(job)];
            if (m_work.costSoFar() > limit || worse > patience)
                return givenUp;
        }
        return {m_work.finalCost(), (n - 1) / gap + 1};
    }

    static constexpr PlanMinute lateAtMost = 100'000; ///< what is never ready is as late as this

    const ShopIndex& m_index;
    const Budget& m_budget;
    std::uint64_t m_seed;
    Dice m_dice;
    std::vector<Fixed> m_steady;
    Manner m_manner;
    OrderedPlan m_now;
    ShopScheduler m_start; ///< with what is fixed
    ShopScheduler m_work;
    ShopMoves m_moves;
    std::vector<ShopScheduler> m_states; ///< after each gap of the list
    std::vector<ShopScheduler> m_newStates;
    std::vector<double> m_rise; ///< of the cost, as a job was placed
    std::vector<double> m_newRise;
    std::vector<int> m_trial;
    std::vector<int> m_bestList;
    double m_cost = 0;
    double m_bestCost = 0;
    std::int64_t m_made = 0;
    int m_idle = 0; ///< moves that changed nothing, one after the other
    ShopPlan m_best;
};

} // namespace

ShopPlan planShop(const Shop& shop, const ShopSearch& search)
{
    const ShopIndex index(shop);
    return ShopAnnealing(index, search.budget, search.seed, steadyJobs(index, search), ofWhole)
        .run();
}

} // namespace ramplight::planning
