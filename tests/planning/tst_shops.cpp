// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/dispatching.h"
#include "planning/inventedshops.h"
#include "planning/plancheck.h"
#include "planning/shopmoves.h"
#include "planning/shopsearch.h"
#include "planning/shopsketch.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>

using namespace ramplight::planning;
using namespace ramplight::test;

namespace {

// Eight to four on two days, a break at noon.
WorkTimes twoDays()
{
    return WorkTimes({{0, 240}, {270, 480}, {1440, 1680}, {1710, 1920}});
}

/// Two people, two bays, one car of which everybody may do everything.
Shop plainShop()
{
    Shop shop;
    shop.people = {{QStringLiteral("Ada"), twoDays()}, {QStringLiteral("Ben"), twoDays()}};
    shop.bays = {{QStringLiteral("lift")}, {QStringLiteral("paint")}};
    shop.crews = {{0, 1}, {0}, {1}};
    shop.bayGroups = {{0}, {1}, {0, 1}};
    shop.cars = {{.name = QStringLiteral("S1")}};
    return shop;
}

ShopJob jobOf(int minutes, int crew = 0, int bays = -1)
{
    return {.title = QStringLiteral("job"),
            .kind = {},
            .car = 0,
            .crew = crew,
            .bays = bays,
            .minutes = {minutes, minutes, minutes}};
}

ShopPlan planIn(const Shop& shop, std::int64_t schedules = 200)
{
    return planShop(shop, {.budget = {.schedules = schedules}});
}

} // namespace

class TestShops : public QObject
{
    Q_OBJECT

private slots:
    void workLiesWhereItMay_data()
    {
        QTest::addColumn<int>("from");
        QTest::addColumn<int>("minutes");
        QTest::addColumn<Pause>("pause");
        QTest::addColumn<int>("start");
        QTest::addColumn<int>("end");
        QTest::newRow("at once") << 10 << 60 << Pause::Never << 10 << 70;
        QTest::newRow("in the break") << 250 << 60 << Pause::Never << 270 << 330;
        QTest::newRow("over the break") << 200 << 60 << Pause::SameDay << 200 << 290;
        QTest::newRow("never over the break") << 200 << 60 << Pause::Never << 270 << 330;
        QTest::newRow("overnight") << 450 << 60 << Pause::Overnight << 450 << 1470;
        QTest::newRow("not overnight") << 450 << 60 << Pause::SameDay << 1440 << 1500;
        QTest::newRow("to the last minute") << 450 << 30 << Pause::SameDay << 450 << 480;
        QTest::newRow("before it begins") << -50 << 10 << Pause::Never << 0 << 10;
        QTest::newRow("a day is too short") << 0 << 451 << Pause::SameDay << never << never;
        QTest::newRow("a whole day") << 0 << 450 << Pause::SameDay << 0 << 480;
        QTest::newRow("after the end") << 5'000 << 1 << Pause::Overnight << never << never;
        QTest::newRow("more than there is") << 0 << 901 << Pause::Overnight << never << never;
    }
    void workLiesWhereItMay()
    {
        QFETCH(int, from);
        QFETCH(int, minutes);
        QFETCH(Pause, pause);
        QFETCH(int, start);
        QFETCH(int, end);
        const Span span = twoDays().fit(from, minutes, pause);
        QCOMPARE(span.from, start);
        QCOMPARE(span.to, end);
    }

    void timesAreJoined()
    {
        const WorkTimes times({{100, 200}, {50, 60}, {150, 250}, {250, 300}, {10, 10}});
        const std::vector<Span> joined = {{50, 60}, {100, 300}};
        QCOMPARE(times.spans(), joined);
        QCOMPARE(times.nextWork(60), 100);
        QCOMPARE(times.nextWork(300), never);
        QCOMPARE(times.minutesIn({55, 120}), 25);
        QCOMPARE(WorkTimes().nextWork(0), never);
    }

