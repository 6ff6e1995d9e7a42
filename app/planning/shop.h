// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "planning/worktimes.h"

#include <QString>
#include <QStringList>

#include <cstdint>
#include <optional>
#include <vector>

// The workshop as the planner sees it: cars with their jobs, the people and bays that do them, and
// a plan of who does what where and when. Everything is referred to by its place in its vector.
namespace ramplight::planning {

struct ShopPerson
{
    QString name;
    WorkTimes times;
};

struct ShopBay
{
    QString name;
};

struct ShopCar
{
    QString name;                ///< as people say it: the stock number
    PlanMinute arrived = 0;      ///< mostly before the plan's start
    PlanMinute from = 0;         ///< no work on it before
    PlanMinute promised = never; ///< never: nobody promised anything
    double weight = 1;           ///< what a minute of lateness counts
    int bay = -1;                ///< where it stands now; -1: in none
    PlanMinute staysUntil = 0;   ///< not moved from that bay before: something on it cures
};

/// Work that somebody has in hand as the plan starts.
struct RunningJob
{
    int person = -1;
    int bay = -1;
    PlanMinute began = 0;
};

/// One operation that is still to be done.
struct ShopJob
{
    QString title;
    QString kind; ///< operation id of the catalogue
    int car = 0;
    int crew = -1; ///< who may do it; -1: nobody's hands are needed, its minutes pass by the clock
    int bays = -1; ///< where it may be done; -1: wherever the car stands
    Minutes minutes;     ///< hands-on minutes that are left: low, usual, high
    int waitMinutes = 0; ///< by the clock afterwards: cures, dries; holds car or part, not hands
    bool waitsInBay = false; ///< the car may not be moved while it cures
    bool usesCar = true;     ///< false: work on wheels that are away from the car
    Pause pause = Pause::Overnight;
    PlanMinute notBefore = 0;    ///< its part comes then, or it is back from an outside firm
    std::vector<int> after = {}; ///< jobs of the same car that come first, with their waits
    /// Jobs of the same car that may not be in hand at the same time; said by either of the two.
    std::vector<int> apart = {};
    std::vector<int> checks = {}; ///< whoever does one of these may not do this
    std::optional<RunningJob> running = {};
    /// Jobs of the same car that come after this one: from this one's start until they are done the
    /// car stays in this one's bay, as its wheels are off. What of it is on the car itself is done
    /// there, too.
    std::vector<int> staysFor = {};
    /// The car is not moved from the bay in which it stands now until this is done: it stands
    /// there without its wheels.
    bool keepsCar = false;
};

/// What a plan is judged by: one sum, in weighted minutes of lateness.
struct ShopObjective
{
    double readyMinute = 0.01; ///< a minute until a car is ready, for each car
    double move = 2;           ///< a car goes from one bay to another
};

struct Shop
{
    std::vector<ShopPerson> people; ///< at most 64
    std::vector<ShopBay> bays;
    std::vector<std::vector<int>> crews;     ///< people who may do the same jobs
    std::vector<std::vector<int>> bayGroups; ///< bays that serve the same jobs
    std::vector<ShopCar> cars;
    std::vector<ShopJob> jobs; ///< the jobs' order of "after" is without a cycle
    ShopObjective objective;
};

/// What makes a shop impossible to plan, in words for whoever built it: unknown numbers, jobs that
/// wait for each other, jobs of one car that wait for another car's. Empty: none.
[[nodiscard]] QStringList faultsOf(const Shop& shop);

/// Where a job lies in a plan.
struct Placement
{
    int person = -1;
    int bay = -1;
    PlanMinute start = never;
    PlanMinute end = never;   ///< hands are free again
    PlanMinute clear = never; ///< its waiting time is over, too

    /// False: nobody can do it within the times that people have.
    [[nodiscard]] bool isPlanned() const { return start != never; }
    friend bool operator==(const Placement&, const Placement&) = default;
};

struct ShopPlan
{
    std::vector<Placement> jobs;
    std::vector<PlanMinute> ready; ///< by car; never: some of its work cannot be planned
    double cost = 0;               ///< under the shop's objective; what is never ready counts a lot
    double lateness = 0;           ///< weighted minutes late, summed over the cars
    int moves = 0;                 ///< of cars between bays
    std::int64_t schedules = 0;    ///< generated to find it
};

/// The bay in which its car stays at least until a job is done, because of that job; -1: none.
[[nodiscard]] int bayKeptFor(const Shop& shop, const ShopPlan& plan, int job);

} // namespace ramplight::planning
