// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/worktotals.h"

#include <QDateTime>
#include <QTest>
#include <QTimeZone>

using namespace ramplight;
using namespace ramplight::test;

// Timers: several people, pause, hand over, end of shift; minutes that never overlap.
class TestWork : public QObject
{
    Q_OBJECT

private slots:
    void work_ofSeveralPeople_addsUp()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(10);
        bench.start(id, op, bench.technician);
        bench.clock.pass(15);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.state(id, op), OperationState::InHand);
        bench.clock.pass(5);
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        const Operation closed = bench.operation(id, op);
        QCOMPARE(closed.minutes(), 25 + 20);
        QCOMPARE(closed.signatures.front().minutes, 45);
        QVERIFY(!closed.isRunning());
        const std::set both{bench.mechanic, bench.technician};
        QCOMPARE(closed.doers(), both);
    }

    void work_pausedAndResumed_countsNoPause()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(12);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.state(id, op), OperationState::Paused);
        bench.clock.pass(600);
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.clock.pass(3);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.operation(id, op).minutes(), 15);
    }

    void work_onASecondJob_isRefusedWhileOneRuns()
    {
        Workbench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        const OperationId op = bench.open(first, "inspection");
        bench.start(first, op, bench.mechanic);
        QCOMPARE(bench.ask(bench.mechanic, first, car::StartWork{op}),
                 no(RefusalId::AlreadyRunning));
        const OperationId other = bench.open(second, "inspection");
        bench.must(bench.mechanic, second, car::ReadCautions{other});
        QCOMPARE(bench.ask(bench.mechanic, second, car::StartWork{other}),
                 no(RefusalId::PersonBusy));
        QVERIFY(bench.lastWords().contains("K1"));
    }

    void work_stoppedAndStartedElsewhere_inOneRequest()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        const OperationId first = bench.open(id, "inspection");
        const OperationId second = bench.open(id, "battery-check");
        bench.start(id, first, bench.mechanic);
        bench.clock.pass(5);
        const auto outcome = bench.workshop.run(
            CarRequest{bench.command(),
                       bench.mechanic,
                       id,
                       {car::PauseWork{first, {}, StopKind::Paused}, car::StartWork{second}},
                       false});
        QVERIFY2(outcome, outcome ? "" : qPrintable(words(outcome.error())));
        QCOMPARE(bench.state(id, first), OperationState::Paused);
        QCOMPARE(bench.state(id, second), OperationState::InHand);
    }

    void work_needsSkillRightAndCautions_data()
    {
        QTest::addColumn<QString>("who");
        QTest::addColumn<QString>("expected");
        QTest::newRow("another skill") << "painter" << no(RefusalId::WrongSkill);
        QTest::newRow("no right to work") << "seller" << no(RefusalId::NotAllowed);
        QTest::newRow("cautions unread") << "mechanic" << no(RefusalId::CautionsUnread);
    }

    void work_needsSkillRightAndCautions()
    {
        QFETCH(QString, who);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const PersonId person = who == "painter"  ? bench.painter
                                : who == "seller" ? bench.seller
                                                  : bench.mechanic;
        QCOMPARE(bench.ask(person, id, car::StartWork{bench.open(id, "inspection")}), expected);
    }

    void work_waitsForWhatComesBefore_alsoAtSignOff()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId valet = bench.open(id, "valet");
        bench.start(id, valet, bench.painter);
        bench.found(id, "bonnet", Condition::Scratch);
        QCOMPARE(bench.ask(bench.painter, id, car::SignOff{valet, {}}), no(RefusalId::NotYet));
        QVERIFY(bench.lastWords().contains("touch in"));
        bench.must(bench.painter, id, car::PauseWork{valet, {}, StopKind::Paused});
        QCOMPARE(bench.ask(bench.painter, id, car::StartWork{valet}), no(RefusalId::NotYet));
        bench.close(id, bench.open(id, "touch-in"));
        bench.close(id, valet);
    }

    void handOver_stopsTheTimerAndNamesWhoIsNext()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(8);
        QCOMPARE(bench.ask(bench.mechanic, id, car::HandOver{op, bench.painter}),
                 no(RefusalId::WrongSkill));
        QCOMPARE(bench.ask(bench.painter, id, car::HandOver{op, bench.technician}),
                 no(RefusalId::NotAllowed));
        bench.must(bench.mechanic, id, car::HandOver{op, bench.technician});
        const Operation handed = bench.operation(id, op);
        QCOMPARE(handed.assigned, bench.technician);
        QCOMPARE(handed.state, OperationState::Paused);
        QCOMPARE(handed.segments.front().stop, StopKind::HandedOver);
        bench.start(id, op, bench.technician);
        QVERIFY(bench.operation(id, op).assigned.isNull());
    }

    void endOfShift_stopsEverybodyOnEveryCar()
    {
        Workbench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        bench.start(first, bench.open(first, "inspection"), bench.mechanic);
        bench.start(first, bench.open(first, "inspection"), bench.technician);
        bench.start(second, bench.open(second, "valet"), bench.painter);
        bench.clock.pass(30);
        QCOMPARE(bench.workshop.stopAllWork(bench.command()).value(), 3);
        QVERIFY(bench.ledger.allRunningWork().value().empty());
        for (const Segment& segment :
             bench.operation(first, bench.open(first, "inspection")).segments) {
            QCOMPARE(segment.stop, StopKind::ShiftEnd);
            QCOMPARE(segment.minutes(), 30);
        }
        QCOMPARE(bench.workshop.stopAllWork(bench.command()).value(), 0);
    }

    void endOfShift_isAManagers_andInTheirName()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.start(id, op, bench.technician);
        const auto refused = bench.workshop.stopAllWork(bench.command(), bench.mechanic);
        QVERIFY(!refused);
        QCOMPARE(std::get<Refusal>(refused.error()).id, RefusalId::NotAllowed);
        QCOMPARE(bench.ledger.allRunningWork().value().size(), std::size_t{2});
        QCOMPARE(
            std::get<Refusal>(bench.workshop.stopAllWork(bench.command(), PersonId{999}).error())
                .id,
            RefusalId::PersonUnknown);

        QCOMPARE(bench.workshop.stopAllWork(bench.command(), bench.manager).value(), 2);
        QVERIFY(bench.ledger.allRunningWork().value().empty());
        QCOMPARE(bench.ledger.accepted().back().by, bench.manager);
    }

    void shiftThatIsOver_stopsWhatBeganBefore_asOfItsEnd()
    {
        Workbench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        const OperationId day = bench.open(first, "inspection");
        const OperationId late = bench.open(second, "valet");
        bench.start(first, day, bench.mechanic);
        bench.clock.pass(45);
        const Moment shiftEnd = bench.clock.now();
        bench.clock.pass(10);
        bench.start(second, late, bench.painter);
        bench.clock.pass(14 * 60);
        QCOMPARE(bench.workshop.stopAllWork(bench.command(), {}, shiftEnd).value(), 1);
        const Segment& stopped = bench.operation(first, day).segments.front();
        QCOMPARE(stopped.end, shiftEnd);
        QCOMPARE(stopped.stop, StopKind::ShiftEnd);
        QCOMPARE(stopped.minutes(), 45);
        QVERIFY(bench.operation(second, late).segments.front().running());
        QCOMPARE(bench.workshop.stopAllWork(bench.command(), {}, shiftEnd).value(), 0);
    }

    void pauseOfAnEarlierTime_isForTheHouseAlone()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        const Moment start = bench.clock.now();
        bench.clock.pass(30);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused, start});
        QCOMPARE(bench.operation(id, op).segments.front().minutes(), 30);
    }

    void pause_ofSomebodyElse_needsTheRightToManage()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        QCOMPARE(
            bench.ask(bench.technician, id, car::PauseWork{op, bench.mechanic, StopKind::Paused}),
            no(RefusalId::NotAllowed));
        bench.must(bench.manager, id, car::PauseWork{op, bench.mechanic, StopKind::Paused});
        QCOMPARE(bench.state(id, op), OperationState::Paused);
    }

    // ---- minutes

    void forgottenTimer_isCorrectedWithAReasonAndStaysOnRecord()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(14 * 60);
        const SegmentId segment = bench.operation(id, op).segments.front().id;
        QCOMPARE(bench.ask(bench.mechanic, id, car::CorrectMinutes{op, segment, 45, "forgot"}),
                 no(RefusalId::OperationRunning));
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.must(bench.mechanic, id, car::CorrectMinutes{op, segment, 45, "forgot to pause"});
        const Segment corrected = bench.operation(id, op).segments.front();
        QCOMPARE(corrected.minutes(), 45);
        QCOMPARE(corrected.measuredMinutes(), 14 * 60);
        QCOMPARE(corrected.correctionReason, QStringLiteral("forgot to pause"));
        QCOMPARE(corrected.correctedBy, bench.mechanic);
    }

    void longStretch_wasProbablyForgotten_data()
    {
        QTest::addColumn<QTime>("start");
        QTest::addColumn<int>("minutes");
        QTest::addColumn<int>("usual");
        QTest::addColumn<QString>("zone");
        QTest::addColumn<bool>("overlong");
        const QString here = QStringLiteral("Europe/London"); // UTC in February
        const QTime morning(8, 0);
        QTest::newRow("as usual") << morning << 20 << 20 << here << false;
        QTest::newRow("two hours of ten minutes") << morning << 120 << 10 << here << false;
        QTest::newRow("and a minute more") << morning << 121 << 10 << here << true;
        QTest::newRow("three times as long") << morning << 150 << 50 << here << false;
        QTest::newRow("longer than that") << morning << 151 << 50 << here << true;
        QTest::newRow("nobody knows what is usual") << morning << 300 << 0 << here << false;
        QTest::newRow("two hours over midnight") << QTime(22, 30) << 120 << 180 << here << false;
        QTest::newRow("since the day before") << QTime(22, 30) << 121 << 180 << here << true;
        QTest::newRow("the same in the house's noon")
            << QTime(22, 30) << 121 << 180 << "Pacific/Auckland" << false;
    }

    void longStretch_wasProbablyForgotten()
    {
        QFETCH(QTime, start);
        QFETCH(int, minutes);
        QFETCH(int, usual);
        QFETCH(QString, zone);
        HouseRules rules;
        rules.timeZone = zone;
        const Moment begun{
            QDateTime(QDate(2031, 2, 27), start, QTimeZone::utc()).toMSecsSinceEpoch()};
        const Minutes normal{usual, usual, usual};
        QTEST(isOverlong(begun, begun.plusMinutes(minutes), normal, rules), "overlong");
        QVERIFY(!isOverlong({}, begun, normal, rules)); // nobody has begun
    }

    void correctedMinutes_mustBePossible_data()
    {
        QTest::addColumn<int>("minutes");
        QTest::addColumn<QString>("reason");
        QTest::addColumn<bool>("own");
        QTest::addColumn<QString>("expected");
        QTest::newRow("fewer") << 5 << "break" << true << done;
        QTest::newRow("none") << 0 << "never began" << true << done;
        QTest::newRow("up to the next job") << 30 << "forgot to start" << true << done;
        QTest::newRow("into the next job")
            << 31 << "forgot" << true << no(RefusalId::MinutesOverlap);
        QTest::newRow("below nought") << -1 << "?" << true << no(RefusalId::ValueOutOfRange);
        QTest::newRow("more than a day")
            << 24 * 60 + 1 << "?" << true << no(RefusalId::ValueOutOfRange);
        QTest::newRow("no reason") << 5 << " " << true << no(RefusalId::ReasonMissing);
        QTest::newRow("somebody else's") << 5 << "break" << false << no(RefusalId::NotAllowed);
    }

    void correctedMinutes_mustBePossible()
    {
        QFETCH(int, minutes);
        QFETCH(QString, reason);
        QFETCH(bool, own);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const CarId next = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.clock.pass(10);
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.clock.pass(20);
        bench.start(next, bench.open(next, "inspection"), bench.mechanic);
        bench.clock.pass(60);
        const SegmentId segment = bench.operation(id, op).segments.front().id;
        QCOMPARE(bench.ask(own ? bench.mechanic : bench.technician, id,
                           car::CorrectMinutes{op, segment, minutes, reason}),
                 expected);
    }

    void resume_afterAReading_keepsIt()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "lining", at("brakes-front"), number(44)});
        bench.workshop.stopAllWork(bench.command()).value();
        bench.must(bench.mechanic, id, car::StartWork{op});
        QVERIFY(bench.operation(id, op).reading("lining", at("brakes-front")) != nullptr);
    }

    // ---- who may

    void qualification_overSinceTheStart_pausesButDoesNotSign()
    {
        Workbench bench;
        bench.spec("windscreen-fit").qualification = Qualification::GlassBonding;
        bench.ask(
            bench.manager,
            site::SetCompetence{bench.glazier, {{Qualification::GlassBonding, bench.today()}}, {}});
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId op = bench.open(id, "windscreen-fit");
        // Its last day is a day like the others.
        bench.start(id, op, bench.glazier);
        bench.clock.pass(24 * 60);
        QCOMPARE(bench.ask(bench.glazier, id, car::TakeReading{op, "cure", {}, number(60)}),
                 no(RefusalId::QualificationOver));
        QCOMPARE(bench.ask(bench.glazier, id, car::SignOff{op, {}}),
                 no(RefusalId::QualificationOver));
        bench.must(bench.glazier, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.ask(bench.glazier, id, car::StartWork{op}),
                 no(RefusalId::QualificationOver));
        QCOMPARE(bench.ask(bench.manager, id, car::HandOver{op, bench.glazier}),
                 no(RefusalId::WrongSkill));
        bench.ask(bench.manager,
                  site::SetCompetence{bench.glazier,
                                      {{Qualification::GlassBonding, bench.today().addDays(365)}},
                                      {}});
        bench.close(id, op, bench.glazier);
        QCOMPARE(bench.state(id, op), OperationState::Closed);
    }

    void qualification_ofAnOutsideFirm_isTheFirms()
    {
        Workbench bench;
        bench.spec("windscreen-fit").qualification = Qualification::GlassBonding;
        bench.spec("windscreen-fit").speciality = QStringLiteral("bonded");
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId op = bench.open(id, "windscreen-fit");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Works", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.manager, id, car::ReceiveBack{op, "note 7", 1});
        bench.ask(bench.manager, site::SetCompetence{bench.glazier, {}, {"bonded"}});
        QCOMPARE(bench.ask(bench.glazier, id, car::TakeReading{op, "cure", {}, number(60)}), done);
        QCOMPARE(bench.ask(bench.glazier, id, car::SignOff{op, {}}), done);
        QCOMPARE(bench.state(id, op), OperationState::Closed);
    }

    void speciality_withinTheSkill_isAskedFor()
    {
        Workbench bench;
        bench.spec("touch-in").speciality = QStringLiteral("blending");
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        const OperationId op = bench.open(id, "touch-in");
        QCOMPARE(bench.ask(bench.painter, id, car::StartWork{op}),
                 no(RefusalId::SpecialityMissing));
        bench.ask(bench.manager, site::SetCompetence{bench.painter, {}, {"blending"}});
        bench.close(id, op, bench.painter);
        QCOMPARE(bench.state(id, op), OperationState::Closed);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestWork)
#include "tst_work.moc"
