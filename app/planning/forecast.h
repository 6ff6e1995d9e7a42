// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/budget.h"
#include "planning/learning.h"
#include "planning/shop.h"

#include <cstdint>
#include <map>
#include <vector>

// When each car will be ready, with how sure that is: many runs of a plan with minutes drawn from
// what is known of them. Everybody keeps to the plan's order; what takes longer pushes the rest.
namespace ramplight::planning {

/// What chance does to the jobs of a shop. Independent minutes would understate the spread of a
/// car's sum, so whole cars, people and kinds have factors that their jobs share.
struct ShopChances
{
    struct Job
    {
        double median = 0; ///< minutes, before the factors that are shared
        double spread = 0; ///< standard deviation of the logarithm
        int kind = 0;
    };
    std::vector<Job> jobs;
    std::vector<LogFactor> kinds;
    std::vector<LogFactor> people;
    std::vector<LogFactor> cars;
    std::vector<LogFactor> carKinds;
    std::vector<int> kindOfCar; ///< by car: its place in carKinds; -1: not known
    LogFactor house;            ///< of all jobs together
};

/// Who and what the numbers of a shop stand for, so that what was learned finds them.
struct ShopKeys
{
    std::vector<PersonId> people;
    std::vector<QString> carKinds;
    std::vector<std::vector<WorkRecord>> done; ///< by car: its own signed-off work; may be empty
};

/// keys have an entry for each person and car, or none at all.
[[nodiscard]] ShopChances chancesOf(const Shop& shop, const MinutesModel& model,
                                    const ShopKeys& keys = {});
/// The shop with the minutes that are to be expected instead of the catalogue's, whoever does them.
[[nodiscard]] Shop withExpectedMinutes(Shop shop, const ShopChances& chances);

/// One run of a plan. Minutes of work by job; never where the plan has nothing.
[[nodiscard]] std::vector<PlanMinute> runPlan(const Shop& shop, const ShopPlan& plan,
                                              const std::vector<int>& minutes);

struct Interval
{
    PlanMinute from = never;
    PlanMinute to = never;
};

struct CarForecast
{
    PlanMinute ready50 = never; ///< ready by then in half of the runs
    PlanMinute ready90 = never;
    Interval within50; ///< the middle half of the runs
    Interval within80;
    Interval within90;
    double late = 0;                   ///< share of the runs in which it is later than promised
    std::vector<PlanMinute> runs = {}; ///< all of them, in order of time
};

/// By car. Deterministic for a seed and a number of runs; with a stop, as many as it allows.
[[nodiscard]] std::vector<CarForecast> forecast(const Shop& shop, const ShopPlan& plan,
                                                const ShopChances& chances, int runs,
                                                std::uint64_t seed, const Budget& budget = {});

/// All that follows from the runs, which are in order and not empty; promised: of the car.
void tell(CarForecast& car, PlanMinute promised);

/// The value under which a share of the runs lies; runs in order and not empty.
[[nodiscard]] PlanMinute quantileOf(const std::vector<PlanMinute>& runs, double share);

} // namespace ramplight::planning
