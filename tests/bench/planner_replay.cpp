// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// How well the forecast would have said when a car is ready, on history: the ledgers of workshops
// that were at work for weeks are gone through day by day. On each morning what is signed by then
// is learned from, the plan and its forecast are made from what the ledger says, corrected by what
// came of earlier mornings', and held against what the rest of it says became of each car.
#include "bench/planner_scores.h"
#include "domain/shippedcatalogue.h"
#include "planning/lookback.h"
#include "planning/playedhouse.h"

#include <QFile>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>

using namespace ramplight;
using namespace ramplight::planning;
using namespace ramplight::test;

namespace {

constexpr int runs = 400;

} // namespace

int main(int argc, char** argv)
{
    const auto argument = [&](int which, int usual) {
        return argc > which ? static_cast<int>(std::strtol(argv[which], nullptr, 10)) : usual;
    };
    const int houses = argument(1, 20);
    const int days = argument(2, 30);
    const int firstHouse = argument(3, 3001);
    const CatalogueReading catalogue = readCatalogue(shippedBytes());
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/workshop.json"));
    const auto workshop = file.open(QIODevice::ReadOnly)
                              ? demo::readWorkshop(file.readAll())
                              : tl::unexpected(QStringLiteral("no demo workshop"));
    if (!workshop) {
        std::fputs("planner_replay: the demo workshop cannot be read\n", stderr);
        return 70;
    }
    std::map<std::size_t, std::pair<std::string, ScoresByHorizon>> byRecords = {
        {100, {"to 100", {}}}, {500, {"to 500", {}}}, {100'000, {"more", {}}}};
    ScoresByHorizon all;
    ScoresByHorizon uncorrected;
    ScoresByHorizon inCommon;
    std::vector<SaidThen> everything;
    std::size_t arrived = 0;
    std::size_t ready = 0;
    for (int seed = firstHouse; seed < firstHouse + houses; ++seed) {
        PlayedHouse house(catalogue.catalogue, *workshop, static_cast<std::uint64_t>(seed));
        house.play(days);
        arrived += house.ledger().cars().size();
        ready += house.ready().size();
        const HouseLedger ledger = house.history();
        HouseReplay replay(ledger);
        LookBack looking;
        // What is not ready at the end was not seen: of the last days only quick cars would count.
        const std::size_t last = house.mornings().size() * 2 / 3;
        for (std::size_t morning = 0; morning < last; ++morning) {
            const Moment at = house.mornings()[morning];
            replay.goOnTo(at);
            HouseInput input = replay.input(house.catalogue());
            input.hindsight = Hindsight::none();
            const HousePlan plan = planHouse(input, at, PlayedHouse::effort(runs));
            const PlanClock clock = plan.clock();
            const auto said =
                shopOf(input.cars, input.site, input.calendar, at, input.catalogue.get());
            const std::vector<PlanMinute> sums = summed(said.shop);
            const WorkTimes& hours = *longestHours(plan.house.shop);
            const Hindsight hindsight(looking.knownBy(replay));
            looking.keep(plan);
            for (std::size_t c = 0; c < plan.house.cars.size(); ++c) {
                if (plan.hasNoWork(static_cast<int>(c)))
                    continue;
                const auto came = house.ready().find(plan.house.cars[c]);
                if (came == house.ready().end() || plan.forecasts[c].ready90 == never ||
                    sums[c] >= never)
                    continue;
                const CarForecast corrected =
                    hindsight.corrected(plan.forecasts[c], hours, plan.house.shop.cars[c].promised);
                const PlanMinute minute = clock.minuteOf(came->second);
                const SaidAndCame one{corrected, plan.plan.ready[c], sums[c], minute};
                all.add(one);
                const CarForecast common = Hindsight().corrected(plan.forecasts[c], hours,
                                                                 plan.house.shop.cars[c].promised);
                inCommon.add({common, plan.plan.ready[c], sums[c], minute});
                uncorrected.add({plan.forecasts[c], plan.plan.ready[c], sums[c], minute});
                byRecords.lower_bound(input.records.size())->second.second.add(one);
            }
        }
        replay.goOnTo(house.mornings().back());
        const std::vector<SaidThen> past = looking.knownBy(replay);
        everything.insert(everything.end(), past.begin(), past.end());
        all.nextHouse();
        uncorrected.nextHouse();
        inCommon.nextHouse();
        for (auto& [most, scores] : byRecords)
            scores.second.nextHouse();
    }
    std::printf("%d workshops, %d days each, %zu cars came, %zu of them were ready by the end\n",
                houses, days, arrived, ready);
    ScoresByHorizon::tellHeading();
    for (const auto& [most, scores] : byRecords)
        scores.second.tell(scores.first);
    uncorrected.tell("as drawn");
    inCommon.tell("in common");
    all.tell("all");
    std::puts("what all of them have in common, by horizon and level:");
    const Hindsight learned(everything);
    for (const auto& horizon : learned.stretches()) {
        for (const double stretch : horizon)
            std::printf("%6.2f", stretch);
        std::puts("");
    }
}
