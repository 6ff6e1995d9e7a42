// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/houseplan.h"
#include "planning/plancheck.h"
#include "planning/shopofhouse.h"
#include "planning/shopsearch.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QTest>
#include <QTimeZone>

using namespace ramplight;
using namespace ramplight::planning;

namespace {

// A Thursday in November; the house's clock is UTC then.
const QDate thursday(2026, 11, 26);

Moment momentAt(QDate day, int hour, int minute = 0)
{
    return {QDateTime(day, QTime(hour, minute), QTimeZone("Europe/London")).toMSecsSinceEpoch()};
}

OperationSpec specOf(const char* id, Skill skill, BayKind bay, QStringList after = {})
{
    OperationSpec spec;
    spec.id = QString::fromLatin1(id);
    spec.title = spec.id;
    spec.skill = skill;
    spec.bay = bay;
    spec.minutes = {20, 30, 60};
    spec.after = std::move(after);
    return spec;
}

SiteState house()
{
    SiteState site;
    site.name = QStringLiteral("Little workshop");
    const auto person = [&site](int id, std::vector<Skill> skills, std::vector<Right> rights) {
        Person one;
        one.id = PersonId{id};
        one.name = QStringLiteral("person %1").arg(id);
        one.skills = std::move(skills);
        one.rights = std::move(rights);
        site.people[one.id] = one;
    };
    person(1, {Skill::Mechanical}, {Right::Work});
    person(2, {Skill::Mechanical, Skill::Valet}, {Right::Work, Right::Check});
    person(3, {}, {Right::Check, Right::Manage});
    site.bays[BayId{1}] = {BayId{1}, 4, QStringLiteral("Lift 4"), BayKind::Lift, true};
    site.bays[BayId{2}] = {BayId{2}, 5, {}, BayKind::Parking, true};
    return site;
}

CarState carWith(std::vector<OperationSpec> specs)
{
    CarState car;
    car.id = CarId{QStringLiteral("car")};
    car.seq = 1;
    car.identity.stockNumber = QStringLiteral("S1042");
    car.arrivedAt = momentAt(thursday.addDays(-2), 9);
    car.promised = thursday.addDays(1);
    int number = 0;
    for (OperationSpec& spec : specs) {
        Operation operation;
        operation.id = OperationId{++number};
        operation.spec = std::move(spec);
        operation.place = wholeCar();
        car.operations[operation.id] = operation;
    }
    car.nextOperation = number + 1;
    return car;
}

} // namespace

