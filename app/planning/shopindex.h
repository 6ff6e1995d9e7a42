// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/activitylist.h"
#include "planning/shop.h"

#include <cstdint>
#include <vector>

// A workshop made ready for quick placing.
namespace ramplight::planning {

/// What is not the search's to move: each of these keeps person, bay and start.
struct Fixed
{
    int job = 0;
    Placement placement;
};

/// The car stays in one bay.
struct Hold
{
    int car = 0;
    int opener = -1;             ///< the job that it stays from; -1: from the plan's start
    PlanMinute until = 0;        ///< at least
    std::vector<int> ends = {};  ///< until these are done
    std::vector<int> block = {}; ///< these and what they wait for, each after what it waits for
};

/// What is known of the shop before anything is placed, packed for the scheduler. Outlives it.
class ShopIndex
{
public:
    /// crowd: a person of whom there are as many as are needed; -1: everybody is one person.
    explicit ShopIndex(const Shop& shop, int crowd = -1);

    [[nodiscard]] const Shop& shop() const { return *m_shop; }
    [[nodiscard]] const Precedence& precedence() const { return m_precedence; }
    /// Minutes that the car needs at least after this job is clear.
    [[nodiscard]] int tail(int job) const { return m_tails[static_cast<std::size_t>(job)]; }
    [[nodiscard]] const std::vector<int>& jobsOf(int car) const
    {
        return m_jobsOf[static_cast<std::size_t>(car)];
    }
    /// Whether somebody belongs to both.
    [[nodiscard]] bool crewsMeet(int a, int b) const
    {
        return a >= 0 && b >= 0 &&
               (m_masks[static_cast<std::size_t>(a)] & m_masks[static_cast<std::size_t>(b)]) != 0;
    }
    /// The last minute at which anybody works.
    [[nodiscard]] PlanMinute horizon() const { return m_horizon; }
    [[nodiscard]] const std::vector<Hold>& holds() const { return m_holds; }

private:
    friend class ShopScheduler;

    void findHolds();

    const Shop* m_shop;
    int m_crowd;
    Precedence m_precedence;
    std::vector<int> m_tails;
    /// Jobs of the same car that could overlap and may not, or not in different bays.
    struct Rival
    {
        int job = 0;
        bool always = false; ///< never together; otherwise not in different bays
    };
    /// What placing a job reads, close together.
    struct Packed
    {
        int car = 0;
        int guest = 0; ///< in a bay: the car, or ~job for work away from its car
        int crew = -1;
        int bays = -1;
        int minutes = 0;
        int waitMinutes = 0;
        int bayMinutes = 0; ///< that the bay is held after the work
        PlanMinute from = 0;
        Pause pause = Pause::Overnight;
        bool usesCar = true;
        int check = -1; ///< number of the check that it is
        int opens = -1; ///< number of the hold that begins with it
        int firstRival = 0;
        int endRival = 0;
        int firstChecked = 0; ///< of m_checkedBy
        int endChecked = 0;
    };
    std::vector<Packed> m_jobs;
    std::vector<Rival> m_rivals;
    std::vector<std::vector<int>> m_jobsOf; ///< by car
    std::vector<Fixed> m_inHand;
    std::vector<Hold> m_holds;
    std::vector<int> m_checks;             ///< the jobs that check others
    std::vector<int> m_checkedBy;          ///< numbers of checks
    std::vector<std::uint64_t> m_masks;    ///< by crew
    std::vector<std::vector<int>> m_crews; ///< those who can do least else first
    std::vector<int> m_worth; ///< by person: minutes later that somebody else may be done
    PlanMinute m_horizon = 0;
};

} // namespace ramplight::planning
