// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/inventedhistory.h"

#include "planning/indexing.h"
#include "planning/inventedshops.h"

#include <array>
#include <cmath>

using namespace ramplight::planning;

namespace ramplight::test {

InventedHouse inventedHouse(std::uint64_t seed, int cars, int records)
{
    InventedHouse house;
    house.shop = preparationShop(seed, cars);
    Dice dice(seed * 31 + 5);
    // Houses differ from the catalogue, and kinds, people, shapes and cars from each other, as much
    // as a model without records takes them to.
    const double all = 0.06 * dice.normal();
    const std::array<std::pair<QString, double>, 3> shapes = {
        {{QStringLiteral("hatch"), 0.1 * dice.normal()},
         {QStringLiteral("estate"), 0.1 * dice.normal()},
         {QStringLiteral("van"), 0.1 * dice.normal()}}};
    std::map<QString, std::pair<double, double>> kinds; // true mean and spread
    for (ShopJob& job : house.shop.jobs) {
        job.kind = job.title;
        const double listed = MinutesModel::catalogueSpread(job.minutes);
        kinds.try_emplace(job.kind, all + 0.25 * dice.normal(),
                          listed * (0.75 + 0.5 * dice.share()));
    }
    for (std::size_t p = 0; p < house.shop.people.size(); ++p) {
        house.people.push_back(0.2 * dice.normal());
        house.keys.people.push_back(PersonId{static_cast<int>(p) + 1});
    }
    for (std::size_t c = 0; c < house.shop.cars.size(); ++c) {
        const auto& [shape, factor] = shapes[at(dice.below(static_cast<int>(shapes.size())))];
        house.keys.carKinds.push_back(shape);
        house.carKinds.push_back(factor);
    }
    for (const ShopJob& job : house.shop.jobs) {
        house.jobMedians.push_back(job.minutes.usual * std::exp(kinds[job.kind].first));
        house.jobSpreads.push_back(kinds[job.kind].second);
    }
    // Ten pieces of work on each car of the past.
    double car = 0;
    QString shape;
    for (int r = 0; r < records; ++r) {
        if (r % 10 == 0) {
            const auto& one = shapes[at(dice.below(static_cast<int>(shapes.size())))];
            shape = one.first;
            car = one.second + house.carSpread * dice.normal();
        }
        const ShopJob& like =
            house.shop.jobs[at(dice.below(static_cast<int>(house.shop.jobs.size())))];
        const std::vector<int>& crew = house.shop.crews[at(like.crew)];
        const int person = crew[at(dice.below(static_cast<int>(crew.size())))];
        const auto [mean, spread] = kinds[like.kind];
        double log = mean + spread * dice.normal() + car + house.people[at(person)];
        if (dice.chance(0.02))
            log += std::log(dice.between(4, 20)); // nobody stopped the timer
        house.records.push_back(
            {like.kind, PersonId{person + 1}, shape, CarId{QStringLiteral("past %1").arg(r / 10)},
             like.minutes.usual,
             std::max(1, static_cast<int>(std::lround(like.minutes.usual * std::exp(log))))});
    }
    return house;
}

std::vector<PlanMinute> whatHappens(const InventedHouse& house, const ShopPlan& plan, Dice& dice)
{
    std::vector<double> cars;
    for (std::size_t c = 0; c < house.shop.cars.size(); ++c)
        cars.push_back(house.carKinds[c] + house.carSpread * dice.normal());
    std::vector<int> minutes;
    for (std::size_t i = 0; i < house.shop.jobs.size(); ++i) {
        const int person = plan.jobs[i].person;
        const double log = house.jobSpreads[i] * dice.normal() + cars[at(house.shop.jobs[i].car)] +
                           (person < 0 ? 0.0 : house.people[at(person)]);
        minutes.push_back(static_cast<int>(std::lround(house.jobMedians[i] * std::exp(log))));
    }
    return runPlan(house.shop, plan, minutes);
}

} // namespace ramplight::test
