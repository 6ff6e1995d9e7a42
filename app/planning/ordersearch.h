// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/activitylist.h"
#include "planning/budget.h"
#include "planning/dice.h"
#include "planning/indexing.h"

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstdint>
#include <limits>
#include <span>
#include <unordered_set>
#include <utility>
#include <vector>

// The search over orders. It breeds a population of them and anneals the best; what an order is
// worth is for a maker of schedules to say. Projects and workshops are searched by this one engine,
// so what is measured with the one holds for the other.
namespace ramplight::planning {

/// Makes schedules out of orders; has one at hand, the last that was made.
template <typename Maker>
concept OrderMaker = requires(Maker maker, const Maker asked, std::span<const int> order,
                              std::vector<int>& list, Dice& dice, double cost)
{
    {
        asked.precedence()
        } -> std::same_as<const Precedence&>;
    {
        asked.size()
        } -> std::same_as<int>; ///< of an order
    {
        asked.made()
        } -> std::same_as<std::int64_t>; ///< schedules so far
    {
        asked.leastCost()
        } -> std::same_as<double>; ///< that any schedule can have
    /// Draws an order for a first population into the list; the cost of its schedule.
    {
        maker.draw(list, dice)
        } -> std::same_as<double>;
    /// The cost of the order's schedule; may be infinite when it is sure to be above a limit.
    {
        maker.make(order, cost)
        } -> std::same_as<double>;
    {
        asked.print()
        } -> std::same_as<std::uint64_t>; ///< the same for the same schedules
    /// The schedule at hand as an order, in place of the one that it was made of.
    maker.writeOrder(list);
    /// The schedule at hand is the best so far, and costs so much.
    maker.keep(cost);
};

/// Has an order besides that is changed bit by bit.
template <typename Maker>
concept OrderChanger = OrderMaker<Maker> &&
    requires(Maker maker, const Maker asked, std::span<const int> order, Dice& dice, double cost)
{
    /// Takes an order as that one; the cost of its schedule.
    {
        maker.restart(order)
        } -> std::same_as<double>;
    {
        asked.order()
        } -> std::same_as<const std::vector<int>&>;
    /// Tries a change; false: there was none to try.
    {
        maker.change(dice)
        } -> std::same_as<bool>;
    /// Cost of the changed order; infinite as soon as it is above a limit, or so much more than
    /// before that it is out of patience.
    {
        maker.makeChanged(cost, cost)
        } -> std::same_as<double>;
    /// The changed order is the order from now on.
    maker.accept();
};

/// How a search goes about it.
struct SearchManner
{
    /// Of the budget's schedules that a breeding may take; 0: nothing is bred.
    double bredShare = 0;
    int passesOfAChild = 1; ///< schedules that it takes to make one
    int cycles = 0;         ///< of annealing, after each breeding; for OrderChangers
    int steps = 0;          ///< changes in a cycle
    double hottest = 0;     ///< share of half the cost
    double coldest = 0;
    int schedulesBetweenStops = 1; ///< before it asks again whether to stop

    static constexpr int unending = std::numeric_limits<int>::max();
};

// Breeding is a genetic algorithm on orders in a steady state, no two members with the same
// schedule (after Hartmann 1998; Valls, Ballestin and Quintanilla 2008). What is changed in a child
// is our own: often a short stretch of its order is drawn anew. Annealing (Kirkpatrick, Gelatt and
// Vecchi 1983) goes in short cycles that each begin with the best, hot enough to leave it: so it
// needs no clock, and is not caught.
template <OrderMaker Maker>
class OrderSearch
{
public:
    /// All outlive it. Its answer depends on the state of the dice alone, with a number of
    /// schedules.
    OrderSearch(Maker& maker, const Budget& budget, Dice& dice, const SearchManner& manner)
        : m_maker(maker)
        , m_budget(budget)
        , m_dice(dice)
        , m_manner(manner)
        , m_lists(maker.precedence())
        , m_list(at(maker.size()))
    {
    }

    /// One more order to start with.
    void offer(std::span<const int> order) requires OrderChanger<Maker>
    {
        m_list.assign(order.begin(), order.end());
        m_cost = m_maker.restart(order);
        note(m_cost, order);
        if (m_manner.bredShare > 0 && m_prints.insert(m_maker.print()).second)
            m_members.push_back({m_list, m_cost, m_maker.print()});
    }

    [[nodiscard]] bool goesOn() const
    {
        const std::int64_t made = m_maker.made();
        if (made == 0)
            return true;
        // To look at a clock takes as long as some schedules.
        const bool asks = made % m_manner.schedulesBetweenStops == 0;
        const bool isOver = asks ? m_budget.isOver(made) : made >= m_budget.schedules;
        return !isOver && m_idle < idleAtMost && m_bestCost > m_maker.leastCost();
    }

    void run()
    {
        while (goesOn()) {
            if (m_manner.bredShare > 0)
                breed();
            if constexpr (OrderChanger<Maker>) {
                for (int cycle = 0; cycle < m_manner.cycles && goesOn(); ++cycle)
                    anneal();
            }
        }
    }

    [[nodiscard]] const std::vector<int>& bestOrder() const { return m_bestOrder; }

private:
    struct Member
    {
        std::vector<int> list;
        double cost = 0;
        std::uint64_t print = 0; ///< of the schedule
    };

