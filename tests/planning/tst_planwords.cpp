// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/houseplan.h"
#include "planning/shopreasons.h"
#include "planning/unplanned.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QTest>
#include <QTimeZone>

using namespace ramplight;
using namespace ramplight::planning;

namespace {

// A Thursday; the house's clock is UTC then.
const QDate thursday(2026, 11, 26);
const Moment start{
    QDateTime(thursday, QTime(10, 0), QTimeZone("Europe/London")).toMSecsSinceEpoch()};

/// So many cars with an hour of paint each, S1 first, that one painter does one after the other.
HousePlan queueOf(int cars)
{
    HousePlan made;
    made.start = start;
    Shop& shop = made.house.shop;
    shop.people = {{QStringLiteral("Ada"), WorkTimes({{0, 20'000}})},
                   {QStringLiteral("Ben"), WorkTimes({{0, 20'000}})}};
    shop.crews = {{0}, {1}};
    for (int car = 0; car < cars; ++car) {
        const QString name = QStringLiteral("S%1").arg(car + 1);
        shop.cars.push_back({.name = name, .promised = 60});
        made.house.cars.push_back(CarId{name});
        shop.jobs.push_back({.title = QStringLiteral("paint"),
                             .kind = QStringLiteral("paint"),
                             .car = car,
                             .crew = 0,
                             .minutes = {60, 60, 60}});
        made.house.jobs.push_back(OperationId{1});
        made.plan.jobs.push_back({0, -1, car * 60, car * 60 + 60, car * 60 + 60});
        made.plan.ready.push_back(car * 60 + 60);
        CarForecast forecast;
        forecast.ready50 = car * 60 + 65;
        forecast.ready90 = car * 60 + 90;
        made.forecasts.push_back(forecast);
    }
    return made;
}

/// One more job of the last car, by the same person, right after the first.
void addPolish(HousePlan& made)
{
    const int last = static_cast<int>(made.house.shop.cars.size()) - 1;
    made.house.shop.jobs.push_back({.title = QStringLiteral("polish"),
                                    .kind = QStringLiteral("polish"),
                                    .car = last,
                                    .crew = 0,
                                    .minutes = {30, 30, 30}});
    made.house.jobs.push_back(OperationId{2});
    const PlanMinute from = made.plan.jobs[static_cast<std::size_t>(last)].end;
    made.plan.jobs.push_back({0, -1, from, from + 30, from + 30});
}

Person personWith(int id, std::vector<Skill> skills, std::vector<Right> rights)
{
    Person one;
    one.id = PersonId{id};
    one.skills = std::move(skills);
    one.rights = std::move(rights);
    return one;
}

} // namespace

/// What a plan says of itself in words.
class TestPlanWords : public QObject
{
    Q_OBJECT

private slots:
    void pastDays_areNoDaysToCome_data()
    {
        QTest::addColumn<int>("days");
        QTest::addColumn<QString>("words");
        QTest::newRow("today") << 0 << "Thu 10:00";
        QTest::newRow("tomorrow") << 1 << "Fri 10:00";
        QTest::newRow("six days on") << 6 << "Wed 10:00";
        QTest::newRow("a week on") << 7 << "3 Dec 10:00";
        QTest::newRow("yesterday") << -1 << "yesterday 10:00";
        QTest::newRow("two days ago") << -2 << "24 Nov 10:00";
        QTest::newRow("six days ago") << -6 << "20 Nov 10:00";
    }
    void pastDays_areNoDaysToCome()
    {
        QFETCH(const int, days);
        QFETCH(const QString, words);
        QCOMPARE(PlanClock(start, HouseRules{}).words(days * 24 * 60), words);
    }

    void workOfAnotherCar_namesIt()
    {
        HousePlan plan = queueOf(2);
        QCOMPARE(plan.whyWords(1),
                 QStringList({QStringLiteral("paint waits for Ada until Thu 11:00, behind S1"),
                              QStringLiteral("S1: paint can begin now")}));
        plan.house.shop.jobs[0].running = RunningJob{0, -1, -10};
        QCOMPARE(plan.whyWords(1).last(), QStringLiteral("S1: paint is in hand"));
        QCOMPARE(plan.whyWords(0), QStringList(QStringLiteral("paint is in hand")));
    }

    void longQueue_isCut()
    {
        QCOMPARE(
            queueOf(4).whyWords(3).first(),
            QStringLiteral("paint waits for Ada until Thu 13:00, behind S3, itself behind S2, S1"));
        QCOMPARE(queueOf(9).whyWords(8).first(),
                 QStringLiteral("paint waits for Ada until Thu 18:00, behind S8, itself behind S7, "
                                "S6, S5 and 4 more"));
    }

    void times_areSaidAsAsked()
    {
        const SayTime time = [](Moment at) {
            return QStringLiteral("minute %1").arg(minutesBetween(start, at));
        };
        const HousePlan plan = queueOf(2);
        QCOMPARE(plan.waitWords(1, time),
                 QStringLiteral("waits for Ada until minute 60, behind S1"));
        QCOMPARE(plan.whyWords(1, time).first(),
                 QStringLiteral("paint waits for Ada until minute 60, behind S1"));
    }

    // Nobody waits for themselves.
    void ownWait_namesTheWorkBefore()
    {
        HousePlan plan = queueOf(2);
        addPolish(plan);
        QCOMPARE(plan.ownWaitWords(1), QStringLiteral("after paint on S1"));
        QCOMPARE(plan.ownWaitWords(2), QStringLiteral("after paint on this car"));
        QCOMPARE(plan.waitWords(2),
                 QStringLiteral("waits for Ada until Thu 12:00, after paint on the same car"));
    }

    void nobody_isExplained_data()
    {
        QTest::addColumn<bool>("check");
        QTest::addColumn<bool>("mayCheck");
        QTest::addColumn<int>("assigned");
        QTest::addColumn<QString>("says");
        QTest::newRow("everybody worked on it")
            << true << true << 0 << "everybody who may check it has worked on the car";
        QTest::newRow("nobody may check") << true << false << 0 << "nobody here may check it";
        QTest::newRow("nobody has the skill") << false << true << 0 << "nobody here has the skill";
        QTest::newRow("given to somebody who cannot")
            << false << true << 2 << "it is given to somebody who cannot do it";
    }
    void nobody_isExplained()
    {
        QFETCH(const bool, check);
        QFETCH(const bool, mayCheck);
        QFETCH(const int, assigned);
        QFETCH(const QString, says);
        SiteState site;
        site.people[PersonId{1}] = personWith(1, {Skill::Mechanical},
                                              mayCheck ? std::vector{Right::Work, Right::Check}
                                                       : std::vector{Right::Work});
        site.people[PersonId{2}] = personWith(2, {}, {Right::Work});
        if (assigned > 0)
            site.people[PersonId{3}] = personWith(3, {Skill::Valet}, {Right::Work});
        CarState car;
        car.id = CarId{QStringLiteral("car")};
        OperationSpec spec;
        spec.id = QStringLiteral("brakes");
        Operation& done = car.operations[OperationId{1}];
        done.id = OperationId{1};
        done.spec = spec;
        done.state = OperationState::Closed;
        Segment worked;
        worked.person = PersonId{1};
        worked.start = start;
        worked.end = start.plusMinutes(9);
        done.segments.push_back(worked);
        spec.id = QStringLiteral("last");
        spec.skill = check ? Skill::Checks : Skill::Valet;
        if (check) {
            spec.secondPerson = SecondPerson::Check;
            spec.checksWorkOf = {QStringLiteral("*")};
        }
        Operation& open = car.operations[OperationId{2}];
        open.id = OperationId{2};
        open.spec = spec;
        open.assigned = PersonId{assigned};
        const QString why = whyNobody(car, open, site, thursday);
        QVERIFY2(why.startsWith(says), qPrintable(why));
        // And what can be done.
        QVERIFY2(why.contains(QStringLiteral("; a manager can ")), qPrintable(why));
    }

    // The same times that stand beside the cars.
    void shifts_areSaidInTheForecastsTimes()
    {
        const HousePlan before = queueOf(3);
        HousePlan after = before;
        after.plan.ready[2] += 40;
        after.forecasts[2].ready50 += 90;
        after.forecasts[1].ready50 += 30; // chance alone: its own times are the same
        const std::vector<CarShift> shifts = shiftsBetween(before, after, 15);
        QCOMPARE(shifts.size(), 1U);
        QCOMPARE(shifts[0].car, before.house.cars[2]);
        QCOMPARE(shifts[0].before, before.forecasts[2].ready50);
        QCOMPARE(shifts[0].after, after.forecasts[2].ready50);
    }
};

RAMPLIGHT_TEST(NoApplication, TestPlanWords)
#include "tst_planwords.moc"
