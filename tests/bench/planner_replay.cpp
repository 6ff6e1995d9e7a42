// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// How well the forecast would have said when a car is ready, on history: the ledgers of workshops
// that were at work for weeks are gone through day by day. On each morning what is signed by then
// is learned from, the plan and its forecast are made from what the ledger says, and both are held
// against what the rest of it says became of each car.
#include "bench/planner_scores.h"
#include "domain/shippedcatalogue.h"
#include "planning/playedhouse.h"

#include <QFile>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>

using namespace ramplight;
using namespace ramplight::planning;
using namespace ramplight::test;

namespace {

constexpr int runs = 400;

/// The cars and the site as a ledger has them at a moment, going on from one moment to the next.
class Replay
{
public:
    explicit Replay(const std::vector<Append>& entries)
        : m_entries(entries)
    {
    }

    void goOnTo(Moment until)
    {
        for (; m_next < m_entries.size() && m_entries[m_next].at < until; ++m_next) {
            const Append& entry = m_entries[m_next];
            for (const CarAppend& part : entry.cars) {
                CarState& car = m_cars[part.car];
                car.id = part.car;
                for (const CarEvent& event : part.events)
                    apply(car, {car.seq + 1, entry.at, entry.by, entry.command, event});
            }
            if (!entry.site)
                continue;
            for (const SiteEvent& event : entry.site->events)
                apply(m_site, {m_site.seq + 1, entry.at, entry.by, entry.command, event});
        }
    }

    [[nodiscard]] HouseInput input(std::shared_ptr<const Catalogue> catalogue) const
    {
        HouseInput input;
        for (const auto& [id, car] : m_cars) {
            input.cars.push_back(car);
            const std::vector<WorkRecord> records = recordsOf(car);
            input.records.insert(input.records.end(), records.begin(), records.end());
        }
        input.site = m_site;
        input.calendar = calendarOf(m_site);
        input.catalogue = std::move(catalogue);
        return input;
    }

private:
    const std::vector<Append>& m_entries;
    std::size_t m_next = 0;
    std::map<CarId, CarState> m_cars;
    SiteState m_site;
};

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
    std::size_t arrived = 0;
    std::size_t ready = 0;
    for (int seed = firstHouse; seed < firstHouse + houses; ++seed) {
        PlayedHouse house(catalogue.catalogue, *workshop, static_cast<std::uint64_t>(seed));
        house.play(days);
        arrived += house.ledger().cars().size();
        ready += house.ready().size();
        Replay replay(house.ledger().accepted());
        // What is not ready at the end was not seen: of the last days only quick cars would count.
        const std::size_t last = house.mornings().size() * 2 / 3;
        for (std::size_t morning = 0; morning < last; ++morning) {
            const Moment at = house.mornings()[morning];
            replay.goOnTo(at);
            const HouseInput input = replay.input(house.catalogue());
            const HousePlan plan = planHouse(input, at, PlayedHouse::effort(runs));
            const PlanClock clock = plan.clock();
            const auto said =
                shopOf(input.cars, input.site, input.calendar, at, input.catalogue.get());
            const std::vector<PlanMinute> sums = summed(said.shop);
            for (std::size_t c = 0; c < plan.house.cars.size(); ++c) {
                const auto came = house.ready().find(plan.house.cars[c]);
                if (came == house.ready().end() || plan.hasNoWork(static_cast<int>(c)) ||
                    plan.forecasts[c].ready90 == never || sums[c] >= never)
                    continue;
                const SaidAndCame one{plan.forecasts[c], plan.plan.ready[c], sums[c],
                                      clock.minuteOf(came->second)};
                all.add(one);
                byRecords.lower_bound(input.records.size())->second.second.add(one);
            }
        }
        all.nextHouse();
        for (auto& [most, scores] : byRecords)
            scores.second.nextHouse();
    }
    std::printf("%d workshops, %d days each, %zu cars came, %zu of them were ready by the end\n",
                houses, days, arrived, ready);
    ScoresByHorizon::tellHeading();
    for (const auto& [most, scores] : byRecords)
        scores.second.tell(scores.first);
    all.tell("all");
}
