// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shopindex.h"

#include <limits>
#include <span>

// Makes plans of a workshop out of orders of its jobs: one job after the other goes where it ends
// first, with whichever person and bay that takes (serial generation with earliest fit), or
// a little later with somebody who is needed less.
namespace ramplight::planning {

/// Who does a job of those who can.
enum class Choice {
    FirstDone,   ///< whoever is done with it first
    SpareScarce, ///< the same, but who has much to do that few can do counts as later
};

/// The state of a plan that is being made. Copies are states to go on from; one thread.
class ShopScheduler
{
public:
    explicit ShopScheduler(const ShopIndex& index, Choice choice = Choice::FirstDone);

    /// Empty again, but for the work in hand and what else is fixed in its place. A fixed job comes
    /// after those it waits for.
    void begin(std::span<const Fixed> fixed);
    /// Puts a job where it ends first, unless it is placed; those it waits for are placed. Without
    /// a person to do it, it stays unplanned and so does what waits for it. What the car stays in
    /// its bay for is placed at once, too.
    void place(int job);
    /// Where place() would put it.
    [[nodiscard]] Placement fit(int job) const;
    /// Keeps it where it was, if that is possible; answers whether it was. What its car stays for
    /// is then placed as by place().
    [[nodiscard]] bool placeAt(int job, const Placement& placement);

    [[nodiscard]] const Placement& placement(int job) const
    {
        return m_placements[static_cast<std::size_t>(job)];
    }
    [[nodiscard]] bool isPlaced(int job) const { return m_placed[static_cast<std::size_t>(job)]; }
    /// What the plan costs at least, whatever comes: rises with each job.
    [[nodiscard]] double costSoFar() const { return m_cost; }
    /// When a car is ready at the earliest, after what is placed.
    [[nodiscard]] PlanMinute readyAtLeast(int car) const
    {
        return m_readyAtLeast[static_cast<std::size_t>(car)];
    }
    /// The same for the same placements, in whatever order they were made.
    [[nodiscard]] std::uint64_t print() const { return m_print; }
    [[nodiscard]] ShopPlan plan() const;
    [[nodiscard]] double finalCost() const;

private:
    struct Stay
    {
        Span span;
        int guest = 0; ///< a car, or ~job for work away from its car
    };

    [[nodiscard]] PlanMinute earliest(int job) const;
    [[nodiscard]] int freeFrom(int person, int worked, int minutes) const;
    [[nodiscard]] Span personFit(int person, PlanMinute t, int minutes, Pause pause) const;
    [[nodiscard]] PlanMinute tryAt(int job, Span span, int& bay) const;
    [[nodiscard]] PlanMinute bayTakenUntil(int bay, Span span, int guest, int minutes) const;
    [[nodiscard]] PlanMinute carBusyUntil(int job, Span span, int bay) const;
    [[nodiscard]] std::uint64_t mayDo(int job) const;
    [[nodiscard]] PlanMinute heldUntil(int job, Span stay, int bay) const;
    [[nodiscard]] int nextOpen() const;
    void finish(int hold);
    void keepBusy(const Placement& placement);
    void put(int job, const Placement& placement);
    [[nodiscard]] int movesOf(int car) const;

    const ShopIndex* m_index;
    Choice m_choice;
    std::vector<Placement> m_placements;
    std::vector<char> m_placed;
    std::vector<std::vector<Span>> m_busy;  ///< by person, in minutes worked; in order, merged
    std::vector<std::vector<Stay>> m_stays; ///< by bay, in order
    struct Held
    {
        int bay = -1; ///< -1: not begun
        Span span;
    };
    std::vector<Held> m_held;               ///< by hold of the index
    std::vector<std::uint64_t> m_checkers;  ///< by check: who may still do it
    std::vector<PlanMinute> m_readyAtLeast; ///< by car
    std::vector<PlanMinute> m_carFree;      ///< by car: no rival of any job ends later
    std::vector<int> m_lastBay;             ///< by car, of the job that was placed last
    double m_cost = 0;
    std::uint64_t m_print = 0;
};

/// Lateness of a car under a time at which it is ready, in weighted minutes.
[[nodiscard]] inline double latenessOf(const ShopCar& car, PlanMinute ready)
{
    return ready > car.promised ? car.weight * (double(ready) - double(car.promised)) : 0.0;
}

} // namespace ramplight::planning