    void faultsOfAShopAreNamed()
    {
        Shop shop = plainShop();
        shop.jobs = {jobOf(10), jobOf(10)};
        QVERIFY(faultsOf(shop).isEmpty());
        shop.jobs[0].after = {1};
        QVERIFY(faultsOf(shop).isEmpty());
        shop.jobs[1].after = {0};
        QCOMPARE(faultsOf(shop).size(), 1);
        shop.jobs[1].after = {7};
        QCOMPARE(faultsOf(shop).size(), 1);
        shop.jobs[1] = jobOf(10, 9, 9);
        QCOMPARE(faultsOf(shop).size(), 2);
        shop.jobs[1] = jobOf(10);
        shop.cars.push_back({.name = QStringLiteral("S2")});
        shop.jobs[0].car = 1;
        QCOMPARE(faultsOf(shop).size(), 1);
    }

    void jobsOfACarTogetherAndApart()
    {
        Shop shop = plainShop();
        shop.jobs = {jobOf(60), jobOf(60)};
        QCOMPARE(planIn(shop).ready[0], 60);
        shop.jobs[0].apart = {1};
        QCOMPARE(planIn(shop).ready[0], 120);
        // In different bays a car cannot be at once; its wheels can.
        shop.jobs = {jobOf(60, 0, 0), jobOf(60, 0, 1)};
        QCOMPARE(planIn(shop).ready[0], 120);
        shop.jobs[1].usesCar = false;
        QCOMPARE(planIn(shop).ready[0], 60);
    }

    void waitsHoldWhatTheyHold()
    {
        Shop shop = plainShop();
        shop.cars.push_back({.name = QStringLiteral("S2")});
        shop.jobs = {jobOf(60, 0, 1), jobOf(30), jobOf(30, 0, 1)};
        shop.jobs[0].waitMinutes = 100;
        shop.jobs[1].after = {0};
        shop.jobs[2].car = 1;
        shop.jobs[2].notBefore = 1;
        shop.cars[0].promised = 190;
        // The car waits, the bay does not.
        ShopPlan plan = planIn(shop);
        QCOMPARE(plan.jobs[1].start, 160);
        QCOMPARE(plan.jobs[2].start, 60);
        shop.jobs[0].waitsInBay = true;
        plan = planIn(shop);
        QCOMPARE(plan.jobs[1].start, 160);
        QCOMPARE(plan.jobs[2].start, 160);
    }

    // Wheels off: nothing else stands in the bay until they are on, and the car nowhere else.
    void carStaysWithoutItsWheels()
    {
        Shop shop = plainShop();
        shop.cars[0].promised = 120;
        shop.cars.push_back({.name = QStringLiteral("S2")});
        enum { Off, Wheels, Beside, Other };
        shop.jobs = {jobOf(20, 1, 0), jobOf(100, 1), jobOf(10, 0, 1), jobOf(30, 2, 0)};
        shop.jobs[Wheels].usesCar = false;
        shop.jobs[Wheels].after = {Off};
        shop.jobs[Beside].after = {Off};
        shop.jobs[Other].car = 1;
        shop.jobs[Other].notBefore = 1;
        ShopPlan plan = planIn(shop);
        QCOMPARE(plan.jobs[Wheels].end, 120);
        QVERIFY(plan.jobs[Beside].start < 120);
        QVERIFY(plan.jobs[Other].start < 120);
        shop.jobs[Off].staysFor = {Wheels};
        QVERIFY(!faultsOfPlan(shop, plan).isEmpty());
        plan = planIn(shop);
        QCOMPARE(faultsOfPlan(shop, plan), QStringList());
        QCOMPARE(plan.jobs[Wheels].end, 120);
        QCOMPARE(plan.jobs[Other].start, 120);
        QVERIFY(plan.jobs[Beside].start >= 120);
        shop.jobs[Wheels].after.clear();
        QCOMPARE(faultsOf(shop).size(), 1);
    }

