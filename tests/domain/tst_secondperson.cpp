// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The check of other work and the second signature: two things, and never the doer.
class TestSecondPerson : public QObject
{
    Q_OBJECT

private slots:
    void check_byWhoDidTheWork_isRefused_data()
    {
        QTest::addColumn<bool>("onlyHelped");
        QTest::newRow("the signer of the work") << false;
        QTest::newRow("somebody who helped for a minute") << true;
    }

    void check_byWhoDidTheWork_isRefused()
    {
        QFETCH(bool, onlyHelped);
        Workbench bench;
        const PersonId both =
            bench.hire("Ferro", {Skill::Wheels}, {Right::Work, Right::Check, Right::Manage});
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.start(id, fit, both);
        if (onlyHelped) {
            bench.clock.pass(1);
            bench.must(both, id, car::PauseWork{fit, {}, StopKind::Paused});
        }
        bench.close(id, fit, onlyHelped ? bench.wheels : both);
        const OperationId check = bench.open(id, "wheel-fixing-check");
        QCOMPARE(bench.ask(both, id, car::StartWork{check}), no(RefusalId::CheckByDoer));
        QCOMPARE(bench.ask(bench.manager, id, car::HandOver{check, both}),
                 no(RefusalId::CheckByDoer));
        bench.start(id, check, bench.checker);
        bench.prove(id, check, bench.checker);
        QCOMPARE(bench.ask(both, id, car::TakeReading{check, "wrench", {}, answer("W3")}),
                 no(RefusalId::CheckByDoer));
        bench.must(bench.checker, id, car::SignOff{check, {}});
        QCOMPARE(bench.operation(id, check).signatures.front().meaning,
                 SignatureMeaning::CheckedTheWork);
    }

    void check_byWhoOnlyMeasuredAtTheWork_isRefused_data()
    {
        QTest::addColumn<bool>("typedOver");
        QTest::newRow("it stands") << false;
        QTest::newRow("the doer measured it once more") << true;
    }

    void check_byWhoOnlyMeasuredAtTheWork_isRefused()
    {
        QFETCH(bool, typedOver);
        Workbench bench;
        const PersonId both = bench.hire("Ferro", {Skill::Wheels}, {Right::Work, Right::Check});
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.start(id, fit, bench.wheels);
        bench.must(both, id, car::TakeReading{fit, "marks", {}, {{}, "205/55 R16"}});
        if (typedOver) {
            bench.must(bench.wheels, id, car::PauseWork{fit, {}, StopKind::Paused});
            bench.must(bench.wheels, id, car::StartWork{fit});
            bench.must(bench.wheels, id, car::TakeReading{fit, "marks", {}, {{}, "195/65 R15"}});
        }
        bench.close(id, fit);
        const OperationId check = bench.open(id, "wheel-fixing-check");
        QCOMPARE(bench.ask(both, id, car::StartWork{check}), no(RefusalId::CheckByDoer));
        QCOMPARE(bench.ask(bench.manager, id, car::PlanWork{check, both, {}, {}}),
                 no(RefusalId::CheckByDoer));
        bench.close(id, check, bench.checker);
    }

    void check_byWhoCorrectedAReadingOfTheWork_isAllowed()
    {
        // Where two people are the whole house, nobody else could do either.
        Workbench bench;
        const PersonId both = bench.hire("Ferro", {Skill::Wheels}, {Right::Work, Right::Check});
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.start(id, fit, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{fit, "marks", {}, {{}, "205/55 R61"}});
        bench.must(both, id,
                   car::CorrectReading{fit,
                                       bench.operation(id, fit).readings.front().id,
                                       {{}, "205/55 R16"},
                                       "mistyped",
                                       bench.photo()});
        bench.close(id, fit);
        bench.close(id, bench.open(id, "wheel-fixing-check"), both);
    }