class TestShopOfHouse : public QObject
{
    Q_OBJECT

private slots:
    void hoursOfAHouse_data()
    {
        QTest::addColumn<int>("person");
        QTest::addColumn<int>("days");
        QTest::addColumn<int>("minutes");
        QTest::newRow("the rest of today") << 9 << 1 << 390;
        QTest::newRow("and tomorrow") << 9 << 2 << 390 + 510;
        QTest::newRow("not at the weekend") << 9 << 4 << 390 + 510;
        QTest::newRow("a holiday") << 9 << 6 << 390 + 510 + 510;
        QTest::newRow("mornings only") << 1 << 2 << 120 + 240;
        QTest::newRow("away this afternoon") << 2 << 1 << 120;
    }
    void hoursOfAHouse()
    {
        QFETCH(int, person);
        QFETCH(int, days);
        QFETCH(int, minutes);
        HouseCalendar calendar;
        calendar.closed = {thursday.addDays(4)};
        const DayTimes morning{8 * 60, 12 * 60, {}};
        calendar.shifts[PersonId{1}].fill(morning);
        calendar.away[PersonId{2}] = {{momentAt(thursday, 12), momentAt(thursday, 20)}};
        const PlanClock clock(momentAt(thursday, 10), HouseRules{});
        const WorkTimes times = workTimesOf(calendar, PersonId{person}, clock, days);
        QCOMPARE(times.minutesIn({0, 100'000}), minutes);
        QCOMPARE(times.nextWork(0), 0);
    }

    void calendarOfAHouse_isItsRulesAndItsPeoplesTimes()
    {
        SiteState site = house();
        site.rules.week[3] = {7 * 60, 19 * 60, 0, 0}; // Thursdays are long
        site.rules.closed = {thursday.addDays(1)};
        site.people[PersonId{1}].times.week = usualWeek();
        site.people[PersonId{1}].times.away = {{thursday.addDays(4), thursday.addDays(5)}};
        // On the Saturday, and an hour longer on the Thursday.
        site.people[PersonId{2}].times.extra = {{thursday, 18 * 60, 20 * 60},
                                                {thursday.addDays(2), 9 * 60, 12 * 60}};
        const HouseCalendar calendar = calendarOf(site);
        const PlanClock clock(momentAt(thursday, 10), site.rules);
        const auto minutes = [&](int person, int days) {
            return workTimesOf(calendar, PersonId{person}, clock, days).minutesIn({0, 100'000});
        };
        QCOMPARE(minutes(3, 1), 9 * 60);
        QCOMPARE(minutes(3, 2), 9 * 60);
        QCOMPARE(minutes(3, 5), 9 * 60 + 510);
        QCOMPARE(minutes(1, 1), 390);
        QCOMPARE(minutes(1, 7), 390 + 510);
        QCOMPARE(minutes(2, 1), 10 * 60);
        QCOMPARE(minutes(2, 4), 10 * 60 + 180);
    }

    void clockChangesKeepTheHour()
    {
        const QDate saturday(2026, 3, 28); // the night after it is an hour short
        const PlanClock clock(momentAt(saturday, 8), HouseRules{});
        QCOMPARE(clock.minuteOf(saturday.addDays(1), 8 * 60), 23 * 60);
        QCOMPARE(clock.dayOf(16 * 60), saturday.addDays(1));
        QCOMPARE(clock.words(23 * 60), QStringLiteral("Sun 08:00"));
        QCOMPARE(clock.words(10 * 24 * 60), QStringLiteral("7 Apr 09:00"));
        QCOMPARE(clock.minuteOf(momentAt(saturday, 7, 59)), -1);
        QCOMPARE(clock.momentOf(-1), momentAt(saturday, 7, 59));
    }

    void aCarsWorkBecomesJobs()
    {
        OperationSpec valet =
            specOf("valet", Skill::Valet, BayKind::Valet, {QStringLiteral("inspection")});
        valet.overnight = false;
        valet.beside = {};
        OperationSpec last =
            specOf("final-check", Skill::Checks, BayKind::Any, {QStringLiteral("*")});
        last.secondPerson = SecondPerson::Check;
        last.checksWorkOf = {QStringLiteral("*")};
        CarState car =
            carWith({specOf("inspection", Skill::Mechanical, BayKind::Lift), valet, last});
        const Moment now = momentAt(thursday, 10);
        const HouseShop made = shopOf(std::span(&car, 1), house(), {}, now);
        QCOMPARE(faultsOf(made.shop), QStringList());
        QCOMPARE(made.jobs.size(), std::size_t{3});
        QCOMPARE(made.shop.bays.size(), std::size_t{1});
        const std::vector<ShopJob>& jobs = made.shop.jobs;
        QCOMPARE(made.shop.crews[static_cast<std::size_t>(jobs[0].crew)], (std::vector{0, 1}));
        QCOMPARE(made.shop.crews[static_cast<std::size_t>(jobs[1].crew)], std::vector{1});
        QCOMPARE(made.shop.crews[static_cast<std::size_t>(jobs[2].crew)], (std::vector{1, 2}));
        QVERIFY(jobs[0].bays >= 0);
        QCOMPARE(jobs[1].bays, -1); // no such bay in the house
        QCOMPARE(jobs[1].after, std::vector{0});
        QCOMPARE(jobs[2].after, (std::vector{0, 1}));
        QCOMPARE(jobs[2].checks, (std::vector{0, 1}));
        QCOMPARE(jobs[1].pause, Pause::SameDay);
        QVERIFY(!jobs[1].apart.empty());
        QCOMPARE(made.shop.cars[0].promised, 24 * 60 + 7 * 60); // tomorrow at five
        QCOMPARE(made.shop.cars[0].arrived, -49 * 60);
        const ShopPlan plan = planShop(made.shop, {.budget = {.schedules = 100}});
        QCOMPARE(test::faultsOfPlan(made.shop, plan), QStringList());
        QCOMPARE(plan.ready[0], 90);
        QCOMPARE(plan.jobs[2].person, 2);
        // Released, or gone: nothing to plan.
        car.left = LeavingHow::Trade;
        QVERIFY(shopOf(std::span(&car, 1), house(), {}, now).jobs.empty());
    }

    void carWithoutItsWheelsKeepsItsBay()
    {
        const auto keeping = [](OperationSpec spec, RestraintFrom from) {
            spec.immobilises = {{{Restraint::Move}, from, QStringLiteral("wheels are off")}};
            return spec;
        };
        const QString off = QStringLiteral("wheels-off");
        OperationSpec wheel = specOf("wheel", Skill::Mechanical, BayKind::Wheels, {off});
        wheel.scope = Scope::Place;
        wheel.placeKinds = {PlaceKind::Wheel};
        const OperationSpec on = specOf("wheels-on", Skill::Mechanical, BayKind::Lift, {off});
        CarState car = carWith({keeping(specOf("wheels-off", Skill::Mechanical, BayKind::Lift),
                                        RestraintFrom::Started),
                                wheel, keeping(on, RestraintFrom::Opened)});
        const Moment now = momentAt(thursday, 10);
        const HouseShop nowhere = shopOf(std::span(&car, 1), house(), {}, now);
        QVERIFY(!nowhere.shop.jobs[2].keepsCar); // it stands in no bay
        QCOMPARE(nowhere.shop.jobs[0].staysFor, (std::vector{1, 2}));
        car.bay = BayId{1};
        const HouseShop made = shopOf(std::span(&car, 1), house(), {}, now);
        QCOMPARE(faultsOf(made.shop), QStringList());
        QVERIFY(!made.shop.jobs[0].keepsCar);
        QVERIFY(made.shop.jobs[2].keepsCar);
        // What cures keeps it, too.
        Operation& cured = car.operations[OperationId{3}];
        cured.spec = keeping(on, RestraintFrom::Waiting);
        cured.state = OperationState::Closed;
        cured.waitUntil = momentAt(thursday, 11);
        QCOMPARE(shopOf(std::span(&car, 1), house(), {}, now).shop.cars[0].staysUntil, 60);
    }

    // Nobody has opened "wheels on" while the wheels are only to come off; it is certain all the
    // same, and so is what it opens.
    void nothingThatNeedsPowerIsPlannedWhileHighVoltageIsIsolated()
    {
        const auto needing = [](const char* id, Restraint what) {
            OperationSpec spec = specOf(id, Skill::Mechanical, BayKind::Any);
            spec.needs = {what};
            return spec;
        };
        OperationSpec glass = specOf("glass", Skill::Mechanical, BayKind::Any);
        glass.immobilises = {
            {{Restraint::Drive}, RestraintFrom::Waiting, QStringLiteral("adhesive is curing")}};
        CarState car = carWith({needing("fault-read", Restraint::Power),
                                specOf("high-voltage-repair", Skill::Mechanical, BayKind::Any),
                                specOf("trim", Skill::Mechanical, BayKind::Any),
                                needing("moved-by-hand", Restraint::Move),
                                needing("road-test", Restraint::Drive), glass});
        Operation& cures = car.operations[OperationId{6}];
        cures.state = OperationState::Closed;
        cures.waitUntil = momentAt(thursday, 11, 30);
        const Moment now = momentAt(thursday, 10);
        const HouseShop before = shopOf(std::span(&car, 1), house(), {}, now);
        QCOMPARE(before.shop.jobs[0].after, std::vector<int>());

        car.isolation = Isolation{OperationId{2}, PersonId{1}, momentAt(thursday, 9), {}};
        const HouseShop made = shopOf(std::span(&car, 1), house(), {}, now);
        QCOMPARE(faultsOf(made.shop), QStringList());
        QCOMPARE(made.shop.jobs[0].after, std::vector{1});
        QCOMPARE(made.shop.jobs[1].after, std::vector<int>());
        QCOMPARE(made.shop.jobs[2].after, std::vector<int>());
        QCOMPARE(made.shop.jobs[3].after, std::vector<int>());
        QCOMPARE(made.shop.jobs[4].notBefore, 90); // the glass holds by then
        QCOMPARE(made.shop.jobs[0].notBefore, 0);
        const ShopPlan plan = planShop(made.shop, {.budget = {.schedules = 100}});
        QVERIFY(plan.jobs[0].start >= plan.jobs[1].end);
    }

    void whatIsCertainToComeIsPlannedToo()
    {
        const auto keeping = [](OperationSpec spec, RestraintFrom from) {
            spec.immobilises = {{{Restraint::Move}, from, QStringLiteral("wheels are off")}};
            return spec;
        };
        OperationSpec off =
            keeping(specOf("wheels-off", Skill::Mechanical, BayKind::Lift), RestraintFrom::Started);
        off.triggers = {{QStringLiteral("wheels-on"), {}}};
        OperationSpec wheel =
            specOf("wheel", Skill::Mechanical, BayKind::Wheels, {QStringLiteral("wheels-off")});
        wheel.scope = Scope::Place;
        wheel.placeKinds = {PlaceKind::Wheel};
        wheel.wait.usual = 120;
        OperationSpec on = keeping(specOf("wheels-on", Skill::Mechanical, BayKind::Lift,
                                          {QStringLiteral("wheels-off"), QStringLiteral("wheel")}),
                                   RestraintFrom::Opened);
        on.triggers = {{QStringLiteral("fixings"), {}}};
        OperationSpec fixings =
            specOf("fixings", Skill::Checks, BayKind::Any, {QStringLiteral("wheels-on")});
        fixings.secondPerson = SecondPerson::Check;
        fixings.checksWorkOf = {QStringLiteral("wheels-on")};
        // What a last check of everything opens comes after it, whatever "after everything" says.
        OperationSpec last =
            specOf("final-check", Skill::Mechanical, BayKind::Any, {QStringLiteral("*")});
        last.triggers = {{QStringLiteral("leaflet"), {}}};
        const OperationSpec leaflet = specOf("leaflet", Skill::Valet, BayKind::Any);
        Catalogue catalogue;
        catalogue.operations = {off, wheel, on, fixings, last, leaflet};

        std::vector<CarState> cars = {
            carWith({off, wheel, last}),
            carWith({specOf("inspection", Skill::Mechanical, BayKind::Lift)})};
        cars[1].id = CarId{QStringLiteral("second")};
        cars[0].promised = thursday.addDays(9);
        SiteState site = house();
        site.bays[BayId{3}] = {BayId{3}, 6, {}, BayKind::Wheels, true};
        const Moment now = momentAt(thursday, 10);
        QCOMPARE(shopOf(cars, site, {}, now).jobs.size(), std::size_t{4});
        const HouseShop made = shopOf(cars, site, {}, now, &catalogue);
        QCOMPARE(faultsOf(made.shop), QStringList());
        QStringList kinds;
        for (const ShopJob& job : made.shop.jobs)
            kinds.append(job.kind);
        QCOMPARE(kinds, (QStringList{"wheels-off", "wheel", "final-check", "wheels-on", "leaflet",
                                     "fixings", "inspection"}));
        QCOMPARE(made.jobs[2], OperationId{3});
        QVERIFY(made.jobs[3].isNull());
        const std::map<int, std::vector<int>> openers{{3, {0}}, {4, {2}}, {5, {3}}};
        QVERIFY(made.openers == openers);
        QCOMPARE(made.shop.jobs[0].staysFor, (std::vector{1, 3}));
        QVERIFY(!made.shop.jobs[3].keepsCar); // the wheels are still on
        const ShopPlan plan = planShop(made.shop, {.budget = {.schedules = 200}});
        QCOMPARE(test::faultsOfPlan(made.shop, plan), QStringList());
        const auto& at = plan.jobs;
        QVERIFY(at[3].start >= at[1].clear);
        QVERIFY(at[5].start >= at[3].end);
        QVERIFY(at[2].start >= at[5].end);
        QVERIFY(at[4].start >= at[2].end);
        // Nobody else has the lift between wheels off and on.
        QVERIFY(at[6].end <= at[0].start || at[6].start >= at[3].end);

        // Begun: the wheels are off, and stay away until they are on again.
        cars[0].bay = BayId{1};
        Segment begun;
        begun.person = PersonId{1};
        begun.start = momentAt(thursday, 9, 50);
        cars[0].operations[OperationId{1}].segments = {begun};
        cars[0].operations[OperationId{1}].state = OperationState::InHand;
        const HouseShop later = shopOf(cars, site, {}, now, &catalogue);
        QVERIFY(later.shop.jobs[0].keepsCar && later.shop.jobs[1].keepsCar &&
                later.shop.jobs[3].keepsCar);
    }

    // A check of everything checks work, not other checks; in some houses not even that.
    void whoMayCheck_isWhoMaySignIt_data()
    {
        QTest::addColumn<bool>("earlierIsCheck");
        QTest::addColumn<bool>("byWorker");
        QTest::addColumn<int>("crew");
        QTest::newRow("did some of the work") << false << false << 1;
        QTest::newRow("made another check") << true << false << 2;
        QTest::newRow("did some, in a house that lets them") << false << true << 2;
    }
    void whoMayCheck_isWhoMaySignIt()
    {
        QFETCH(bool, earlierIsCheck);
        QFETCH(bool, byWorker);
        QFETCH(int, crew);
        OperationSpec fixings = specOf("fixings", Skill::Checks, BayKind::Any);
        if (earlierIsCheck)
            fixings.secondPerson = SecondPerson::Check;
        else
            fixings.skill = Skill::Mechanical;
        OperationSpec last =
            specOf("final-check", Skill::Checks, BayKind::Any, {QStringLiteral("*")});
        last.secondPerson = SecondPerson::Check;
        last.checksWorkOf = {QStringLiteral("*")};
        CarState car = carWith({fixings, last});
        Operation& earlier = car.operations[OperationId{1}];
        earlier.state = OperationState::Closed;
        Segment done;
        done.person = PersonId{2};
        done.start = momentAt(thursday, 8);
        done.end = momentAt(thursday, 9);
        earlier.segments = {done};
        SiteState site = house();
        site.rules.finalCheckByWorker = byWorker;
        const HouseShop made = shopOf(std::span(&car, 1), site, {}, momentAt(thursday, 10));
        QCOMPARE(made.shop.crews[static_cast<std::size_t>(made.shop.jobs[0].crew)].size(),
                 std::size_t(crew));
    }

    void theManagersWordIsKept()
    {
        CarState car = carWith({specOf("inspection", Skill::Mechanical, BayKind::Any),
                                specOf("brakes", Skill::Mechanical, BayKind::Any)});
        Operation& pinned = car.operations[OperationId{1}];
        pinned.assigned = PersonId{2};
        pinned.plannedBay = BayId{1};
        pinned.plannedFrom = momentAt(thursday, 14);
        HouseInput input{.cars = {car}, .site = house(), .records = {}};
        const Moment now = momentAt(thursday, 10);
        const PlanEffort effort{.search = {.schedules = 50}, .runs = 20};
        const HousePlan plan = planHouse(input, now, effort);
        QCOMPARE(plan.faults, QStringList());
        QCOMPARE(test::faultsOfPlan(plan.house.shop, plan.plan), QStringList());
        const Placement placed =
            plan.plan.jobs[static_cast<std::size_t>(plan.numberOf(car.id, OperationId{1}))];
        QCOMPARE(plan.house.people[static_cast<std::size_t>(placed.person)], PersonId{2});
        QCOMPARE(plan.house.bays[static_cast<std::size_t>(placed.bay)], BayId{1});
        QCOMPARE(placed.start, 4 * 60);
        // What is over binds nothing.
        input.cars[0].operations[OperationId{1}].plannedFrom = momentAt(thursday, 9);
        QCOMPARE(planHouse(input, now, effort).house.shop.jobs[0].notBefore, 0);
    }

    void aPlanAnewKeepsWhatSoonBegins()
    {
        CarState first = carWith({specOf("inspection", Skill::Mechanical, BayKind::Lift)});
        CarState second = first;
        second.id = CarId{QStringLiteral("second")};
        second.identity.stockNumber = QStringLiteral("S1043");
        second.promised = thursday.addDays(5);
        HouseInput input{.cars = {first, second}, .site = house(), .records = {}};
        const PlanEffort effort{.search = {.schedules = 200}, .runs = 20};
        const HousePlan before = planHouse(input, momentAt(thursday, 10), effort);
        // Another car goes before both by its promise, but not before what begins now.
        CarState third = first;
        third.id = CarId{QStringLiteral("third")};
        third.identity.stockNumber = QStringLiteral("S1044");
        third.promised = thursday.addDays(-3);
        input.cars.insert(input.cars.begin(), third);
        const HousePlan after = planHouse(input, momentAt(thursday, 10, 1), effort, &before);
        for (const CarState& car : {first, second}) {
            const auto start = [&](const HousePlan& plan) {
                return plan.clock().momentOf(
                    plan.plan.jobs[static_cast<std::size_t>(plan.numberOf(car.id, OperationId{1}))]
                        .start);
            };
            // A minute has passed, and nobody has begun the first.
            QVERIFY2(std::abs(start(after).ms - start(before).ms) <= 60'000,
                     qPrintable(QString::number(start(after).ms - start(before).ms)));
        }
        QVERIFY(after.isLate(after.numberOf(third.id)));
        QVERIFY(!after.whyWords(after.numberOf(third.id)).isEmpty());
        // The same plan moves no car; another one names those that it does.
        QVERIFY(shiftsBetween(after, after, 1).empty());
        input.cars[0].operations[OperationId{1}].plannedFrom = momentAt(thursday.addDays(1), 10);
        const std::vector<CarShift> shifts =
            shiftsBetween(after, planHouse(input, after.start, effort, &after), 1);
        QVERIFY(!shifts.empty());
        QCOMPARE(shifts.front().car, third.id);
        QVERIFY(shifts.front().after > shifts.front().before);
    }

    void whatIsUnderWay()
    {
        CarState car = carWith(
            {specOf("inspection", Skill::Mechanical, BayKind::Lift),
             specOf("brakes", Skill::Mechanical, BayKind::Any),
             specOf("trim", Skill::Mechanical, BayKind::Any),
             specOf("touch-in", Skill::Mechanical, BayKind::Any),
             specOf("polish", Skill::Mechanical, BayKind::Any, {QStringLiteral("touch-in")})});
        const Moment now = momentAt(thursday, 10);
        car.bay = BayId{1};
        Operation& running = car.operations[OperationId{1}];
        running.state = OperationState::InHand;
        Segment segment;
        segment.person = PersonId{1};
        segment.start = momentAt(thursday, 9, 50);
        running.segments = {segment};
        Operation& part = car.operations[OperationId{2}];
        part.state = OperationState::Blocked;
        part.part = PartOnOrder{QStringLiteral("pads"), {}, thursday.addDays(2)}; // a Saturday
        Operation& away = car.operations[OperationId{3}];
        away.state = OperationState::Blocked;
        away.outside = OutsideWork{QStringLiteral("firm"), thursday, 0, {}, false, {}};
        Operation& cures = car.operations[OperationId{4}];
        cures.state = OperationState::Closed;
        cures.waitUntil = momentAt(thursday, 11);
        Segment done;
        done.person = PersonId{2};
        done.start = momentAt(thursday, 8);
        done.end = momentAt(thursday, 8, 40);
        cures.segments = {done};
        const HouseShop made = shopOf(std::span(&car, 1), house(), {}, now);
        QCOMPARE(faultsOf(made.shop), QStringList());
        const std::vector<ShopJob>& jobs = made.shop.jobs;
        QCOMPARE(jobs.size(), std::size_t{4});
        QVERIFY(jobs[0].running);
        QCOMPARE(jobs[0].running->person, 0);
        QCOMPARE(jobs[0].running->bay, 0);
        QCOMPARE(jobs[0].minutes.usual, 20);            // ten of thirty are done
        QCOMPARE(jobs[1].notBefore, (4 * 24 - 2) * 60); // Monday at eight
        QCOMPARE(jobs[2].crew, -1);
        QCOMPARE(jobs[2].notBefore, 22 * 60); // said for today: tomorrow at eight
        QCOMPARE(jobs[3].notBefore, 60);
        const std::vector<WorkRecord> records = recordsOf(car);
        QCOMPARE(records.size(), std::size_t{1});
        QCOMPARE(records[0].minutes, 40);
        QCOMPARE(records[0].person, PersonId{2});
        QCOMPARE(records[0].usualMinutes, 30);
    }
};

RAMPLIGHT_TEST(NoApplication, TestShopOfHouse)
#include "tst_shopofhouse.moc"
