// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/inventedshops.h"

#include "planning/dice.h"
#include "planning/indexing.h"

#include <array>
#include <cmath>

using namespace ramplight::planning;

namespace ramplight::test {

namespace {

constexpr int dayMinutes = 24 * 60;

std::vector<int> someOf(int count, double probability, Dice& dice)
{
    std::vector<int> some;
    for (int i = 0; i < count; ++i) {
        if (dice.chance(probability))
            some.push_back(i);
    }
    if (some.empty())
        some.push_back(dice.below(count));
    return some;
}

} // namespace

namespace {

/// The car stays somewhere for a while: for one job from another on, or from now on.
void letStay(Shop& shop, int first, std::vector<char>& isTaken, Dice& dice)
{
    const int n = static_cast<int>(shop.jobs.size());
    const auto job = [&shop](int i) -> ShopJob& { return shop.jobs[static_cast<std::size_t>(i)]; };
    const int opener = first + dice.below(n - first);
    const int group = dice.below(static_cast<int>(shop.bayGroups.size()));
    const bool isNow = dice.chance(0.5);
    ShopCar& car = shop.cars.back();
    if (isNow) {
        const int bay = shop.bayGroups[static_cast<std::size_t>(group)].front();
        if (job(first).running || isTaken[static_cast<std::size_t>(bay)])
            return;
        isTaken[static_cast<std::size_t>(bay)] = 1;
        car.bay = bay;
        if (dice.chance(0.3))
            car.staysUntil = dice.between(1, 600);
        else
            job(opener).keepsCar = true;
    } else {
        if (job(first).running || opener + 1 == n || !job(opener).usesCar)
            return;
        job(opener).bays = group;
        for (int end = opener + 1; end < n; ++end) {
            if (end + 1 < n && dice.chance(0.6))
                continue;
            if (!contains(job(end).after, opener))
                job(end).after.push_back(opener);
            job(opener).staysFor.push_back(end);
        }
    }
    for (int i = first; i < n; ++i) {
        if (job(i).bays >= 0 && (isNow || job(i).usesCar))
            job(i).bays = group;
    }
}

} // namespace

Shop oddShop(std::uint64_t seed)
{
    Dice dice(seed);
    Shop shop;
    const int people = dice.between(1, 6);
    for (int i = 0; i < people; ++i) {
        std::vector<Span> spans;
        for (int day = 0; day < 30; ++day) {
            if (dice.chance(0.25))
                continue; // off
            int t = day * dayMinutes + dice.between(0, 200);
            for (int part = dice.between(1, 3); part > 0; --part) {
                const int length = dice.between(60, 300);
                spans.push_back({t, t + length});
                t += length + dice.between(10, 90);
            }
        }
        shop.people.push_back({QStringLiteral("P%1").arg(i), WorkTimes(spans)});
    }
    const int bays = dice.between(1, 5);
    for (int i = 0; i < bays; ++i)
        shop.bays.push_back({QStringLiteral("bay %1").arg(i)});
    for (int i = dice.between(1, 4); i > 0; --i) {
        shop.crews.push_back(someOf(people, 0.5, dice));
        shop.bayGroups.push_back(someOf(bays, 0.5, dice));
    }
    std::vector<char> isTaken(static_cast<std::size_t>(bays), 0);
    std::vector<char> isWorking(static_cast<std::size_t>(people), 0);
    for (int c = dice.between(1, 8); c > 0; --c) {
        ShopCar car{.name = QStringLiteral("S%1").arg(c)};
        car.arrived = dice.between(-5'000, 0);
        car.from = dice.chance(0.3) ? dice.between(0, 3'000) : 0;
        car.promised = dice.chance(0.8) ? dice.between(0, 8'000) : never;
        car.weight = dice.between(1, 3);
        shop.cars.push_back(car);
        const int number = static_cast<int>(shop.cars.size()) - 1;
        const int first = static_cast<int>(shop.jobs.size());
        for (int j = dice.between(1, 9); j > 0; --j) {
            const int usual = dice.chance(0.05) ? 0 : dice.between(3, 200);
            ShopJob job{.title = QStringLiteral("job %1").arg(shop.jobs.size()),
                        .kind = {},
                        .car = number,
                        .minutes = {usual / 2, usual, usual * 2}};
            const int groups = static_cast<int>(shop.crews.size());
            job.crew = dice.chance(0.95) ? dice.below(groups) : -1;
            job.bays = dice.chance(0.6) ? dice.below(groups) : -1;
            job.waitMinutes = dice.chance(0.3) ? dice.between(5, 400) : 0;
            job.waitsInBay = dice.chance(0.4);
            job.usesCar = dice.chance(0.85);
            job.pause = static_cast<Pause>(dice.below(3));
            job.notBefore = dice.chance(0.2) ? dice.between(0, 4'000) : 0;
            const int self = static_cast<int>(shop.jobs.size());
            for (int other = first; other < self; ++other) {
                if (dice.chance(0.2))
                    job.after.push_back(other);
                if (dice.chance(0.3))
                    job.apart.push_back(other);
                if (dice.chance(0.08))
                    job.checks.push_back(other);
            }
            if (job.after.empty() && job.crew >= 0 && !car.from && dice.chance(0.15)) {
                const int person = shop.crews[static_cast<std::size_t>(job.crew)].front();
                const int bay =
                    job.bays < 0 ? -1 : shop.bayGroups[static_cast<std::size_t>(job.bays)].front();
                const bool isFirst = self == first;
                const bool bayIsFree = bay < 0 || !isTaken[static_cast<std::size_t>(bay)];
                if (isFirst && bayIsFree && !isWorking[static_cast<std::size_t>(person)]) {
                    job.running = RunningJob{person, bay, -dice.between(1, 60)};
                    isWorking[static_cast<std::size_t>(person)] = 1;
                    if (bay >= 0)
                        isTaken[static_cast<std::size_t>(bay)] = 1;
                }
            }
            shop.jobs.push_back(std::move(job));
        }
        if (dice.chance(0.25))
            letStay(shop, first, isTaken, dice);
    }
    return shop;
}

Shop preparationShop(std::uint64_t seed, int cars)
{
    Dice dice(seed * 7919 + 17);
    Shop shop;
    enum Trade { Office, Valet, Mechanic, Wheels, Smart, Paint, Glass, Trim, Checks, trades };
    const std::array<std::vector<int>, 14> people = {{{Office},
                                                      {Valet},
                                                      {Valet},
                                                      {Valet},
                                                      {Mechanic},
                                                      {Mechanic, Checks},
                                                      {Mechanic, Wheels},
                                                      {Mechanic},
                                                      {Wheels},
                                                      {Smart, Paint},
                                                      {Smart},
                                                      {Glass, Trim},
                                                      {Trim, Valet},
                                                      {Checks, Office}}};
    shop.crews.resize(trades);
    for (std::size_t i = 0; i < people.size(); ++i) {
        std::vector<Span> spans;
        for (int day = 0; day < 42; ++day) {
            if (day % 7 >= 5 || dice.chance(0.04))
                continue;
            const int open = day * dayMinutes;
            const int lunch = open + (i % 2 == 0 ? 240 : 270);
            spans.push_back({open, lunch});
            spans.push_back({lunch + 30, open + 540});
        }
        for (const int trade : people[i])
            shop.crews[static_cast<std::size_t>(trade)].push_back(static_cast<int>(i));
        shop.people.push_back({QStringLiteral("person %1").arg(i + 1), WorkTimes(spans)});
    }
    enum Kind { Lift, WheelBay, PaintBay, SmartBay, GlassBay, ValetBay, kinds };
    constexpr std::array<int, kinds> bays = {4, 2, 1, 2, 1, 3};
    for (const int count : bays) {
        std::vector<int> group;
        for (int i = 0; i < count; ++i) {
            group.push_back(static_cast<int>(shop.bays.size()));
            shop.bays.push_back({QStringLiteral("bay %1").arg(shop.bays.size() + 1)});
        }
        shop.bayGroups.push_back(group);
    }
    struct Kit
    {
        const char* title;
        int crew;
        int bays;
        int usual;
        int wait;
        bool waitsInBay;
        bool usesCar;
        Pause pause;
    };
    constexpr std::array<Kit, 9> repairs = {
        {{"brakes", Mechanic, Lift, 60, 0, false, true, Pause::Overnight},
         {"small repair", Mechanic, -1, 25, 0, false, true, Pause::Overnight},
         {"tyres", Wheels, WheelBay, 40, 0, false, true, Pause::Overnight},
         {"wheel", Wheels, WheelBay, 70, 120, false, false, Pause::SameDay},
         {"dent", Smart, SmartBay, 40, 0, false, true, Pause::Overnight},
         {"touch-in", Smart, SmartBay, 25, 60, false, true, Pause::Overnight},
         {"panel", Paint, PaintBay, 120, 60, true, true, Pause::SameDay},
         {"glass", Glass, GlassBay, 60, 60, true, true, Pause::SameDay},
         {"trim", Trim, -1, 45, 60, false, true, Pause::Overnight}}};
    for (int c = 0; c < cars; ++c) {
        ShopCar car{.name = QStringLiteral("S%1").arg(1001 + c)};
        car.arrived = -dice.between(10, 4 * dayMinutes);
        car.from = dice.chance(0.25) ? dice.between(0, 2) * dayMinutes + 60 : 0;
        // Nobody promises a car for the day after it comes.
        int day = car.from / dayMinutes + dice.between(2, 10);
        day += day % 7 >= 5 ? 2 : 0;
        car.promised = day * dayMinutes + 540;
        car.weight = std::array{1, 1, 2, 4}[static_cast<std::size_t>(dice.below(4))];
        shop.cars.push_back(car);
        const int first = static_cast<int>(shop.jobs.size());
        const auto add = [&](const Kit& kit, std::vector<int> after) {
            const int usual =
                std::max(5, static_cast<int>(kit.usual * std::exp(0.3 * dice.normal())));
            ShopJob job{.title = QString::fromLatin1(kit.title),
                        .kind = {},
                        .car = c,
                        .crew = kit.crew,
                        .bays = kit.bays,
                        .minutes = {usual * 7 / 10, usual, usual * 17 / 10},
                        .waitMinutes = kit.wait,
                        .waitsInBay = kit.waitsInBay,
                        .usesCar = kit.usesCar,
                        .pause = kit.pause};
            const int self = static_cast<int>(shop.jobs.size());
            for (int other = first; job.usesCar && other < self; ++other) {
                if (shop.jobs[static_cast<std::size_t>(other)].usesCar)
                    job.apart.push_back(other);
            }
            job.after = std::move(after);
            job.notBefore = dice.chance(0.03) ? dice.between(0, 2) * dayMinutes + 120 : 0;
            shop.jobs.push_back(std::move(job));
            return self;
        };
        int begun = first;
        if (dice.chance(0.7)) {
            begun = add({"intake", Office, -1, 10, 0, false, true, Pause::Overnight}, {});
            const int wash =
                add({"wash", Valet, ValetBay, 15, 15, false, true, Pause::Overnight}, {begun});
            begun =
                add({"inspection", Mechanic, Lift, 50, 0, false, true, Pause::Overnight}, {wash});
        } else {
            begun = add({"inspection", Mechanic, Lift, 30, 0, false, true, Pause::Overnight}, {});
        }
        std::vector<int> all = {begun};
        for (int k = dice.between(3, 6); k > 0; --k) {
            const Kit& kit =
                repairs[static_cast<std::size_t>(dice.below(static_cast<int>(repairs.size())))];
            std::vector<int> after = {begun};
            if (all.size() > 1 && dice.chance(0.3))
                after.push_back(all.back());
            all.push_back(add(kit, after));
        }
        const int valet =
            add({"valet", Valet, ValetBay, 75, 20, false, true, Pause::Overnight}, all);
        const int photos =
            add({"photos", Office, -1, 15, 0, false, true, Pause::Overnight}, {valet});
        const int check =
            add({"last check", Checks, -1, 20, 0, false, true, Pause::Overnight}, {photos});
        for (int other = first; other < check; ++other)
            shop.jobs.back().checks.push_back(other);
    }
    return shop;
}

} // namespace ramplight::test
