// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// How well the forecast says when a car is ready: invented houses with a past, a plan of each, and
// several courses of what then happens. Calibration of the intervals, pinball loss and CRPS against
// the usual minutes summed and against the plan as it stands, by how far ahead a car is.
#include "bench/planner_scores.h"
#include "planning/inventedhistory.h"
#include "planning/shopsearch.h"

#include <cstdlib>
#include <string>
#include <vector>

using namespace ramplight::planning;
using namespace ramplight::test;

int main(int argc, char** argv)
{
    const int houses = argc > 1 ? static_cast<int>(std::strtol(argv[1], nullptr, 10)) : 60;
    constexpr int firstHouse = 2001;
    constexpr int courses = 5;
    ScoresByHorizon::tellHeading();
    for (const int records : {0, 100, 500, 2'000}) {
        ScoresByHorizon scores;
        for (int seed = firstHouse; seed < firstHouse + houses; ++seed) {
            const auto house = inventedHouse(static_cast<std::uint64_t>(seed), 30, records);
            const MinutesModel model(house.records);
            const ShopChances chances = chancesOf(house.shop, model, house.keys);
            const ShopPlan plan = planShop(withExpectedMinutes(house.shop, chances),
                                           {.budget = {.schedules = 1'000}});
            const auto cars = forecast(house.shop, plan, chances, 1'000, 1);
            const std::vector<PlanMinute> sums = summed(house.shop);
            Dice dice(static_cast<std::uint64_t>(seed));
            for (int course = 0; course < courses; ++course) {
                const auto ready = whatHappens(house, plan, dice);
                for (std::size_t c = 0; c < ready.size(); ++c) {
                    if (ready[c] == never || cars[c].ready90 == never || sums[c] >= never)
                        continue;
                    scores.add({cars[c], plan.ready[c], sums[c], ready[c]});
                }
            }
            scores.nextHouse();
        }
        scores.tell(std::to_string(records));
    }
}
