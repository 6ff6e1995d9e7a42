// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/whatif.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QTest>
#include <QTimeZone>

using namespace ramplight;
using namespace ramplight::planning;
using namespace ramplight::planning::whatif;

namespace {

// A Thursday; the house's clock is UTC then.
const QDate thursday(2026, 11, 26);
const QDate friday = thursday.addDays(1);
const QDate saturday = thursday.addDays(2);
const PersonId ada{1};
const PersonId ben{2};
const CarId first{QStringLiteral("one")};
const CarId second{QStringLiteral("two")};
const OperationId work{1};

Moment at(int hour, int minute = 0)
{
    return {
        QDateTime(thursday, QTime(hour, minute), QTimeZone("Europe/London")).toMSecsSinceEpoch()};
}

/// Five hours of work in a lift; both cars promised for today, and it is ten.
CarState carOf(const CarId& id, const QString& stock)
{
    CarState car;
    car.id = id;
    car.seq = 1;
    car.identity.stockNumber = stock;
    car.arrivedAt = at(8);
    car.promised = thursday;
    OperationSpec spec;
    spec.id = QStringLiteral("inspection");
    spec.title = QStringLiteral("Inspection");
    spec.skill = Skill::Mechanical;
    spec.bay = BayKind::Lift;
    spec.minutes = {300, 300, 300};
    Operation operation;
    operation.id = work;
    operation.spec = spec;
    operation.place = wholeCar();
    car.operations[work] = operation;
    return car;
}

/// Ada works, Ben only checks; two lifts.
HouseInput house()
{
    HouseInput input;
    const auto person = [&input](PersonId id, const char* name, std::vector<Skill> skills,
                                 std::vector<Right> rights) {
        Person one;
        one.id = id;
        one.name = QString::fromLatin1(name);
        one.skills = std::move(skills);
        one.rights = std::move(rights);
        input.site.people[id] = one;
    };
    person(ada, "Ada", {Skill::Mechanical}, {Right::Work});
    person(ben, "Ben", {}, {Right::Check, Right::Manage});
    input.site.bays[BayId{1}] = {BayId{1}, 1, QStringLiteral("Lift"), BayKind::Lift, true};
    input.site.bays[BayId{2}] = {BayId{2}, 2, QStringLiteral("Lift"), BayKind::Lift, true};
    input.cars = {carOf(first, QStringLiteral("S1")), carOf(second, QStringLiteral("S2"))};
    input.calendar = calendarOf(input.site);
    return input;
}

HousePlan planOf(const HouseInput& input)
{
    return planHouse(input, at(10), {.search = {.schedules = 60}, .runs = 20});
}

PlanMinute readyIn(const HousePlan& plan, const CarId& car)
{
    return plan.plan.ready[static_cast<std::size_t>(plan.numberOf(car))];
}

QString said(const Change& change, const HouseInput& input)
{
    return words(change, input,
                 [](QDate day) { return QLocale::c().toString(day, QStringLiteral("ddd")); });
}

constexpr int aDay = 24 * 60;

} // namespace

Q_DECLARE_METATYPE(std::vector<Change>)

/// The house as it would be, and what comes of it.
class TestWhatIf : public QObject
{
    Q_OBJECT

private slots:
    // The first is done at half past three (a break of half an hour), the other tomorrow at half
    // past eleven.
    void change_movesWhatItShould_data()
    {
        QTest::addColumn<std::vector<Change>>("changes");
        QTest::addColumn<int>("sum"); ///< of both cars' ready minutes
        const int one = 330;
        const int two = aDay + 90;
        using Changes = std::vector<Change>;
        QTest::newRow("as it is") << Changes{} << one + two;
        QTest::newRow("one more today")
            << Changes{AnotherPerson{ada, {thursday, thursday}}} << one + one;
        QTest::newRow("one more, but not before Monday")
            << Changes{AnotherPerson{ada, {thursday.addDays(4), {}}}} << one + two;
        QTest::newRow("one more like somebody who cannot")
            << Changes{AnotherPerson{ben, {thursday, {}}}} << one + two;
        QTest::newRow("extra hours")
            << Changes{ExtraTime{ada, {thursday, 17 * 60, 21 * 60}}} << one + (one + 300);
        QTest::newRow("extra hours for all")
            << Changes{ExtraTime{{}, {thursday, 17 * 60, 21 * 60}}} << one + (one + 300);
        QTest::newRow("extra hours of somebody else")
            << Changes{ExtraTime{ben, {thursday, 17 * 60, 21 * 60}}} << one + two;
        // Friday's half day is lost to Monday.
        QTest::newRow("away tomorrow")
            << Changes{Absence{ada, {friday, friday}}} << one + two + 3 * aDay;
        QTest::newRow("away tomorrow, and here on Saturday")
            << Changes{Absence{ada, {friday, friday}}, ExtraTime{ada, {saturday, 480, 1020}}}
            << one + two + aDay;
        QTest::newRow("away today: one more does it")
            << Changes{Absence{ada, {thursday, thursday}}, AnotherPerson{ada, {thursday, {}}}}
            << one + two;
        QTest::newRow("who is not there")
            << Changes{Absence{PersonId{77}, {friday, friday}}} << one + two;
    }
    void change_movesWhatItShould()
    {
        QFETCH(const std::vector<Change>, changes);
        QFETCH(int, sum);
        const HouseInput before = house();
        const HousePlan plan = planOf(changed(before, changes));
        QCOMPARE(plan.faults, QStringList());
        QCOMPARE(readyIn(plan, first) + readyIn(plan, second), sum);
        // What it was made from stays as it was.
        QCOMPARE(before.site.people.size(), std::size_t{2});
        QCOMPARE(before.site.person(ada)->times, PersonTimes{});
    }

