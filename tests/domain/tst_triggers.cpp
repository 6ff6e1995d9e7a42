// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/foreseen.h"
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// Closing work opens its checks, anew each time; opening it again voids what rested on it.
class TestTriggers : public QObject
{
    Q_OBJECT

private slots:
    void closing_work_opensItsChecksWhichHoldTheRelease()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId refurb = bench.open(id, "wheel-refurb");
        QVERIFY(bench.open(id, "wheel-true-check").isNull());
        bench.close(id, refurb);
        const OperationId check = bench.open(id, "wheel-true-check", "wheel-front-left");
        const Operation opened = bench.operation(id, check);
        QCOMPARE(opened.origin, Origin::Trigger);
        QCOMPARE(opened.restsOn, std::vector{refurb});
        // The work was cosmetic; its check is a safety item.
        QVERIFY(std::ranges::any_of(bench.holds(id), [&](const Hold& hold) {
            return hold.operation == check && hold.safety;
        }));
    }

    void foreseen_isWhatComes()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        const auto kinds = [](const CarState& car) {
            QStringList all;
            for (const auto& [number, operation] : car.operations)
                if (operation.state != OperationState::Withdrawn)
                    all.append(operation.spec->id + QLatin1Char(' ') + operation.place.text);
            all.sort();
            return all;
        };
        const CarState before = bench.car(id);
        const CarState foreseen =
            withForeseen(before, bench.catalogue, bench.ledger.site().value(), bench.clock.now());
        // Nothing that is there changes, and what comes rests on what opens it.
        QVERIFY(foreseen.operations.size() > before.operations.size());
        for (const auto& [number, operation] : foreseen.operations) {
            const Operation* real = before.operation(number);
            QCOMPARE(operation.state, real != nullptr ? real->state : OperationState::Waiting);
            QVERIFY(real != nullptr || !operation.restsOn.empty());
        }
        bench.closeAll(id);
        QCOMPARE(kinds(foreseen), kinds(bench.car(id)));
        QCOMPARE(kinds(withForeseen(bench.car(id), bench.catalogue, bench.ledger.site().value(),
                                    bench.clock.now())),
                 kinds(bench.car(id)));
    }

    void closing_again_opensANewCheckAndKeepsTheOldOneOnRecord()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId refurb = bench.open(id, "wheel-refurb");
        bench.close(id, refurb);
        bench.clock.pass(60);
        const OperationId first = bench.open(id, "wheel-true-check");
        bench.close(id, first);
        bench.must(bench.checker, id, car::Reopen{refurb, "lacquer runs"});
        const Operation voided = bench.operation(id, first);
        QCOMPARE(voided.state, OperationState::Withdrawn);
        QVERIFY(voided.signatures.front().voided);
        QCOMPARE(voided.signatures.size(), 1u);
        bench.close(id, refurb);
        const OperationId second = bench.open(id, "wheel-true-check");
        QVERIFY(second > first);
        QVERIFY(bench.operation(id, second).readings.empty());
    }

    void sharedCheck_ofTwoJobs_isOneAndRestsOnBoth()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        const OperationId front = bench.open(id, "tyre-fit", "tyre-front-left");
        const OperationId rear = bench.open(id, "tyre-fit", "tyre-rear-left");
        bench.close(id, front);
        bench.close(id, rear);
        const OperationId check = bench.open(id, "wheel-fixing-check");
        const std::vector both{front, rear};
        QCOMPARE(bench.operation(id, check).restsOn, both);
        bench.must(bench.checker, id, car::Reopen{front, "wrong size"});
        QCOMPARE(bench.operation(id, check).restsOn, std::vector{rear});
        QVERIFY(bench.operation(id, check).isOpen());
    }

    void sharedCheck_closed_isOpenAgainWhenOneOfTheJobsIs()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        const OperationId front = bench.open(id, "tyre-fit", "tyre-front-left");
        bench.close(id, front);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId check = bench.open(id, "wheel-fixing-check");
        bench.close(id, check);
        bench.must(bench.checker, id, car::Reopen{front, "wrong size"});
        const Operation again = bench.operation(id, check);
        QVERIFY(again.isOpen());
        QVERIFY(again.signatures.front().voided);
        QVERIFY(again.reading("torque", {}) == nullptr);
    }

    void check_alreadyBegun_saysNothingAboutLaterWork()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId begun = bench.open(id, "wheel-fixing-check");
        bench.start(id, begun, bench.checker);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId second = bench.open(id, "wheel-fixing-check");
        QVERIFY(second > begun);
        QCOMPARE(bench.operation(id, begun).restsOn.size(), 1u);
    }

    void trigger_underAFact_opensOnlyOnSuchCars_data()
    {
        QTest::addColumn<bool>("camera");
        QTest::newRow("camera at the screen") << true;
        QTest::newRow("none") << false;
    }

    void trigger_underAFact_opensOnlyOnSuchCars()
    {
        QFETCH(bool, camera);
        Workbench bench;
        std::vector<Fact> facts{Fact::CombustionEngine};
        if (camera)
            facts.push_back(Fact::ScreenCamera);
        const CarId id = bench.appraised(carWith(facts));
        bench.found(id, "windscreen", Condition::Crack);
        bench.close(id, bench.open(id, "windscreen-fit"));
        QCOMPARE(!bench.open(id, "camera-calibration").isNull(), camera);
    }

    void reopening_voidsTheWholeChain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "brakes-front", Condition::Worn);
        const OperationId pads = bench.open(id, "brake-pads");
        bench.closeAll(id);
        const OperationId test = bench.newest(id, "road-test");
        const OperationId last = bench.newest(id, "final-check");
        QCOMPARE(bench.state(id, last), OperationState::Closed);
        bench.must(bench.checker, id, car::Reopen{pads, "squeals"});
        QCOMPARE(bench.state(id, test), OperationState::Withdrawn);
        QVERIFY(bench.operation(id, last).isOpen());
        QVERIFY(bench.operation(id, last).signatures.front().voided);
    }

    void reopening_onAReleasedCar_holdsItAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId inspection = bench.open(id, "inspection");
        bench.release(id);
        QCOMPARE(bench.status(id), CarStatus::Released);
        bench.must(bench.checker, id, car::Reopen{inspection, "wrong car on the sheet"});
        QCOMPARE(bench.status(id), CarStatus::Held);
        QVERIFY(!bench.car(id).heldAgainWhy.isEmpty());
    }

    void leaving_halfDoneWork_owesItsChecks_data()
    {
        QTest::addColumn<QString>("how");
        QTest::addColumn<bool>("owes");
        QTest::newRow("nobody began") << "untouched" << false;
        QTest::newRow("begun") << "begun" << true;
        QTest::newRow("done outside and refused") << "refused" << true;
        QTest::newRow("done outside, signed, reopened") << "reopened" << true;
    }

    void leaving_halfDoneWork_owesItsChecks()
    {
        QFETCH(QString, how);
        QFETCH(bool, owes);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        if (how == "begun") {
            bench.start(id, op, bench.wheels);
            bench.must(bench.wheels, id, car::PauseWork{op, {}, StopKind::Paused});
        } else if (how != "untouched") {
            bench.must(bench.wheels, id,
                       car::SendOut{op, {"Cove Wheels", QDate(2031, 3, 19), 0, {}, false, {}}});
            bench.must(bench.wheels, id, car::ReceiveBack{op, {}});
            if (how == "reopened") {
                bench.prove(id, op, bench.wheels);
                bench.must(bench.wheels, id, car::SignOff{op, {}});
                bench.must(bench.checker, id, car::Reopen{op, "two-tone, not silver"});
            } else {
                bench.must(bench.checker, id, car::FailCheck{op, "two-tone, not silver", {}});
            }
        }
        bench.must(bench.manager, id, car::LeaveAsIs{op, "one wheel marked"});
        QCOMPARE(!bench.open(id, "wheel-true-check").isNull(), owes);
    }

    void withdrawing_begunWork_owesItsChecks()
    {
        Workbench bench;
        // Work that keeps the car as it stands would stay open.
        bench.spec("tyre-fit").immobilises = {};
        const CarId id = bench.appraised();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.start(id, fit, bench.wheels);
        bench.must(bench.checker, id,
                   car::CorrectFinding{cut, {}, false, "only a mark", bench.photo()});
        QCOMPARE(bench.state(id, fit), OperationState::Withdrawn);
        // The wheel may have been off.
        QVERIFY(!bench.open(id, "wheel-fixing-check").isNull());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestTriggers)
#include "tst_triggers.moc"