    void countersignature_byWhoMeasuredAtTheWork_isRefused()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.technician, id, car::TakeReading{op, "part", {}, {{}, "P 17"}});
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        QCOMPARE(bench.ask(bench.technician, id, car::Countersign{op}), no(RefusalId::CheckByDoer));
        QCOMPARE(bench.ask(bench.technician, id, car::FailCheck{op, "hm", {}}),
                 no(RefusalId::CheckByDoer));
        bench.must(bench.checker, id, car::Countersign{op});
    }

    void countersignature_byWhoCorrectedAReading_isAllowed()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::TakeReading{op, "part", {}, {{}, "P 71"}});
        bench.must(bench.technician, id,
                   car::CorrectReading{op,
                                       bench.operation(id, op).readings.front().id,
                                       {{}, "P 17"},
                                       "mistyped",
                                       bench.photo()});
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        bench.must(bench.technician, id, car::Countersign{op});
    }

    void outsideWork_isSentBackByWhoMeasuredIt_andNotCountersignedByThem()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        const auto getBack = [&] {
            bench.must(bench.mechanic, id,
                       car::SendOut{op, {"Cove Steering", QDate(2031, 3, 19), 1, {}, false, {}}});
            bench.must(bench.mechanic, id, car::ReceiveBack{op, {}, 1});
            bench.must(bench.technician, id, car::TakeReading{op, "part", {}, {{}, "P 17"}});
        };
        getBack();
        bench.must(bench.technician, id, car::FailCheck{op, "wrong part", {}});
        getBack();
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        QCOMPARE(bench.ask(bench.technician, id, car::Countersign{op}), no(RefusalId::CheckByDoer));
        bench.must(bench.checker, id, car::Countersign{op});
    }

    void check_ofOtherWork_wantsNoThirdPerson()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId check = bench.open(id, "wheel-fixing-check");
        bench.close(id, check, bench.checker);
        QCOMPARE(bench.state(id, check), OperationState::Closed);
    }

    void check_byDoerAfterTheWorkWasReopened_isStillRefused()
    {
        Workbench bench;
        const PersonId both = bench.hire("Ferro", {Skill::Wheels}, {Right::Work, Right::Check});
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.close(id, fit, both);
        bench.must(bench.manager, id, car::Reopen{fit, "wrong tyre"});
        bench.close(id, fit, bench.wheels);
        QCOMPARE(bench.ask(both, id, car::StartWork{bench.open(id, "wheel-fixing-check")}),
                 no(RefusalId::CheckByDoer));
    }

    void reading_ofACheck_isNotCorrectedByWhoDidTheWork()
    {
        Workbench bench;
        const PersonId both = bench.hire("Ferro", {Skill::Wheels}, {Right::Work, Right::Check});
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.close(id, bench.open(id, "wheel-refurb"), both);
        bench.clock.pass(60);
        const OperationId check = bench.open(id, "wheel-true-check");
        bench.start(id, check, bench.checker);
        bench.must(bench.checker, id, car::TakeReading{check, "run-out", {}, number(25)});
        const ReadingId outside = bench.operation(id, check).readings.front().id;
        // The wheel does not run true; who refurbished it finds that it does.
        QCOMPARE(bench.ask(both, id,
                           car::CorrectReading{check, outside, number(5), "gauge slipped",
                                               bench.photo()}),
                 no(RefusalId::CheckByDoer));
    }

    void signature_byMistake_isReopenedBeforeTheSecondPersonLooks()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        QCOMPARE(bench.ask(bench.manager, id, car::Reopen{op, "not done yet"}),
                 no(RefusalId::OperationNotClosed));
        bench.start(id, op, bench.technician);
        bench.prove(id, op, bench.technician);
        bench.must(bench.technician, id, car::SignOff{op, {}});
        QCOMPARE(bench.ask(bench.mechanic, id, car::Reopen{op, "not done yet"}),
                 no(RefusalId::NotAllowed));
        QCOMPARE(bench.ask(bench.manager, id, car::Reopen{op, " "}), no(RefusalId::ReasonMissing));
        bench.must(bench.manager, id, car::Reopen{op, "signed on the wrong car"});
        const Operation open = bench.operation(id, op);
        QVERIFY(open.isOpen() && !open.awaitsSecond());
        QCOMPARE(open.signatures.size(), 1u);
        QVERIFY(open.signatures.front().voided);
        QCOMPARE(bench.ask(bench.checker, id, car::Countersign{op}),
                 no(RefusalId::NothingToCountersign));
        bench.close(id, op);
    }

    void countersignature_isASecondSignatureOnTheSameOperation()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.start(id, op, bench.technician);
        bench.prove(id, op, bench.technician);
        QCOMPARE(bench.ask(bench.checker, id, car::Countersign{op}),
                 no(RefusalId::NothingToCountersign));
        bench.must(bench.technician, id, car::SignOff{op, {}});
        QCOMPARE(bench.state(id, op), OperationState::AwaitingCheck);
        QVERIFY(bench.open(id, "road-test").isNull());
        QCOMPARE(bench.ask(bench.technician, id, car::Countersign{op}), no(RefusalId::CheckByDoer));
        QCOMPARE(bench.ask(bench.mechanic, id, car::Countersign{op}), no(RefusalId::NotAllowed));
        bench.must(bench.checker, id, car::Countersign{op});
        const Operation closed = bench.operation(id, op);
        QCOMPARE(closed.state, OperationState::Closed);
        QCOMPARE(closed.signatures.size(), 2u);
        QCOMPARE(closed.signatures.back().meaning, SignatureMeaning::Countersigned);
        QVERIFY(!bench.open(id, "road-test").isNull());
    }

    void countersignature_refused_goesBackToTheDoerWithTheReason()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.start(id, op, bench.technician);
        bench.prove(id, op, bench.technician);
        bench.must(bench.technician, id, car::SignOff{op, {}});
        QCOMPARE(bench.ask(bench.technician, id, car::FailCheck{op, "hm", {}}),
                 no(RefusalId::CheckByDoer));
        bench.must(bench.checker, id, car::FailCheck{op, "split pin missing", {}});
        const Operation back = bench.operation(id, op);
        QCOMPARE(back.state, OperationState::Paused);
        QCOMPARE(back.assigned, bench.technician);
        QCOMPARE(back.sentBackWhy, QStringLiteral("split pin missing"));
        QVERIFY(back.signatures.front().voided);
        QVERIFY(back.reading("part", {}) == nullptr);
    }

    void countersignature_ofOutsideWork_needsTheRightToCheck()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.must(bench.mechanic, id,
                   car::SendOut{op, {"Cove Steering", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.mechanic, id, car::ReceiveBack{op, {}, 1});
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        QCOMPARE(bench.ask(bench.painter, id, car::FailCheck{op, "no", {}}),
                 no(RefusalId::NotAllowed));
        bench.must(bench.checker, id, car::FailCheck{op, "wrong part", {}});
        QCOMPARE(bench.operation(id, op).assigned, bench.mechanic);
    }

    void check_thatFails_sendsTheWorkBackToItsDoer()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.close(id, fit);
        const OperationId check = bench.open(id, "wheel-fixing-check");
        bench.start(id, check, bench.checker);
        bench.clock.pass(5);
        QCOMPARE(bench.ask(bench.checker, id, car::FailCheck{check, "  ", {}}),
                 no(RefusalId::ReasonMissing));
        bench.must(bench.checker, id, car::FailCheck{check, "one bolt by hand only", {}});
        const Operation back = bench.operation(id, fit);
        QCOMPARE(back.state, OperationState::Paused);
        QCOMPARE(back.assigned, bench.wheels);
        QCOMPARE(back.sentBackWhy, QStringLiteral("one bolt by hand only"));
        QCOMPARE(back.timesReopened, 1);
        // The check has nothing to check now; closing the work opens a new one.
        QCOMPARE(bench.state(id, check), OperationState::Withdrawn);
        QVERIFY(!bench.operation(id, check).isRunning());
        bench.close(id, fit);
        QVERIFY(bench.open(id, "wheel-fixing-check") > check);
    }

    void check_ofEverything_saysWhichWorkGoesBack()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId last = bench.open(id, "final-check");
        closeAllBut(bench, id, last);
        bench.start(id, last, bench.checker);
        QCOMPARE(bench.ask(bench.checker, id, car::FailCheck{last, "streaks", {}}),
                 no(RefusalId::FieldMissing));
        const OperationId valet = bench.newest(id, "valet");
        bench.must(bench.checker, id, car::FailCheck{last, "streaks on the glass", valet});
        QCOMPARE(bench.operation(id, valet).assigned, bench.painter);
        QVERIFY(bench.operation(id, last).isOpen());
        QVERIFY(!bench.operation(id, last).isRunning());
    }

    void check_begunBeforeTheWorkWasDoneAgain_isMadeAnew()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId last = bench.open(id, "final-check");
        closeAllBut(bench, id, last);
        bench.start(id, last, bench.checker);
        bench.must(bench.checker, id, car::TakeReading{last, "overall", {}, answer("good")});
        const OperationId valet = bench.newest(id, "valet");
        bench.must(bench.checker, id, car::FailCheck{last, "streaks on the glass", valet});
        bench.close(id, valet);
        bench.must(bench.checker, id, car::StartWork{last});
        QCOMPARE(bench.ask(bench.checker, id, car::SignOff{last, {}}), no(RefusalId::EvidenceOpen));
    }

    void check_begunBeforeWorkWasAdded_isMadeAnew()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId last = bench.open(id, "final-check");
        closeAllBut(bench, id, last);
        bench.start(id, last, bench.checker);
        bench.must(bench.checker, id, car::TakeReading{last, "overall", {}, answer("good")});
        bench.must(bench.checker, id,
                   car::RecordFinding{finding("bonnet", Condition::Scratch), last});
        bench.close(id, bench.open(id, "touch-in"));
        if (bench.operation(id, last).state != OperationState::InHand)
            bench.must(bench.checker, id, car::StartWork{last});
        QCOMPARE(bench.ask(bench.checker, id, car::SignOff{last, {}}), no(RefusalId::EvidenceOpen));
    }

    void finalCheck_bySomebodyWhoWorkedOnTheCar_dependsOnTheHouse_data()
    {
        QTest::addColumn<bool>("houseAllows");
        QTest::addColumn<QString>("expected");
        QTest::newRow("as a rule") << false << no(RefusalId::CheckByDoer);
        QTest::newRow("very small workshop") << true << done;
    }

    void finalCheck_bySomebodyWhoWorkedOnTheCar_dependsOnTheHouse()
    {
        QFETCH(bool, houseAllows);
        QFETCH(QString, expected);
        HouseRules rules;
        rules.finalCheckByWorker = houseAllows;
        Workbench bench(rules);
        const CarId id = bench.appraised();
        bench.close(id, bench.open(id, "inspection"), bench.technician);
        const OperationId last = bench.open(id, "final-check");
        closeAllBut(bench, id, last);
        QCOMPARE(bench.ask(bench.technician, id, car::StartWork{last}), expected);
    }

    void finalCheck_smallHouse_stillForbidsTheDoerOtherChecks()
    {
        HouseRules rules;
        rules.finalCheckByWorker = true;
        Workbench bench(rules);
        const PersonId both = bench.hire("Ferro", {Skill::Wheels}, {Right::Work, Right::Check});
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"), both);
        QCOMPARE(bench.ask(both, id, car::StartWork{bench.open(id, "wheel-fixing-check")}),
                 no(RefusalId::CheckByDoer));
    }

    void failCheck_ofWhatIsNoCheck_isRefused()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(
            bench.ask(bench.checker, id, car::FailCheck{bench.open(id, "valet"), "streaks", {}}),
            no(RefusalId::NotACheck));
    }

private:
    static void closeAllBut(Workbench& bench, const CarId& id, OperationId last)
    {
        for (;;) {
            OperationId next;
            const CarState car = bench.car(id);
            for (const Operation* operation : car.openOperations())
                if (operation->id != last)
                    next = operation->id;
            if (next.isNull())
                return;
            bench.close(id, next);
            if (QTest::currentTestFailed())
                return;
        }
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSecondPerson)
#include "tst_secondperson.moc"