    void anotherBay_isOneMoreOfItsKind()
    {
        HouseInput input = house();
        input.site.bays.erase(BayId{2});
        input = changed(input, AnotherPerson{ada, {thursday, {}}});
        const HousePlan narrow = planOf(input);
        const HousePlan wide = planOf(changed(input, AnotherBay{BayId{1}}));
        QCOMPARE(wide.house.bays.size(), std::size_t{2});
        QCOMPARE(readyIn(wide, first) + readyIn(wide, second), 2 * 330);
        QVERIFY(readyIn(narrow, first) + readyIn(narrow, second) > 2 * 330);
    }

    void partOrFirm_comesWhenItIsSaid()
    {
        HouseInput input = house();
        Operation& part = input.cars[0].operations[work];
        part.state = OperationState::Blocked;
        part.part = PartOnOrder{QStringLiteral("mirror glass"), {}, thursday.addDays(7)};
        Operation& out = input.cars[1].operations[work];
        out.state = OperationState::Blocked;
        out.outside =
            OutsideWork{QStringLiteral("Vale Trim"), thursday.addDays(7), 1, {}, false, {}};
        const auto startOf = [&](const Change& change, const CarId& car) {
            const HousePlan plan = planOf(changed(input, change));
            return plan.house.shop.jobs[static_cast<std::size_t>(plan.numberOf(car, work))]
                .notBefore;
        };
        const PartAt soon{first, work, friday};
        const PartAt here{first, work, {}};
        const PartAt back{second, work, friday};
        QCOMPARE(startOf(soon, first), 22 * 60);
        QCOMPARE(startOf(here, first), 0);
        QCOMPARE(startOf(back, second), 22 * 60);
        QCOMPARE(said(soon, input), QStringLiteral("S1: mirror glass comes Fri"));
        QCOMPARE(said(here, input), QStringLiteral("S1: mirror glass is here now"));
        QCOMPARE(said(back, input), QStringLiteral("S2 back from Vale Trim Fri"));
        // Work that waits for nothing is left alone.
        const HouseInput free = house();
        QVERIFY(changed(free, here).cars[0] == free.cars[0]);
    }

    // Whoever matters more goes first, also with the same promise.
    void promiseThatMustBeKept_goesFirst()
    {
        for (const CarId& car : {first, second}) {
            const HouseInput input =
                changed(house(), Promise{car, thursday, PromiseImportance::MustBeKept});
            QVERIFY(readyIn(planOf(input), car) == 330);
        }
        for (const CarId& car : {first, second}) {
            const HouseInput input =
                changed(house(), Promise{car, thursday, PromiseImportance::CanWait});
            QVERIFY(readyIn(planOf(input), car) > 330);
        }
    }

