// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopsearch.h"

#include "planning/dispatching.h"
#include "planning/indexing.h"
#include "planning/ordersearch.h"
#include "planning/shoporders.h"
#include "planning/shopsketch.h"
#include "planning/shopsteady.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <span>

namespace ramplight::planning {

namespace {
// Tuned on 44 workshops (seeds 1 to 20 and 101 to 124 of the bench's; it measures others), the
// sketches on seeds 1 to 16.
constexpr SearchManner ofWhole = {
    .cycles = SearchManner::unending, .steps = 5'000, .hottest = 0.03, .coldest = 0.001};
// What is bred first made plans 3 % less late on seeds 1 to 8, 2 % on 101 to 116; other shares
// differ by chance only.
constexpr SearchManner ofSketch = {.bredShare = 0.3,
                                   .cycles = SearchManner::unending,
                                   .steps = 15'000,
                                   .hottest = 0.06,
                                   .coldest = 0.003,
                                   .schedulesBetweenStops = 32};
constexpr double sketchExchanges = 0.7; ///< share of a sketch's changes that exchange two jobs
/// The share of the greatest load from which on a sketch keeps what is scarce.
constexpr std::array sketchesOfWhole = {0.8, 0.8, 0.8};
constexpr double sketchPlacements = 2e6; ///< jobs placed to plan a sketch, at most
constexpr double sketchShare = 0.18;     ///< of the whole budget, each

class ShopPlanner
{
public:
    ShopPlanner(const ShopIndex& index, const Budget& budget, std::uint64_t seed,
                std::span<const Fixed> steady, const SearchManner& manner, double exchanges)
        : m_index(index)
        , m_budget(budget)
        , m_seed(seed)
        , m_dice(seed)
        , m_steady(steady)
        , m_orders(index, steady, m_dice, exchanges)
        , m_search(m_orders, budget, m_dice, manner)
    {
    }

    /// The best of the search; first, the starts that it has from rules and from sketches.
    ShopPlan plan(std::span<const double> sketches)
    {
        offerRules();
        std::uint64_t seed = m_seed;
        for (const double scarceFrom : sketches) {
            if (m_search.goesOn())
                offerSketch(scarceFrom, seed++);
        }
        m_search.run();
        ShopPlan best = m_orders.best();
        best.schedules = m_orders.made();
        return best;
    }

private:
    [[nodiscard]] const Shop& shop() const { return m_index.shop(); }

    /// The rules' plans and three that take car by car.
    void offerRules()
    {
        std::vector<ShopPlan> plans;
        for (const Choice choice : {Choice::FirstDone, Choice::SpareScarce}) {
            for (const Rule rule : allRules) {
                plans.push_back(dispatched(m_index, rule, m_steady, choice));
                m_orders.add(plans.back());
            }
        }
        const std::vector<int> first = m_orders.orderOf(m_orders.best());
        m_search.offer(first);
        std::vector<double> work(shop().cars.size(), 0);
        for (const ShopJob& job : shop().jobs)
            work[at(job.car)] += job.minutes.usual;
        const std::array<std::function<double(int)>, 3> keys = {
            [this](int car) { return double(shop().cars[at(car)].promised); },
            [this](int car) {
                return double(shop().cars[at(car)].promised) / shop().cars[at(car)].weight;
            },
            [this, &work](int car) { return work[at(car)] / shop().cars[at(car)].weight; }};
        const auto carOf = [this](int job) { return shop().jobs[at(job)].car; };
        for (const auto& key : keys) {
            std::vector<int> list = first;
            std::stable_sort(list.begin(), list.end(), [&](int a, int b) {
                return std::pair(key(carOf(a)), carOf(a)) < std::pair(key(carOf(b)), carOf(b));
            });
            m_search.offer(list);
            plans.push_back(m_orders.plan());
        }
        for (const ShopPlan& plan : plans)
            m_search.offer(m_orders.orderOf(plan));
    }

    /// Plans a sketch of the workshop; what it comes to is one more start.
    void offerSketch(double scarceFrom, std::uint64_t seed)
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
        ShopPlanner planner(index, budget, seed, sketch.fixed(), ofSketch, sketchExchanges);
        const ShopPlan plan = planner.plan({});
        const std::vector<double> starts = sketch.latestStarts(plan);
        std::vector<int> list = m_search.bestOrder();
        std::stable_sort(list.begin(), list.end(),
                         [&](int a, int b) { return starts[at(a)] < starts[at(b)]; });
        m_orders.putInOrder(list);
        m_search.offer(list);
        m_orders.addMade(std::llround(double(plan.schedules) * share));
    }

    const ShopIndex& m_index;
    const Budget& m_budget;
    std::uint64_t m_seed;
    Dice m_dice;
    std::span<const Fixed> m_steady;
    ShopOrders m_orders;
    OrderSearch<ShopOrders> m_search;
};

} // namespace

ShopPlan planShop(const Shop& shop, const ShopSearch& search)
{
    const ShopIndex index(shop);
    const std::vector<Fixed> steady = steadyJobs(index, search);
    return ShopPlanner(index, search.budget, search.seed, steady, ofWhole, 0).plan(sketchesOfWhole);
}

} // namespace ramplight::planning