    static constexpr int smallestPopulation = 20;
    static constexpr int largestPopulation = 350;
    static constexpr double swapProbability = 0.1;
    static constexpr double reorderProbability = 0.4;
    static constexpr int reorderLength = 10;
    /// Children for each member without a better best: then it is over.
    static constexpr int barrenAtMost = 40;
    static constexpr int drawsAtMost = 2'000; ///< a small project has few different schedules
    static constexpr double hope = 0.01;      ///< share of a cost that later work may make good
    static constexpr int idleAtMost = 500;    ///< changes that are none before it gives up

    /// A new best, if it is one.
    void note(double cost, std::span<const int> order)
    {
        if (cost >= m_bestCost - 1e-9)
            return;
        m_barren = 0;
        m_bestCost = cost;
        m_bestOrder.assign(order.begin(), order.end());
        m_maker.keep(cost);
    }

    /// Larger where there is time for many generations.
    [[nodiscard]] int populationSize(double schedules) const
    {
        const double children = std::floor(std::min(schedules, 1e6)) / m_manner.passesOfAChild;
        return std::clamp(static_cast<int>(1.2 * std::sqrt(children)), smallestPopulation,
                          largestPopulation);
    }

    void breed()
    {
        const double schedules = m_manner.bredShare * double(m_budget.schedules);
        const double end = double(m_maker.made()) + schedules;
        const auto breeds = [&] { return goesOn() && double(m_maker.made()) < end; };
        const int members = populationSize(schedules);
        int sameDrawn = 0;
        while (breeds() && static_cast<int>(m_members.size()) < members)
            addDrawn(sameDrawn);
        m_barren = 0;
        while (breeds() && m_barren < barrenAtMost * members && m_maker.size() > 1)
            addChild();
        m_members.clear();
        m_prints.clear();
    }

    void addDrawn(int& sameDrawn)
    {
        const double cost = m_maker.draw(m_list, m_dice);
        const std::uint64_t print = m_maker.print();
        m_maker.writeOrder(m_list);
        note(cost, m_list);
        if (!m_prints.insert(print).second && ++sameDrawn < drawsAtMost)
            return;
        m_members.push_back({m_list, cost, print});
    }

    void addChild()
    {
        const Member& one = m_members[tournament()];
        const Member& other = m_members[tournament()];
        const int n = m_maker.size();
        const int length = std::max(1, static_cast<int>((0.3 + 0.4 * m_dice.share()) * n));
        const int first = m_dice.below(n - length + 1);
        m_lists.cross(one.list, other.list, first, first + length, m_list);
        if (m_dice.chance(reorderProbability)) {
            const int some = std::min(reorderLength, n);
            m_lists.reorder(m_dice.below(n - some + 1), some, m_dice, m_list);
        } else {
            m_lists.swapNeighbours(swapProbability, m_dice, m_list);
        }
        ++m_barren;
        Member& worse = m_members[loser()];
        const double cost = m_maker.make(m_list, worse.cost);
        if (worse.cost < cost)
            return;
        const std::uint64_t print = m_maker.print();
        m_maker.writeOrder(m_list);
        note(cost, m_list);
        if (!m_prints.insert(print).second)
            return;
        m_prints.erase(worse.print);
        worse.list = m_list;
        worse.cost = cost;
        worse.print = print;
    }

    [[nodiscard]] std::size_t anyMember()
    {
        return at(m_dice.below(static_cast<int>(m_members.size())));
    }
    [[nodiscard]] std::size_t tournament()
    {
        const std::size_t a = anyMember();
        const std::size_t b = anyMember();
        return m_members[a].cost <= m_members[b].cost ? a : b;
    }
    [[nodiscard]] std::size_t loser()
    {
        const std::size_t a = anyMember();
        const std::size_t b = anyMember();
        return m_members[a].cost >= m_members[b].cost ? a : b;
    }

    /// One cycle, from the best on.
    void anneal() requires OrderChanger<Maker>
    {
        m_list = m_bestOrder;
        m_cost = m_maker.restart(m_list);
        note(m_cost, m_list);
        const double scale = std::max(m_bestCost, 1.0) / 2;
        const double cooling = m_manner.coldest / m_manner.hottest;
        for (std::int64_t step = 0; step < m_manner.steps && goesOn();) {
            if (!m_maker.change(m_dice)) {
                ++m_idle;
                continue;
            }
            m_idle = 0;
            const double heat =
                m_manner.hottest * std::pow(cooling, double(step) / double(m_manner.steps));
            const double worse = -scale * heat * std::log(1.0 - m_dice.share());
            const double cost = m_maker.makeChanged(m_cost + worse, worse + scale * hope);
            if (cost <= m_cost + worse) {
                m_maker.accept();
                m_cost = cost;
                note(m_cost, m_maker.order());
            }
            ++step;
        }
    }

    Maker& m_maker;
    const Budget& m_budget;
    Dice& m_dice;
    SearchManner m_manner;
    ListMaker m_lists;
    std::vector<int> m_list;
    std::vector<Member> m_members;
    std::unordered_set<std::uint64_t> m_prints;
    int m_barren = 0; ///< children since the best got better
    int m_idle = 0;   ///< changes that were none, one after the other
    double m_cost = 0;
    std::vector<int> m_bestOrder;
    double m_bestCost = std::numeric_limits<double>::infinity();
};

} // namespace ramplight::planning