    void outcome_countsWhoIsLate_andNamesWhoMoves()
    {
        const HouseInput input = house();
        const HousePlan before = planOf(input);
        QCOMPARE(readyIn(before, first) + readyIn(before, second), 330 + aDay + 90);
        const CarId late = readyIn(before, first) > 330 ? first : second;
        const auto compared = [&](const std::vector<Change>& changes) {
            return outcomeOf(before,
                             planHouse(changed(input, changes), at(10),
                                       {.search = asThoroughAs(before), .runs = 20}),
                             15);
        };
        const Outcome helped = compared({AnotherPerson{ada, {thursday, {}}}});
        QCOMPARE(helped.lateBefore, 1);
        QCOMPARE(helped.lateAfter, 0);
        QCOMPARE(helped.sooner.size(), std::size_t{1});
        QCOMPARE(helped.sooner[0].car, late);
        QVERIFY(helped.sooner[0].wasLate && !helped.sooner[0].isLate);
        QVERIFY(helped.sooner[0].after90 < helped.sooner[0].before90);
        QCOMPARE(helped.asBefore, 1);
        const Outcome worse = compared({Absence{ada, {friday, friday}}});
        QCOMPARE(worse.lateAfter, 1);
        QCOMPARE(worse.later.size(), std::size_t{1});
        QCOMPARE(worse.later[0].car, late);
        // Promised for Monday: as ready as before, and in time.
        const Outcome promised = compared({Promise{late, thursday.addDays(4)}});
        QCOMPARE(promised.lateAfter, 0);
        QCOMPARE(promised.otherwise.size(), std::size_t{1});
        QCOMPARE(promised.otherwise[0].car, late);
        QCOMPARE(promised.asBefore, 1);
        const Outcome nothing = compared({ExtraTime{ben, {saturday, 480, 720}}});
        QVERIFY(nothing.sooner.empty() && nothing.later.empty() && nothing.otherwise.empty());
        QCOMPARE(nothing.asBefore, 2);
    }

    // What was stopped by a clock is made again by counting, to the last placement.
    void sameThoroughness_ofTheSameHouse_isTheSamePlan()
    {
        HouseInput input = house();
        for (int car = 3; car <= 14; ++car) {
            CarState more =
                carOf(CarId{QStringLiteral("car %1").arg(car)}, QStringLiteral("S%1").arg(car));
            more.promised = thursday.addDays(car % 5);
            Operation& one = more.operations[work];
            OperationSpec spec = *one.spec;
            spec.minutes = {20 * car, 25 * car, 30 * car};
            one.spec = spec;
            input.cars.push_back(more);
        }
        input = changed(input, AnotherPerson{ada, {thursday, {}}});
        for (const int most : {3, 40, 777}) {
            int left = most;
            const HousePlan before = planHouse(
                input, at(10), {.search = {.stop = [&left] { return --left <= 0; }}, .runs = 5});
            QVERIFY(before.stoppedAt > 0);
            const HousePlan again =
                planHouse(input, at(10), {.search = asThoroughAs(before), .runs = 5});
            QCOMPARE(again.plan.schedules, before.plan.schedules);
            QVERIFY(again.plan.jobs == before.plan.jobs);
        }
        bool isOver = true;
        const HousePlan before = planOf(input);
        const HousePlan cut =
            planHouse(input, at(10),
                      {.search = asThoroughAs(before, [&isOver] { return isOver; }), .runs = 5});
        QVERIFY(cut.plan.schedules < before.plan.schedules);
    }

    void changes_areSaid()
    {
        const HouseInput input = house();
        QCOMPARE(said(AnotherPerson{ada, {friday, friday}}, input),
                 QStringLiteral("one more like Ada, Fri"));
        QCOMPARE(said(AnotherPerson{ada, {friday, saturday}}, input),
                 QStringLiteral("one more like Ada, Fri to Sat"));
        QCOMPARE(said(AnotherPerson{ada, {friday, {}}}, input),
                 QStringLiteral("one more like Ada, from Fri on"));
        QCOMPARE(said(AnotherBay{BayId{2}}, input), QStringLiteral("one more bay like 2 Lift"));
        QCOMPARE(said(ExtraTime{{}, {saturday, 480, 765}}, input),
                 QStringLiteral("everybody also Sat 08:00 to 12:45"));
        QCOMPARE(said(ExtraTime{ben, {friday, 1020, 1080}}, input),
                 QStringLiteral("Ben also Fri 17:00 to 18:00"));
        QCOMPARE(said(Absence{ada, {friday, saturday}}, input),
                 QStringLiteral("Ada away Fri to Sat"));
        QCOMPARE(said(Promise{first, friday}, input), QStringLiteral("S1 promised Fri"));
        QCOMPARE(said(Promise{first, friday, PromiseImportance::MustBeKept}, input),
                 QStringLiteral("S1 promised Fri, must be kept"));
        QCOMPARE(said(Assign{first, work, ada, BayId{1}, {}}, input),
                 QStringLiteral("S1 Inspection, by Ada, in bay 1 Lift"));
        QCOMPARE(everybody(input.site), (std::vector{ada, ben}));
    }
};

RAMPLIGHT_TEST(NoApplication, TestWhatIf)
#include "tst_whatif.moc"
