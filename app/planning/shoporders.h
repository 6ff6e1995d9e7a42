// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/dice.h"
#include "planning/shopmoves.h"
#include "planning/shopscheduler.h"

#include <span>
#include <vector>

// What the search over orders asks of a workshop.
namespace ramplight::planning {

/// Makes plans out of orders of the jobs that are not fixed. The state of the plan is kept every
/// few jobs: a changed order is placed from its first change on, given up when it costs too much,
/// and known to be the old plan as soon as the state is the same. One thread; an OrderMaker.
class ShopOrders
{
public:
    /// exchanges: share of the changes that are exchanges of two jobs. All outlive it.
    ShopOrders(const ShopIndex& index, std::span<const Fixed> fixed, Dice& dice, double exchanges);
    ShopOrders(const ShopOrders&) = delete;
    ShopOrders& operator=(const ShopOrders&) = delete;

    /// A plan that was made otherwise, by a rule.
    void add(const ShopPlan& plan);
    /// Schedules that were made elsewhere, in all this one's jobs.
    void addMade(std::int64_t schedules) { m_made += schedules; }
    [[nodiscard]] const ShopPlan& best() const { return m_best; }
    /// The plan at hand.
    [[nodiscard]] ShopPlan plan() const { return m_work.plan(); }
    /// The jobs that are not fixed, by their start in a plan, none before what it waits for.
    [[nodiscard]] std::vector<int> orderOf(const ShopPlan& plan);
    /// Moves what a job waits for before it, where it is not.
    void putInOrder(std::vector<int>& list) { m_moves.putInOrder(list); }

    // What the search asks.
    [[nodiscard]] const Precedence& precedence() const { return m_index.precedence(); }
    [[nodiscard]] int size() const { return m_size; }
    [[nodiscard]] std::int64_t made() const { return m_made; }
    [[nodiscard]] double leastCost() const { return m_start.costSoFar(); }
    double draw(std::vector<int>& list, Dice& dice);
    double make(std::span<const int> order, double limit);
    [[nodiscard]] std::uint64_t print() const { return m_work.print(); }
    void writeOrder(std::vector<int>& list) const;
    void keep(double cost);
    double restart(std::span<const int> order);
    [[nodiscard]] const std::vector<int>& order() const { return m_now.list; }
    [[nodiscard]] bool change(Dice& dice);
    double makeChanged(double limit, double patience);
    void accept();

private:
    struct Made
    {
        double cost = 0;
        int states = 0; ///< one past the last kept state that is not the old one
    };

    static constexpr int gap = 24;                    ///< jobs between two kept states
    static constexpr PlanMinute lateAtMost = 100'000; ///< what is never ready is as late as this

    [[nodiscard]] const Shop& shop() const { return m_index.shop(); }
    [[nodiscard]] int carOf(int job) const;
    [[nodiscard]] Made makeFrom(int from, int last, double limit, double patience);

    const ShopIndex& m_index;
    int m_size = 0;
    OrderedPlan m_now;
    ShopScheduler m_start; ///< with what is fixed
    ShopScheduler m_work;
    ShopMoves m_moves;
    ListMaker m_lists;
    std::vector<int> m_urgency;          ///< by job: its latest start for its car's promise
    std::vector<int> m_all;              ///< an order of all jobs, fixed ones too
    std::vector<ShopScheduler> m_states; ///< after each gap of the list
    std::vector<ShopScheduler> m_newStates;
    std::vector<double> m_rise; ///< of the cost, as a job was placed
    std::vector<double> m_newRise;
    std::vector<int> m_trial;
    int m_from = 0; ///< the first place of the trial that changed
    Made m_tried;
    double m_cost = 0; ///< of the order that is changed
    std::int64_t m_made = 0;
    ShopPlan m_best;
};

} // namespace ramplight::planning