    void carStaysWhereItStands()
    {
        Shop shop = plainShop();
        shop.cars[0].bay = 0;
        shop.cars.push_back({.name = QStringLiteral("S2")});
        shop.jobs = {jobOf(100, 1), jobOf(30, 2, 0)};
        shop.jobs[1].car = 1;
        QCOMPARE(planIn(shop).jobs[1].start, 0);
        shop.cars[0].staysUntil = 50; // something on it cures
        QCOMPARE(planIn(shop).jobs[1].start, 50);
        shop.jobs[0].keepsCar = true;
        const ShopPlan plan = planIn(shop);
        QCOMPARE(plan.jobs[1].start, 100);
        QCOMPARE(faultsOfPlan(shop, plan), QStringList());
    }

    void sketchKeepsWhatIsScarce()
    {
        const Shop shop = preparationShop(1, 30);
        const ShopIndex index(shop);
        const ShopSketch sketch(index, {}, 0.8);
        QVERIFY(sketch.isWorthwhile());
        QVERIFY(sketch.shop().jobs.size() * 3 < shop.jobs.size());
        const auto named = [](const Shop& of, const char* title) {
            return std::ranges::count_if(
                of.jobs, [title](const ShopJob& job) { return job.title == QLatin1String(title); });
        };
        QVERIFY(named(shop, "panel") > 0);
        QCOMPARE(named(sketch.shop(), "panel"), named(shop, "panel"));
        QCOMPARE(named(sketch.shop(), "valet"), 0);
        const ShopIndex small(sketch.shop(), sketch.crowd());
        const ShopPlan plan = dispatched(small, Rule::EarliestPromise);
        const std::vector<double> starts = sketch.latestStarts(plan);
        for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
            if (shop.jobs[i].title == QLatin1String("panel"))
                continue;
            for (const int next : index.precedence().after(static_cast<int>(i)))
                QVERIFY(starts[i] <= starts[static_cast<std::size_t>(next)]);
        }
    }

    void promisesWeigh()
    {
        Shop shop = plainShop();
        shop.crews = {{0}};
        shop.cars = {{.name = QStringLiteral("S1"), .promised = 100, .weight = 1},
                     {.name = QStringLiteral("S2"), .promised = 100, .weight = 3}};
        shop.jobs = {jobOf(100), jobOf(100)};
        shop.jobs[1].car = 1;
        const ShopPlan plan = planIn(shop);
        QCOMPARE(plan.ready[1], 100);
        QCOMPARE(plan.ready[0], 200);
        QCOMPARE(plan.lateness, 100.0);
    }

    void whoDidTheWorkNeverChecksIt()
    {
        Shop shop = plainShop();
        shop.crews = {{0, 1}, {1}};
        shop.jobs = {jobOf(30), jobOf(30), jobOf(10, 1)};
        shop.jobs[2].after = {0, 1};
        shop.jobs[2].checks = {0, 1};
        const ShopPlan plan = planIn(shop);
        QCOMPARE(faultsOfPlan(shop, plan), QStringList());
        QCOMPARE(plan.jobs[2].person, 1);
        QCOMPARE(plan.ready[0], 70);
        // With nobody else in the house it stays unplanned.
        shop.crews = {{1}, {1}};
        QVERIFY(!planIn(shop).jobs[2].isPlanned());
        QCOMPARE(planIn(shop).ready[0], never);
    }

    void workInHandStays()
    {
        Shop shop = plainShop();
        shop.jobs = {jobOf(50, 0, 0), jobOf(20, 1)};
        shop.jobs[0].running = RunningJob{0, 1, -30}; // begun where the plan would not have put it
        const ShopPlan plan = planIn(shop);
        const Placement expected{0, 1, -30, 50, 50};
        QCOMPARE(plan.jobs[0], expected);
        QCOMPARE(plan.jobs[1].start, 50);
    }

    // Nothing that starts within two hours moves without need.
    void whatStartsSoonStays()
    {
        for (std::uint64_t seed = 1; seed <= 5; ++seed) {
            Shop shop = preparationShop(seed, 15);
            const ShopPlan before = planIn(shop, 400);
            shop.cars[3].weight = 50;
            shop.cars[3].promised = 300;
            const ShopPlan after =
                planShop(shop, {.budget = {.schedules = 400}, .seed = 9, .previous = before.jobs});
            QCOMPARE(faultsOfPlan(shop, after), QStringList());
            int soon = 0;
            int moved = 0;
            for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
                if (before.jobs[i].start < 120) {
                    ++soon;
                    QCOMPARE(after.jobs[i], before.jobs[i]);
                } else {
                    moved += after.jobs[i] == before.jobs[i] ? 0 : 1;
                }
            }
            QVERIFY(soon > 0);
            QVERIFY(moved > 0);
            // With need: who was to do it is not there.
            const auto first = std::find_if(before.jobs.begin(), before.jobs.end(),
                                            [](const Placement& p) { return p.start < 120; });
            shop.people[static_cast<std::size_t>(first->person)].times = WorkTimes();
            const ShopPlan without =
                planShop(shop, {.budget = {.schedules = 50}, .seed = 9, .previous = before.jobs});
            QCOMPARE(faultsOfPlan(shop, without), QStringList());
        }
    }

    // Nobody has taken it up yet, a few minutes late: it does not jump to somebody else, and what
    // that person was to do next still follows.
    void whatShouldHaveBegunStays()
    {
        Shop shop = plainShop();
        shop.jobs = {jobOf(20), jobOf(20)};
        const auto planned = [&shop](PlanMinute first) {
            return planShop(shop, {.budget = {.schedules = 50},
                                   .previous = {{1, -1, first, first + 20, first + 20},
                                                {1, -1, first + 20, first + 40, first + 40}}});
        };
        for (const PlanMinute first : {-1, -5}) {
            const ShopPlan plan = planned(first);
            QCOMPARE(plan.jobs[0], (Placement{1, -1, 0, 20, 20}));
            QCOMPARE(plan.jobs[1], (Placement{1, -1, 20, 40, 40}));
        }
        // What lay for hours is planned anew.
        const ShopPlan anew = planned(-500);
        QCOMPARE(anew.jobs[0].start, 0);
        QCOMPARE(anew.jobs[1].start, 0);
    }

    void searchIsNoWorseThanTheRulesAndDeterministic()
    {
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            const Shop shop = preparationShop(seed, 20);
            QVERIFY(faultsOf(shop).isEmpty());
            const ShopIndex index(shop);
            double best = 1e300;
            for (const Rule rule : allRules) {
                const ShopPlan plan = dispatched(index, rule);
                QCOMPARE(faultsOfPlan(shop, plan), QStringList());
                for (const Placement& placement : plan.jobs)
                    QVERIFY(placement.isPlanned());
                best = std::min(best, plan.cost);
            }
            const ShopPlan found = planIn(shop, 1'500);
            QCOMPARE(faultsOfPlan(shop, found), QStringList());
            QVERIFY(found.cost < best);
            QCOMPARE(planIn(shop, 1'500).jobs, found.jobs);
            QVERIFY(planIn(shop, 10).cost <= best);
            int asked = 0;
            const ShopPlan stopped =
                planShop(shop, {.budget = {.stop = [&asked] { return ++asked > 20; }}});
            QVERIFY(stopped.cost <= best);
            QVERIFY(stopped.schedules < 200);
        }
    }

    // Ada alone can do what the second job wants; Ben is done a little later with the first.
    void whoIsNeededElsewhereIsSpared()
    {
        Shop shop = plainShop();
        shop.crews = {{0, 1}, {0}, {1}};
        shop.cars.push_back({.name = QStringLiteral("S2")});
        shop.jobs = {jobOf(30, 2), jobOf(60), jobOf(300, 1)};
        shop.jobs[1].car = 1;
        const ShopIndex index(shop);
        for (const Choice choice : {Choice::FirstDone, Choice::SpareScarce}) {
            ShopScheduler scheduler(index, choice);
            scheduler.begin({});
            scheduler.place(0);
            QCOMPARE(scheduler.fit(1).person, choice == Choice::FirstDone ? 0 : 1);
            QCOMPARE(scheduler.fit(1).start, choice == Choice::FirstDone ? 0 : 30);
        }
    }

    // Whatever moves, all jobs are there, none before what it waits for, and only the cars that are
    // said to have moved change their place among the others.
    void changedOrdersAreOrders()
    {
        int changes = 0;
        for (std::uint64_t seed = 1; seed <= 40; ++seed) {
            const Shop shop = oddShop(seed);
            const ShopIndex index(shop);
            const int n = static_cast<int>(shop.jobs.size());
            OrderedPlan plan;
            const ShopPlan first = dispatched(index, Rule::FirstCome);
            plan.placements = first.jobs;
            for (const ShopCar& car : shop.cars)
                plan.late.push_back(latenessOf(car, 10'000));
            for (int job = 0; job < n; ++job) {
                plan.list.push_back(job);
                plan.position.push_back(job);
            }
            Dice dice(seed);
            ShopMoves moves(index, plan, dice, 0.2);
            for (int round = 0; round < 200; ++round) {
                std::vector<int> trial;
                const int from = moves.change(trial);
                if (from < 0)
                    continue;
                ++changes;
                QVERIFY(index.precedence().allows(trial));
                QVERIFY(std::equal(trial.begin(), trial.begin() + from, plan.list.begin()));
                QVERIFY(trial[static_cast<std::size_t>(from)] !=
                        plan.list[static_cast<std::size_t>(from)]);
                const auto others = [&](std::vector<int> list) {
                    std::erase_if(list, [&](int job) {
                        return moves.hasMoved(shop.jobs[static_cast<std::size_t>(job)].car);
                    });
                    return list;
                };
                QCOMPARE(others(trial), others(plan.list));
                plan.list = trial;
                for (int place = 0; place < n; ++place)
                    plan.position[static_cast<std::size_t>(
                        trial[static_cast<std::size_t>(place)])] = place;
            }
        }
        QVERIFY(changes > 2'000);
    }

    // RAMPLIGHT_SHOPS says how many; the long run makes ten thousand.
    void plansOfOddShopsAreFeasible()
    {
        bool isSet = false;
        const int asked = qEnvironmentVariableIntValue("RAMPLIGHT_SHOPS", &isSet);
        const int shops = isSet ? asked : 400;
        std::size_t jobs = 0;
        std::size_t unplanned = 0;
        for (int seed = 1; seed <= shops; ++seed) {
            const Shop shop = oddShop(static_cast<std::uint64_t>(seed));
            const auto check = [&](const ShopPlan& plan) {
                const QStringList faults = faultsOfPlan(shop, plan);
                if (!faults.isEmpty())
                    qWarning("shop %d: %s", seed, qPrintable(faults.join(QStringLiteral("; "))));
                QCOMPARE(faults, QStringList());
            };
            QCOMPARE(faultsOf(shop), QStringList());
            const ShopIndex index(shop);
            check(dispatched(index, allRules[static_cast<std::size_t>(seed % 4)]));
            const ShopPlan plan = planIn(shop, 80);
            check(plan);
            check(planShop(shop, {.budget = {.schedules = 30},
                                  .seed = 2,
                                  .previous = plan.jobs,
                                  .steadyMinutes = 700}));
            jobs += shop.jobs.size();
            for (const Placement& placement : plan.jobs)
                unplanned += placement.isPlanned() ? 0U : 1U;
        }
        QVERIFY(unplanned * 8 < jobs);
        qInfo("%d workshops, %zu jobs, %zu that nobody could do", shops, jobs, unplanned);
    }
};

RAMPLIGHT_TEST(NoApplication, TestShops)
#include "tst_shops.moc"
