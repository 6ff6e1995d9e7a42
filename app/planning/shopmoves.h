// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/dice.h"
#include "planning/shopscheduler.h"

#include <array>
#include <vector>

// Small changes of an order of a workshop's jobs, some at random, some where a late car waits.
namespace ramplight::planning {

/// An order of the jobs that are not fixed, and the plan that it makes.
struct OrderedPlan
{
    std::vector<int> list;
    std::vector<int> position;         ///< in the list, by job; negative: fixed
    std::vector<Placement> placements; ///< by job
    std::vector<double> late;          ///< weighted minutes, by car
};

/// Makes changed orders; never one with a job before what it waits for. One thread; the index and
/// the plan outlive it.
class ShopMoves
{
public:
    /// exchanges: share of the changes that are exchanges of two jobs.
    ShopMoves(const ShopIndex& index, const OrderedPlan& plan, Dice& dice, double exchanges);

    /// Makes a changed order of the plan's list, which is not empty. The first place that changed;
    /// negative: none did.
    [[nodiscard]] int change(std::vector<int>& trial);
    /// The cars whose jobs the last change moved: those of all others keep their order.
    [[nodiscard]] bool hasMoved(int car) const { return car == m_moved[0] || car == m_moved[1]; }
    [[nodiscard]] const std::array<int, 2>& moved() const { return m_moved; } ///< negative: none
    /// Moves what a job waits for before it, where it is not.
    void putInOrder(std::vector<int>& list);

private:
    /// A place that a job of the list would go to.
    struct Wish
    {
        int place = 0;
        int by = 0;
        int was = 0;
    };

    // Tuned on 20 workshops (seeds 1 to 20 of the bench's; it measures others).
    static constexpr double chainShare = 0.5; ///< changes where a late car waits
    static constexpr double goOn = 0.5;       ///< passes over a blocker, further back
    static constexpr double ownWait = 0.7;    ///< goes back along the car rather than the blocker's
    static constexpr int longestChain = 30;
    static constexpr double lateBase = 100;  ///< any late car is looked at like this many minutes
    static constexpr double chainSwap = 0.3; ///< both cars change places
    static constexpr double chainCar = 0.6;  ///< else: the car comes forward
    static constexpr double chainBack = 0.3; ///< else: the blocker's goes back; else one job passes
    static constexpr double carShare = 0.9;  ///< else: a car's jobs rather than one job
    static constexpr int farthestCar = 300;  ///< places
    static constexpr int farthestJob = 20;   ///< jobs passed that want the same people or bays

    [[nodiscard]] const Shop& shop() const { return m_index.shop(); }
    [[nodiscard]] int carOf(int job) const;
    [[nodiscard]] int lateCar();
    [[nodiscard]] int lastJobOf(int car) const;
    [[nodiscard]] int moveChain();
    [[nodiscard]] int blockerOf(int job, PlanMinute ready);
    [[nodiscard]] int passBlocker(int job, int blocker);
    [[nodiscard]] int moveCar(int pivot, bool forward, int distance);
    [[nodiscard]] int swapCars(int early, int late);
    [[nodiscard]] int moveJob();
    [[nodiscard]] int exchange();
    void wish(int pivot, bool after, int by);
    [[nodiscard]] int merge();
    [[nodiscard]] int firstChange() const;
    [[nodiscard]] bool competes(int a, int b) const;

    const ShopIndex& m_index;
    const OrderedPlan& m_plan;
    Dice& m_dice;
    double m_exchanges;
    std::vector<int> m_trial;
    std::array<int, 2> m_moved = {-1, -1};
    std::vector<Wish> m_wishes;
    std::vector<char> m_goes; ///< by place
    std::vector<int> m_ordered;
    std::vector<int> m_stack;
    std::vector<char> m_done;
};

} // namespace ramplight::planning
