// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/audit.h"
#include "domain/wheeltag.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// An oven load: kerbed wheels of several cars, all but signed.
struct OvenBench : Workbench
{
    TogetherRequest::Item wheel(const CarId& id, const char* place, bool photographed = true)
    {
        found(id, place, Condition::Kerbed);
        const OperationId op = open(id, "wheel-refurb", place);
        if (photographed)
            for (const PhotoMoment moment : {PhotoMoment::Before, PhotoMoment::After})
                must(wheels, id, car::AttachPhoto{photo(), moment, at(place), op, {}});
        return {id, op, {{{}, "metal", {}, answer("whole")}}};
    }

    int minutesOf(const TogetherRequest::Item& item)
    {
        return operation(item.car, item.operation).minutes();
    }
};

} // namespace

class TestTogether : public QObject
{
    Q_OBJECT

private slots:
    void wheels_ofSeveralCars_areSignedInOneStepWithMinutesSplit()
    {
        OvenBench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        const std::vector<TogetherRequest::Item> load{bench.wheel(first, "wheel-front-left"),
                                                      bench.wheel(second, "wheel-rear-right"),
                                                      bench.wheel(first, "wheel-rear-left")};
        bench.start(first, load[0].operation, bench.wheels);
        bench.clock.pass(92);
        QCOMPARE(bench.askTogether(bench.wheels, load), done);
        int sum = 0;
        for (const TogetherRequest::Item& item : load) {
            const Operation operation = bench.operation(item.car, item.operation);
            QCOMPARE(operation.state, OperationState::Closed);
            QCOMPARE(operation.signatures.back().by, bench.wheels);
            QCOMPARE(operation.signatures.back().minutes, operation.minutes());
            QCOMPARE(operation.readings.size(), 1u);
            QVERIFY(operation.segments.back().correctionReason.contains("92 min for 3 wheels"));
            sum += operation.minutes();
        }
        QCOMPARE(sum, 92);
        QCOMPARE(bench.minutesOf(load[0]), 31);
        QCOMPARE(bench.minutesOf(load[1]), 31);
        QCOMPARE(bench.minutesOf(load[2]), 30);
        // What was measured stays beside it.
        QCOMPARE(bench.operation(first, load[0].operation).segments.back().measuredMinutes(), 92);
        QCOMPARE(bench.operation(second, load[1].operation).segments.back().measuredMinutes(), 0);
        // Each wheel owes its own check.
        QVERIFY(!bench.open(first, "wheel-true-check", "wheel-front-left").isNull());
        QVERIFY(!bench.open(second, "wheel-true-check", "wheel-rear-right").isNull());
        // Nobody's timer runs on, and no two stretches of a person begin at once.
        QVERIFY(!bench.ledger.runningWork(bench.wheels).value());
        std::set<qint64> starts;
        for (const TogetherRequest::Item& item : load)
            starts.insert(bench.operation(item.car, item.operation).segments.back().start.ms);
        QCOMPARE(starts.size(), load.size());
    }

    void wheels_whileTheClockGoesOn_areSignedAtOneTime()
    {
        OvenBench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        const std::vector<TogetherRequest::Item> load{bench.wheel(first, "wheel-front-left"),
                                                      bench.wheel(second, "wheel-rear-right")};
        bench.start(first, load[0].operation, bench.wheels);
        bench.clock.pass(40);
        bench.clock.goOnWithEachLook();
        QCOMPARE(bench.askTogether(bench.wheels, load), done);
        QCOMPARE(bench.car(first).lastAt, bench.car(second).lastAt);
    }

    void sum_isExactForEveryNumberOfWheels_data()
    {
        QTest::addColumn<int>("minutes");
        for (const int minutes : {0, 1, 2, 3, 59, 60, 61})
            QTest::addRow("%d minutes", minutes) << minutes;
    }

    void sum_isExactForEveryNumberOfWheels()
    {
        QFETCH(int, minutes);
        OvenBench bench;
        const CarId id = bench.appraised();
        std::vector<TogetherRequest::Item> load;
        for (const char* place :
             {"wheel-front-left", "wheel-front-right", "wheel-rear-left", "wheel-rear-right"})
            load.push_back(bench.wheel(id, place));
        bench.start(id, load[2].operation, bench.wheels);
        bench.clock.pass(minutes);
        QCOMPARE(bench.askTogether(bench.wheels, load), done);
        int sum = 0;
        for (const TogetherRequest::Item& item : load)
            sum += bench.minutesOf(item);
        QCOMPARE(sum, minutes);
    }

    void minutes_ofSomebodyElse_areLeftAlone()
    {
        OvenBench bench;
        const PersonId other = bench.hire("Other", {Skill::Wheels}, {Right::Work});
        const CarId id = bench.appraised();
        const std::vector<TogetherRequest::Item> load{bench.wheel(id, "wheel-front-left"),
                                                      bench.wheel(id, "wheel-rear-left")};
        bench.start(id, load[1].operation, other);
        bench.clock.pass(10);
        bench.must(other, id, car::PauseWork{load[1].operation, {}, StopKind::Paused});
        bench.start(id, load[0].operation, bench.wheels);
        bench.clock.pass(40);
        QCOMPARE(bench.askTogether(bench.wheels, load), done);
        QCOMPARE(bench.minutesOf(load[0]), 20);
        QCOMPARE(bench.minutesOf(load[1]), 30);
        QCOMPARE(bench.operation(id, load[1].operation).segments.front().minutes(), 10);
    }

