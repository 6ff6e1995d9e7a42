// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What work waits for that is not here: a part, an outside firm.
class TestWaiting : public QObject
{
    Q_OBJECT

private slots:
    // ---- parts

    void part_onOrder_blocksAndStopsTheTimers()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "brakes-front", Condition::Worn);
        const OperationId op = bench.open(id, "brake-pads");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id,
                   car::BlockForPart{op, {"front pads", "Harbour Parts", QDate(2031, 3, 22)}});
        const Operation blocked = bench.operation(id, op);
        QCOMPARE(blocked.state, OperationState::Blocked);
        QCOMPARE(blocked.part->supplier, QStringLiteral("Harbour Parts"));
        QVERIFY(!blocked.isRunning());
        QCOMPARE(blocked.segments.front().stop, StopKind::Blocked);
        QCOMPARE(bench.ask(bench.mechanic, id, car::StartWork{op}), no(RefusalId::Blocked));
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{op, {}}), no(RefusalId::Blocked));
        // The supplier rings: it comes later.
        QVERIFY(bench.must(bench.mechanic, id, car::ChangeDue{op, QDate(2031, 3, 22), {}}).empty());
        QCOMPARE(bench.ask(bench.mechanic, id, car::ChangeDue{op, {}, {}}),
                 no(RefusalId::FieldMissing));
        QCOMPARE(bench.ask(bench.appraiser, id, car::ChangeDue{op, QDate(2031, 3, 26), {}}),
                 no(RefusalId::NotAllowed));
        bench.must(bench.mechanic, id,
                   car::ChangeDue{op, QDate(2031, 3, 26), " the supplier says so "});
        QCOMPARE(bench.operation(id, op).part->due, QDate(2031, 3, 26));
        QCOMPARE(bench.operation(id, op).part->part, blocked.part->part);
        QCOMPARE(std::get<DueChanged>(bench.ledger.history(id).value().back().event).reason,
                 QStringLiteral("the supplier says so"));
        bench.must(bench.mechanic, id, car::Unblock{op});
        QCOMPARE(bench.ask(bench.mechanic, id, car::ChangeDue{op, QDate(2031, 3, 27), {}}),
                 no(RefusalId::NotBlocked));
        QCOMPARE(bench.state(id, op), OperationState::Paused);
        QVERIFY(!bench.operation(id, op).part);
        bench.close(id, op);
    }

    void part_order_needsWhatWithWhomAndWhen_data()
    {
        QTest::addColumn<QString>("part");
        QTest::addColumn<QString>("supplier");
        QTest::addColumn<QDate>("due");
        QTest::addColumn<QString>("expected");
        const QDate day(2031, 3, 22);
        const QString missing = no(RefusalId::FieldMissing);
        QTest::newRow("complete") << "front pads"
                                  << "Harbour Parts" << day << done;
        QTest::newRow("which part?") << " "
                                     << "Harbour Parts" << day << missing;
        QTest::newRow("with whom?") << "front pads"
                                    << " " << day << missing;
        QTest::newRow("when?") << "front pads"
                               << "Harbour Parts" << QDate() << missing;
    }

    void part_order_needsWhatWithWhomAndWhen()
    {
        QFETCH(QString, part);
        QFETCH(QString, supplier);
        QFETCH(QDate, due);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.mechanic, id,
                           car::BlockForPart{bench.open(id, "inspection"), {part, supplier, due}}),
                 expected);
    }

    void part_onOrder_survivesThatItsWorkIsOpenedAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        const OperationId front = bench.open(id, "tyre-fit", "tyre-front-left");
        bench.close(id, front);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId check = bench.open(id, "wheel-fixing-check");
        bench.start(id, check, bench.checker);
        bench.must(bench.manager, id,
                   car::BlockForPart{check, {"locking key", "Harbour Parts", QDate(2031, 3, 22)}});
        bench.must(bench.manager, id, car::Reopen{front, "wrong size"});
        const Operation again = bench.operation(id, check);
        QVERIFY(again.part.has_value());
        QCOMPARE(again.state, OperationState::Blocked);
    }

    // ---- outside firms

    void outsideWork_isSentReceivedAndCheckedByOurOwnPerson()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Wheels", QDate(2031, 3, 19), 1, "D 77", false, {}}});
        QCOMPARE(bench.state(id, op), OperationState::Blocked);
        QCOMPARE(bench.operation(id, op).outside->document, QStringLiteral("D 77"));
        QCOMPARE(bench.ask(bench.wheels, id, car::StartWork{op}), no(RefusalId::Blocked));
        QCOMPARE(bench.ask(bench.manager, id, car::Unblock{op}), no(RefusalId::NotBlocked));
        bench.must(bench.wheels, id, car::ChangeDue{op, QDate(2031, 3, 21), {}});
        QCOMPARE(bench.operation(id, op).outside->dueBack, QDate(2031, 3, 21));
        QCOMPARE(bench.operation(id, op).outside->keys, 1);
        bench.must(bench.wheels, id, car::ReceiveBack{op, "D 77 back", 1});
        QCOMPARE(bench.ask(bench.wheels, id, car::ChangeDue{op, QDate(2031, 3, 22), {}}),
                 no(RefusalId::NotBlocked));
        QCOMPARE(bench.state(id, op), OperationState::AwaitingCheck);
        // Back is not good: it needs its readings, photos and a name, as if made here.
        QCOMPARE(bench.ask(bench.wheels, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
        QCOMPARE(bench.ask(bench.painter, id, car::SignOff{op, {}}), no(RefusalId::WrongSkill));
        bench.prove(id, op, bench.wheels);
        bench.must(bench.wheels, id, car::SignOff{op, {}});
        const Operation closed = bench.operation(id, op);
        QCOMPARE(closed.state, OperationState::Closed);
        QCOMPARE(closed.signatures.front().meaning, SignatureMeaning::ReceivedFromOutside);
        QVERIFY(!bench.open(id, "wheel-true-check").isNull());
    }

    void outsideWork_thatNothingAsksForAnyMore_comesBackFirst_data()
    {
        QTest::addColumn<QString>("gone");
        for (const char* gone : {"finding", "fact", "work that it rested on"})
            QTest::newRow(gone) << QString::fromLatin1(gone);
    }

    void outsideWork_thatNothingAsksForAnyMore_comesBackFirst()
    {
        QFETCH(QString, gone);
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery, Fact::ScreenCamera}));
        const FindingId kerbed = bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId screen = bench.open(id, "windscreen-fit");
        bench.close(id, screen);
        bench.clock.pass(120);
        const OperationId op = bench.open(id, gone == "finding" ? "wheel-refurb"
                                              : gone == "fact"  ? "battery-check"
                                                                : "camera-calibration");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Works", QDate(2031, 3, 19), 1, {}, false, {}}});
        if (gone == "finding")
            bench.must(bench.checker, id,
                       car::CorrectFinding{kerbed, {}, false, "it was dirt", bench.photo()});
        else if (gone == "fact")
            bench.must(
                bench.checker, id,
                car::CorrectFacts{carWith({Fact::ScreenCamera}), "it has none", bench.photo()});
        else
            bench.must(bench.manager, id, car::Reopen{screen, "it leaks"});
        QCOMPARE(bench.state(id, op), OperationState::Blocked);
        QVERIFY(bench.operation(id, op).isAway());
        bench.must(bench.manager, id, car::ReceiveBack{op, "D 7", 1});
        QCOMPARE(bench.operation(id, op).outside->keysMissing(), 0);
        QCOMPARE(bench.state(id, op), OperationState::AwaitingCheck);
        const PersonId ours = bench.whoFor(bench.operation(id, op));
        bench.prove(id, op, ours);
        bench.must(ours, id, car::SignOff{op, {}});
        QCOMPARE(bench.state(id, op), OperationState::Closed);
        QCOMPARE(bench.broken(id), QStringList());
    }

    void outsideWork_needsFirmDayAndKeys_data()
    {
        QTest::addColumn<QString>("firm");
        QTest::addColumn<QDate>("due");
        QTest::addColumn<int>("keys");
        QTest::addColumn<QString>("expected");
        const QDate day(2031, 3, 19);
        QTest::newRow("complete") << "Cove Wheels" << day << 1 << done;
        QTest::newRow("which firm?") << "" << day << 1 << no(RefusalId::FieldMissing);
        QTest::newRow("back when?") << "Cove Wheels" << QDate() << 1 << no(RefusalId::FieldMissing);
        QTest::newRow("too many keys")
            << "Cove Wheels" << day << 10 << no(RefusalId::ValueOutOfRange);
        QTest::newRow("minus a key")
            << "Cove Wheels" << day << -1 << no(RefusalId::ValueOutOfRange);
    }

    void outsideWork_needsFirmDayAndKeys()
    {
        QFETCH(QString, firm);
        QFETCH(QDate, due);
        QFETCH(int, keys);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id,
                           car::SendOut{bench.open(id, "valet"), {firm, due, keys, {}, false, {}}}),
                 expected);
    }

    void keysGivenAlong_areCountedWhenItIsBack_data()
    {
        QTest::addColumn<int>("given");
        QTest::addColumn<int>("back"); // -1: nobody says
        QTest::addColumn<QString>("expected");
        QTest::addColumn<int>("missing");
        QTest::newRow("all") << 2 << 2 << done << 0;
        QTest::newRow("one stayed there") << 2 << 1 << done << 1;
        QTest::newRow("none came back") << 1 << 0 << done << 1;
        QTest::newRow("not counted") << 2 << -1 << no(RefusalId::FieldMissing) << 0;
        QTest::newRow("one too many") << 2 << 3 << no(RefusalId::ValueOutOfRange) << 0;
        QTest::newRow("less than none") << 2 << -2 << no(RefusalId::ValueOutOfRange) << 0;
        QTest::newRow("none were given along") << 0 << -1 << done << 0;
        QTest::newRow("of none, one") << 0 << 1 << no(RefusalId::ValueOutOfRange) << 0;
    }

    void keysGivenAlong_areCountedWhenItIsBack()
    {
        QFETCH(int, given);
        QFETCH(int, back);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "valet");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Works", QDate(2031, 3, 19), given, {}, false, {}}});
        car::ReceiveBack received{op, "D 78"};
        if (back != -1)
            received.keys = back;
        QCOMPARE(bench.ask(bench.manager, id, received), expected);
        QTEST(bench.operation(id, op).outside->keysMissing(), "missing");
    }

    void outsideWork_refusedOnReturn_isByOneOfThisHouse_data()
    {
        QTest::addColumn<QString>("who");
        QTest::addColumn<QString>("expected");
        QTest::newRow("a wheel man") << "wheels" << done;
        QTest::newRow("the checker") << "checker" << done;
        QTest::newRow("no right to work or check") << "seller" << no(RefusalId::NotAllowed);
        QTest::newRow("nobody of this house") << "nobody" << no(RefusalId::PersonUnknown);
    }

    void outsideWork_refusedOnReturn_isByOneOfThisHouse()
    {
        QFETCH(QString, who);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Wheels", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.manager, id, car::ReceiveBack{op, {}, 1});
        const PersonId person = who == "wheels"    ? bench.wheels
                                : who == "checker" ? bench.checker
                                : who == "seller"  ? bench.seller
                                                   : PersonId{99};
        QCOMPARE(bench.ask(person, id, car::FailCheck{op, "wrong colour", {}}), expected);
    }

    // ---- adhesive

    void cure_correctedAfterTheSignature_isCountedFromItAnew_data()
    {
        QTest::addColumn<int>("typed");
        QTest::addColumn<int>("meant");
        QTest::newRow("a nought too few") << 30 << 300;
        QTest::newRow("a nought too many") << 300 << 30;
    }

    void cure_correctedAfterTheSignature_isCountedFromItAnew()
    {
        QFETCH(int, typed);
        QFETCH(int, meant);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = glued(bench, id, typed);
        const Moment closed = bench.operation(id, op).closedAt;
        QCOMPARE(bench.operation(id, op).waitUntil, closed.plusMinutes(typed));
        bench.clock.pass(5);
        bench.must(bench.checker, id,
                   car::CorrectReading{op, bench.operation(id, op).readings.front().id,
                                       number(meant), "read off the tube", bench.photo()});
        QCOMPARE(bench.operation(id, op).waitUntil, closed.plusMinutes(meant));
        bench.clock.pass(meant - 6);
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.lift, {}}),
                 no(RefusalId::DoNotMove));
        bench.clock.pass(1);
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
    }

    void cure_ofNoTime_isNone()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId op = bench.open(id, "windscreen-fit");
        bench.start(id, op, bench.glazier);
        QCOMPARE(bench.ask(bench.glazier, id, car::TakeReading{op, "cure", {}, number(0)}),
                 no(RefusalId::ValueOutOfRange));
        bench.must(bench.glazier, id, car::TakeReading{op, "cure", {}, number(1)});
        QCOMPARE(bench.ask(bench.checker, id,
                           car::CorrectReading{op, bench.operation(id, op).readings.front().id,
                                               number(0), "no glue", bench.photo()}),
                 no(RefusalId::ValueOutOfRange));
    }

    // ---- high voltage at a firm

    void highVoltage_repairedByAFirm_wantsNoIsolationOfOurs_data()
    {
        QTest::addColumn<QString>("begun");
        QTest::addColumn<bool>("asks");
        QTest::newRow("all of it by the firm") << "never" << false;
        QTest::newRow("begun here, not isolated") << "started" << true;
        QTest::newRow("isolated here before it went") << "isolated" << false;
        QTest::newRow("done here once, opened again, then by the firm") << "reopened" << false;
    }

    void highVoltage_repairedByAFirm_wantsNoIsolationOfOurs()
    {
        QFETCH(QString, begun);
        QFETCH(bool, asks);
        Workbench bench;
        bench.spec("high-voltage-repair").qualification = Qualification::HighVoltage;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        bench.found(id, "traction-battery", Condition::Broken);
        const OperationId op = bench.open(id, "high-voltage-repair");
        if (begun == "reopened") {
            bench.close(id, op);
            bench.must(bench.manager, id, car::Reopen{op, "it leaks again"});
        } else if (begun != "never") {
            bench.start(id, op, bench.mechanic);
            if (begun == "isolated")
                bench.must(bench.mechanic, id, car::SetIsolation{op, "key safe"});
            bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        }
        bench.clock.pass(5);
        // Nobody in the house holds the certificate any more.
        for (const PersonId person : {bench.mechanic, bench.technician})
            QCOMPARE(bench.ask(bench.manager, site::SetCompetence{person, {}, {}}), done);
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Motors", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.technician, id, car::ReceiveBack{op, "D 7", 1});
        bench.prove(id, op, bench.technician);
        if (begun == "isolated") {
            QCOMPARE(bench.ask(bench.technician, id, car::SignOff{op, {}}),
                     no(RefusalId::EvidenceOpen));
            QVERIFY2(bench.lastWords().contains("isolation lifted"), qPrintable(bench.lastWords()));
            bench.must(bench.mechanic, id, car::LiftIsolation{op, {}});
        }
        QCOMPARE(bench.ask(bench.technician, id, car::SignOff{op, {}}),
                 asks ? no(RefusalId::EvidenceOpen) : done);
        // The check goes by what people may do today: only what it says of isolation counts here.
        QCOMPARE(bench.broken(id).filter(QStringLiteral("isolat")), QStringList());
    }

    void check_isNotGivenAway()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id,
                           car::SendOut{bench.open(id, "final-check"),
                                        {"Cove Checks", QDate(2031, 3, 19), 1, {}, false, {}}}),
                 no(RefusalId::CheckStaysInHouse));
    }

private:
    /// A screen that was fitted and signed; so many minutes were typed for its adhesive.
    static OperationId glued(Workbench& bench, const CarId& id, int minutes)
    {
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId op = bench.open(id, "windscreen-fit");
        bench.start(id, op, bench.glazier);
        bench.must(bench.glazier, id, car::TakeReading{op, "cure", {}, number(minutes)});
        bench.must(bench.glazier, id, car::SignOff{op, {}});
        return op;
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestWaiting)
#include "tst_waiting.moc"
