// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/hindsight.h"
#include "planning/shopofhouse.h"
#include "planning/shopsearch.h"

#include <QStringList>

#include <functional>
#include <map>
#include <memory>

// From the house's own values to a plan with its forecast: what screens and the command line show.
namespace ramplight::planning {

/// Of the cars released last, so many teach how long work takes.
inline constexpr int learnedCars = 200;

/// What the house knows as it is planned. Copies are cheap next to planning.
struct HouseInput
{
    std::vector<CarState> cars; ///< those that are here; others are passed over
    SiteState site;
    std::vector<WorkRecord> records; ///< signed-off work, of cars that have left, too
    HouseCalendar calendar = {};
    /// In force in the house: what comes after open work is planned, too. Null: it is not.
    std::shared_ptr<const Catalogue> catalogue = {};
    Hindsight hindsight = {}; ///< of what was said until now
};

struct PlanEffort
{
    Budget search = {};
    int runs = 400;          ///< of the forecast
    int steadyMinutes = 120; ///< what the previous plan begins sooner than this stays
    std::uint64_t seed = 1;
};

/// How a time is said: "today 14:00".
using SayTime = std::function<QString(Moment)>;

/// A plan of the house as of a moment. Immutable once made; any thread.
struct HousePlan
{
    Moment start;
    HouseRules rules;
    HouseShop house; ///< with the minutes that are to be expected
    ShopPlan plan;
    std::vector<CarForecast> forecasts; ///< by car, corrected in hindsight
    HouseCalendar calendar = {};
    QStringList faults = {}; ///< why nothing could be planned; empty: it was
    /// How thoroughly it was searched: schedules at most, and the how manieth question whether to
    /// stop was answered so; 0: it ended by itself.
    std::int64_t schedulesAtMost = 0;
    std::int64_t stoppedAt = 0;
    /// By job that nobody can do: why, and what a manager can do about it.
    std::map<int, QString> nobody = {};

    [[nodiscard]] PlanClock clock() const { return {start, rules}; }
    /// Its number in the shop; -1: it is not planned, or not open yet.
    [[nodiscard]] int numberOf(const CarId& car) const;
    [[nodiscard]] int numberOf(const CarId& car, OperationId operation) const;
    [[nodiscard]] const CarId& carOf(int job) const;
    /// Not open yet: it comes once other work on its car is signed.
    [[nodiscard]] bool isForeseen(int job) const;
    /// Ready later than promised in more than half of the runs, or never.
    [[nodiscard]] bool isLate(int car) const;
    /// Nothing that can be planned is left on it.
    [[nodiscard]] bool hasNoWork(int car) const;
    /// The job for which a car cannot be finished; -1: none.
    [[nodiscard]] int stuckOn(int car) const;
    /// The chain of what the car's last steps wait for, each in words, the last first. Without a
    /// way of saying times they are the clock's.
    [[nodiscard]] QStringList whyWords(int car, const SayTime& time = {}, int steps = 12) const;
    /// What one job waits for, in words that go behind its title; empty for work in hand.
    [[nodiscard]] QString waitWords(int job, const SayTime& time = {}) const;
    /// The same, said to the person who does it.
    [[nodiscard]] QString ownWaitWords(int job, const SayTime& time = {}) const;
    /// Of a person or bay in the order of their starts; without what lies before the plan's start.
    [[nodiscard]] std::vector<int> jobsOfPerson(int person) const;
    [[nodiscard]] std::vector<int> jobsOfBay(int bay) const;
    /// The same; none for whom or what the plan does not know.
    [[nodiscard]] std::vector<int> jobsOf(PersonId person) const;
    [[nodiscard]] std::vector<int> jobsOf(BayId bay) const;
};

/// It starts with the whole minute. previous: the plan until now, so that what is about to begin
/// stays; null: there is none. Deterministic for an effort without a stop.
[[nodiscard]] HousePlan planHouse(const HouseInput& input, Moment now, const PlanEffort& effort,
                                  const HousePlan* previous = nullptr);

/// For another plan that is searched just as thoroughly, so that what they differ in comes of what
/// they are made from. Without a difference it is the same plan. stop ends it sooner.
[[nodiscard]] Budget asThoroughAs(const HousePlan& plan, const std::function<bool()>& stop = {});

/// A car that two plans of the same cars have ready at another time.
struct CarShift
{
    CarId car;
    PlanMinute before = never; ///< ready in half of the runs, as it is said of the car
    PlanMinute after = never;
    PlanMinute before90 = never; ///< in nine of ten
    PlanMinute after90 = never;
    bool wasLate = false;
    bool isLate = false;
};

/// In minutes: smaller ones are no news.
inline constexpr int leastShift = 15;

/// Those that move by at least so many minutes in the plan and in the forecast, what is put off
/// most first. Both plans begin at the same moment and drew the same chances.
[[nodiscard]] std::vector<CarShift> shiftsBetween(const HousePlan& before, const HousePlan& after,
                                                  int leastMinutes);

} // namespace ramplight::planning
