// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// Clocks that somebody sets: no order changes, it is flagged, and minutes are what they were.
class TestSetClocks : public QObject
{
    Q_OBJECT

private slots:
    void clockSetBack_changesNoOrderAndIsFlagged()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(30);
        const Moment stopped = bench.clock.now();
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.clock.putBy(-25);
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.clock.pass(5);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        const Operation now = bench.operation(id, op);
        QVERIFY(!now.segments.front().clockSetBack);
        QVERIFY(now.segments.back().clockSetBack);
        QVERIFY(now.segments.back().start >= stopped);
        QCOMPARE(now.segments.back().minutes(), 5);
        Moment last;
        const std::vector<CarEnvelope> history = bench.ledger.history(id).value();
        for (const CarEnvelope& entry : history) {
            QVERIFY(entry.at >= last);
            last = entry.at;
        }
    }

    void clockSet_whileATimerRuns_isFlaggedAndTheMinutesAreRight_data()
    {
        QTest::addColumn<int>("putBy");
        QTest::addColumn<int>("wentBy");
        QTest::addColumn<bool>("setBack");
        QTest::addColumn<bool>("measured");
        QTest::newRow("nobody sets it") << 0 << 40 << false << false;
        QTest::newRow("back by less than went by") << -20 << 40 << true << true;
        QTest::newRow("back to before the start") << -90 << 40 << true << true;
        QTest::newRow("forward by a day") << 24 * 60 << 40 << false << true;
    }

    void clockSet_whileATimerRuns_isFlaggedAndTheMinutesAreRight()
    {
        QFETCH(int, putBy);
        QFETCH(int, wentBy);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(wentBy / 2);
        bench.clock.putBy(putBy);
        bench.clock.pass(wentBy / 2);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        const Segment stretch = bench.operation(id, op).segments.back();
        QCOMPARE(stretch.minutes(), wentBy);
        QTEST(stretch.clockSetBack, "setBack");
        QTEST(stretch.ranMs.has_value(), "measured");
        QVERIFY(stretch.end >= stretch.start);
    }

    void clockSet_beforeTheShiftEnds_theMinutesAreRight_data()
    {
        QTest::addColumn<int>("putBy");
        QTest::addColumn<int>("minutes");
        QTest::addColumn<bool>("setBack");
        QTest::addColumn<bool>("measured");
        // Begun 100 minutes before the end of the shift; the clock is set after 15 minutes, and
        // the timer is stopped 10 minutes after the end, by the clock as it is then.
        QTest::newRow("nobody sets it") << 0 << 100 << false << false;
        QTest::newRow("forward") << 60 << 40 << false << true;
        QTest::newRow("forward far past the end") << 200 << 15 << false << true;
        QTest::newRow("back") << -60 << 160 << true << true;
    }

    void clockSet_beforeTheShiftEnds_theMinutesAreRight()
    {
        QFETCH(int, putBy);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        const Moment end = bench.clock.now().plusMinutes(100);
        bench.clock.pass(15);
        bench.clock.putBy(putBy);
        bench.clock.pass(std::max(0, minutesBetween(bench.clock.now(), end.plusMinutes(10))));
        QVERIFY(bench.workshop.stopAllWork(bench.command(), {}, end));
        const Segment stretch = bench.operation(id, op).segments.back();
        QCOMPARE(stretch.stop, StopKind::ShiftEnd);
        QCOMPARE(stretch.end, end);
        QTEST(stretch.minutes(), "minutes");
        QTEST(stretch.clockSetBack, "setBack");
        QTEST(stretch.ranMs.has_value(), "measured");
        QCOMPARE(bench.broken(id), QStringList());
    }

    void clockSetBack_andNoSteadyOneThere_isFlaggedWithNoMinutes()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(-90); // the steady clock is no other one
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        const Segment stretch = bench.operation(id, op).segments.back();
        QVERIFY(stretch.clockSetBack);
        QVERIFY(!stretch.ranMs);
        QCOMPARE(stretch.minutes(), 0);
    }

    // Handing over, a block, a signature and a pause stop a timer in the same way.
    void clockSetBack_otherProgramStopsTheTimer_isFlagged()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(40);
        bench.clock.putBy(-90);
        // It did not see the timer start, so it cannot know how long it ran.
        Workshop other(bench.ledger, bench.clock, bench.catalogue);
        QVERIFY(other.run(CarRequest{
            bench.command(), bench.mechanic, id, {car::HandOver{op, bench.technician}}}));
        const Segment stretch = bench.operation(id, op).segments.back();
        QVERIFY(stretch.clockSetBack);
        QVERIFY(!stretch.ranMs);
        QCOMPARE(stretch.minutes(), 0);
    }

    void clockSetBack_onAnotherCar_neverOverlaps()
    {
        Workbench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        const OperationId op = bench.open(first, "inspection");
        bench.start(first, op, bench.mechanic);
        bench.clock.pass(30);
        bench.must(bench.mechanic, first, car::PauseWork{op, {}, StopKind::Paused});
        const Moment stopped = bench.clock.now();
        bench.clock.putBy(-20);
        const OperationId other = bench.open(second, "inspection");
        bench.start(second, other, bench.mechanic);
        const Segment segment = bench.operation(second, other).segments.front();
        QVERIFY(segment.clockSetBack);
        QVERIFY(segment.start >= stopped);
    }

    void clockSetBack_stretchesAreNotCorrectedIntoEachOther()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(30);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.clock.putBy(-20);
        // Two stretches while the clock is behind; the second goes on until it has caught up.
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.clock.pass(60);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        const SegmentId between = bench.operation(id, op).segments.at(1).id;
        QCOMPARE(bench.ask(bench.mechanic, id, car::CorrectMinutes{op, between, 20, "worked"}),
                 no(RefusalId::MinutesOverlap));
    }

    void clockSetBack_pauseAndStartInOneRequest_neverOverlap()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        const OperationId first = bench.open(id, "inspection");
        const OperationId second = bench.open(id, "battery-check");
        bench.start(id, first, bench.mechanic);
        bench.clock.pass(30);
        bench.must(bench.mechanic, id, car::PauseWork{first, {}, StopKind::Paused});
        bench.clock.putBy(-20);
        bench.must(bench.mechanic, id, car::StartWork{first});
        QVERIFY(bench.workshop.run(
            CarRequest{bench.command(),
                       bench.mechanic,
                       id,
                       {car::PauseWork{first, {}, StopKind::Paused}, car::StartWork{second}},
                       false}));
        const Moment began = bench.operation(id, second).segments.front().start;
        QVERIFY(began >= bench.operation(id, first).segments.back().end);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSetClocks)
#include "tst_setclocks.moc"
