// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// How well the forecast says when a car is ready: invented houses with a past, a plan of each, and
// several courses of what then happens. Calibration of the intervals, pinball loss and CRPS against
// the usual minutes summed and against the plan as it stands, by how far ahead a car is.
#include "planning/inventedhistory.h"
#include "planning/shopsearch.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <vector>

using namespace ramplight::planning;

namespace {

/// Loss of saying a quantile (Koenker and Bassett 1978), in minutes.
double pinball(double said, double share, double came)
{
    return came >= said ? share * (came - said) : (1 - share) * (said - came);
}

/// Continuous ranked probability score of a sample (Gneiting and Raftery 2007); sorted.
double crps(const std::vector<PlanMinute>& runs, double came)
{
    const double n = double(runs.size());
    double away = 0;
    double spread = 0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        away += std::abs(runs[i] - came) / n;
        spread += (2 * double(i) - n + 1) * runs[i] / (n * n);
    }
    return away - spread;
}

struct Scores
{
    double count = 0;
    std::array<double, 3> inside = {};
    std::vector<double> byHouse = {};     ///< share inside the 50 % interval
    std::array<double, 3> pinball90 = {}; ///< forecast, plan, sum
    std::array<double, 3> crps = {};

    /// Of the share inside the 50 % interval, in points. The cars of a house are late together, so
    /// houses count, not cars.
    [[nodiscard]] double standardError() const
    {
        const double n = double(byHouse.size());
        const double mean = std::accumulate(byHouse.begin(), byHouse.end(), 0.0) / n;
        double squares = 0;
        for (const double share : byHouse)
            squares += (share - mean) * (share - mean);
        return n < 2 ? 100 : 100 * std::sqrt(squares / (n - 1) / n);
    }

    void tell(const char* name, const char* records) const
    {
        if (count == 0)
            return;
        std::printf("%7s %-9s %6.0f   %4.1f %4.1f %4.1f   %5.1f %5.1f %5.1f   %5.0f %5.0f %5.0f\n",
                    records, name, count, 100 * inside[0] / count, 100 * inside[1] / count,
                    100 * inside[2] / count, pinball90[0] / count, pinball90[1] / count,
                    pinball90[2] / count, crps[0] / count, crps[1] / count, crps[2] / count);
    }
};

/// What somebody says who adds up the usual minutes and the waits of a car.
std::vector<PlanMinute> summed(const Shop& shop)
{
    std::vector<PlanMinute> ready;
    for (std::size_t c = 0; c < shop.cars.size(); ++c) {
        int minutes = 0;
        int waits = 0;
        PlanMinute from = std::max(0, shop.cars[c].from);
        for (const ShopJob& job : shop.jobs) {
            if (job.car != static_cast<int>(c))
                continue;
            minutes += job.minutes.usual;
            waits += job.waitMinutes;
            from = std::max(from, job.notBefore);
        }
        // The hours of somebody who is there throughout.
        ready.push_back(shop.people.front().times.fit(from, minutes, Pause::Overnight).to + waits);
    }
    return ready;
}

} // namespace

int main(int argc, char** argv)
{
    const int houses = argc > 1 ? static_cast<int>(std::strtol(argv[1], nullptr, 10)) : 60;
    constexpr int firstHouse = 2001;
    constexpr int courses = 5;
    std::puts("records horizon    cars   50 % 80 % 90 %   pinball at 90 %     CRPS, minutes");
    std::puts("                         inside           ours  plan  sum     ours  plan  sum");
    for (const int records : {0, 100, 500, 2'000}) {
        std::array<Scores, 4> scores;
        for (int seed = firstHouse; seed < firstHouse + houses; ++seed) {
            const auto house =
                ramplight::test::inventedHouse(static_cast<std::uint64_t>(seed), 30, records);
            const MinutesModel model(house.records);
            const ShopChances chances = chancesOf(house.shop, model, house.keys);
            const ShopPlan plan = planShop(withExpectedMinutes(house.shop, chances),
                                           {.budget = {.schedules = 1'000}});
            const auto cars = forecast(house.shop, plan, chances, 1'000, 1);
            const std::vector<PlanMinute> sums = summed(house.shop);
            Dice dice(static_cast<std::uint64_t>(seed));
            const Scores before = scores[3];
            for (int course = 0; course < courses; ++course) {
                const auto ready = ramplight::test::whatHappens(house, plan, dice);
                for (std::size_t c = 0; c < ready.size(); ++c) {
                    if (ready[c] == never || cars[c].ready90 == never || sums[c] >= never)
                        continue;
                    const int days = cars[c].ready50 / (24 * 60);
                    const std::size_t horizon = days < 1 ? 0 : days < 4 ? 1 : 2;
                    const double came = ready[c];
                    for (Scores* to : {&scores[horizon], &scores[3]}) {
                        to->count += 1;
                        const std::array intervals = {cars[c].within50, cars[c].within80,
                                                      cars[c].within90};
                        for (std::size_t i = 0; i < intervals.size(); ++i)
                            to->inside[i] +=
                                ready[c] >= intervals[i].from && ready[c] <= intervals[i].to;
                        to->pinball90[0] += pinball(cars[c].ready90, 0.9, came);
                        to->pinball90[1] += pinball(plan.ready[c], 0.9, came);
                        to->pinball90[2] += pinball(sums[c], 0.9, came);
                        to->crps[0] += crps(cars[c].runs, came);
                        to->crps[1] += std::abs(plan.ready[c] - came);
                        to->crps[2] += std::abs(sums[c] - came);
                    }
                }
            }
            if (scores[3].count > before.count)
                scores[3].byHouse.push_back((scores[3].inside[0] - before.inside[0]) /
                                            (scores[3].count - before.count));
        }
        const QByteArray name = QByteArray::number(records);
        scores[0].tell("same day", name.constData());
        scores[1].tell("1-3 days", name.constData());
        scores[2].tell("more", name.constData());
        scores[3].tell("all", name.constData());
        std::printf("        the 50 %% column is known to +- %.1f points (a standard error)\n",
                    scores[3].standardError());
    }
}