    void oneThatCannot_stopsAllAndNamesItsCar()
    {
        OvenBench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        std::vector<TogetherRequest::Item> load{bench.wheel(first, "wheel-front-left"),
                                                bench.wheel(second, "wheel-rear-right", false)};
        bench.start(first, load[0].operation, bench.wheels);
        bench.clock.pass(30);
        const CarState before = bench.car(first);
        QCOMPARE(bench.askTogether(bench.wheels, load), no(RefusalId::OneOfTogether));
        QVERIFY2(bench.lastWords().startsWith(bench.car(second).identity.stockNumber),
                 qPrintable(bench.lastWords()));
        QVERIFY2(bench.lastWords().contains("Nothing was signed"), qPrintable(bench.lastWords()));
        QCOMPARE(bench.car(first), before);
        QVERIFY(bench.operation(second, load[1].operation).segments.empty());
        // A crack in one of them stops all of them, too.
        load[1] = bench.wheel(second, "wheel-front-right");
        load[1].readings.front().value = answer("cracked");
        QCOMPARE(bench.askTogether(bench.wheels, load), no(RefusalId::OneOfTogether));
        QCOMPARE(bench.car(first), before);
    }

    void load_thatIsNone_isRefused()
    {
        OvenBench bench;
        const CarId id = bench.appraised();
        const TogetherRequest::Item one = bench.wheel(id, "wheel-front-left");
        const TogetherRequest::Item two = bench.wheel(id, "wheel-rear-left");
        // Nobody worked on any of them.
        QCOMPARE(bench.askTogether(bench.wheels, {one, two}), no(RefusalId::NotStarted));
        bench.start(id, one.operation, bench.wheels);
        QCOMPARE(bench.askTogether(bench.wheels, {one}), no(RefusalId::NotTogether));
        QCOMPARE(bench.askTogether(bench.wheels, {one, one}), no(RefusalId::NotTogether));
        bench.found(id, "tyre-rear-right", Condition::Cut);
        const TogetherRequest::Item tyre{id, bench.open(id, "tyre-fit", "tyre-rear-right")};
        QCOMPARE(bench.askTogether(bench.wheels, {one, tyre}), no(RefusalId::NotTogether));
        QCOMPARE(bench.askTogether(bench.wheels, {one, {id, bench.open(id, "valet")}}),
                 no(RefusalId::NotTogether));
        // Somebody else's skill is asked for each wheel.
        QCOMPARE(bench.askTogether(bench.painter, {one, two}), no(RefusalId::NotStarted));
        // A share of minutes by itself is nothing that anybody can ask for.
        bench.must(bench.wheels, id, car::TakeReading{one.operation, "metal", {}, answer("whole")});
        QCOMPARE(bench.ask(bench.wheels, id,
                           car::SignOff{one.operation, {}, car::MinutesShare{500, 1000, 2}}),
                 no(RefusalId::NotTogether));
    }

    void timer_onOtherWork_isNotStoppedByTheWay()
    {
        OvenBench bench;
        const CarId id = bench.appraised();
        const std::vector<TogetherRequest::Item> load{bench.wheel(id, "wheel-front-left"),
                                                      bench.wheel(id, "wheel-rear-left")};
        bench.start(id, load[0].operation, bench.wheels);
        bench.clock.pass(20);
        bench.must(bench.wheels, id, car::PauseWork{load[0].operation, {}, StopKind::Paused});
        const TogetherRequest::Item third = bench.wheel(id, "wheel-rear-right");
        bench.start(id, third.operation, bench.wheels);
        QCOMPARE(bench.askTogether(bench.wheels, load), no(RefusalId::OneOfTogether));
        QVERIFY(bench.ledger.runningWork(bench.wheels).value());
    }

    void command_sentTwice_changesNothing()
    {
        OvenBench bench;
        const CarId id = bench.appraised();
        const std::vector<TogetherRequest::Item> load{bench.wheel(id, "wheel-front-left"),
                                                      bench.wheel(id, "wheel-rear-left")};
        bench.start(id, load[0].operation, bench.wheels);
        bench.clock.pass(20);
        const TogetherRequest request{bench.command(), bench.wheels, load};
        QVERIFY(bench.workshop.signTogether(request));
        const CarState after = bench.car(id);
        const auto again = bench.workshop.signTogether(request);
        QVERIFY(again);
        QVERIFY(again->front().events.empty());
        QCOMPARE(bench.car(id), after);
    }

    void tag_roundTrip_tiesWheelToCarAndCorner_data()
    {
        QTest::addColumn<QString>("corner");
        QTest::addColumn<QString>("place");
        QTest::newRow("code") << "FL"
                              << "wheel-front-left";
        QTest::newRow("small letters") << "rr"
                                       << "wheel-rear-right";
        QTest::newRow("the wheel") << "wheel-rear-left"
                                   << "wheel-rear-left";
        QTest::newRow("its tyre") << "tyre-front-right"
                                  << "wheel-front-right";
        QTest::newRow("spare") << "SP"
                               << "spare-wheel";
        QTest::newRow("no corner") << "bonnet"
                                   << "";
        QTest::newRow("nothing") << ""
                                 << "";
    }

    void tag_roundTrip_tiesWheelToCarAndCorner()
    {
        QFETCH(QString, corner);
        QFETCH(QString, place);
        const PlaceId wheel = wheelOfCorner(corner);
        QCOMPARE(wheel.text, place);
        if (wheel.isEmpty())
            return;
        const WheelTag tag{QStringLiteral("RL-2041"), wheel};
        QCOMPARE(readTagCode(tagCode(tag)), std::optional(tag));
        QVERIFY(!readTagCode(QStringLiteral("FL-")));
        QVERIFY(!readTagCode(QStringLiteral("RL2041")));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestTogether)
#include "tst_together.moc"
