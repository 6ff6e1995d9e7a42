// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// Do not move, do not drive, do not power: derived from open work, and refused accordingly.
class TestRestraints : public QObject
{
    Q_OBJECT

private slots:
    void openWork_thatImmobilises_refusesTheMove_data()
    {
        QTest::addColumn<QString>("place");
        QTest::addColumn<int>("condition");
        QTest::addColumn<QString>("kind");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, const char* place, Condition condition,
                            const char* kind, const char* words) {
            QTest::newRow(name) << QString(place) << int(condition) << QString(kind)
                                << QString(words);
        };
        row("wheels off", "wheel-front-left", Condition::Kerbed, "wheel-refurb", "wheels are off");
        row("brakes apart", "brakes-front", Condition::Worn, "brake-pads", "brakes are apart");
        row("high voltage", "traction-battery", Condition::Broken, "high-voltage-repair",
            "high voltage is isolated");
    }

    void openWork_thatImmobilises_refusesTheMove()
    {
        QFETCH(QString, place);
        QFETCH(int, condition);
        QFETCH(QString, kind);
        QFETCH(QString, words);
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        bench.found(id, qPrintable(place), Condition(condition));
        // Not begun: nothing is apart yet.
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        const OperationId op = bench.open(id, qPrintable(kind));
        const PersonId who = bench.whoFor(bench.operation(id, op));
        bench.start(id, op, who);
        for (const car::MoveCar& move :
             {car::MoveCar{bench.paintBay, {}}, car::MoveCar{{}, "yard"}}) {
            QCOMPARE(bench.ask(bench.manager, id, move), no(RefusalId::DoNotMove));
            QVERIFY2(bench.lastWords().contains(words), qPrintable(bench.lastWords()));
        }
        // A pause puts no wheel back on; nor can it leave like this.
        bench.must(who, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.paintBay, {}}),
                 no(RefusalId::DoNotMove));
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveUnreleased{LeavingHow::Trade, "sold on"}),
                 no(RefusalId::DoNotMove));
        bench.close(id, op);
        bench.must(bench.manager, id, car::MoveCar{bench.paintBay, {}});
    }

    void carAtAFirm_mayBeMoved_aPartAloneThereLeavesItApart_data()
    {
        QTest::addColumn<int>("keys");
        QTest::addColumn<bool>("begun");
        QTest::addColumn<QString>("expected");
        QTest::newRow("the car went, its keys with it") << 1 << false << done;
        QTest::newRow("only the wheels went") << 0 << false << no(RefusalId::DoNotMove);
        QTest::newRow("it was begun here before") << 1 << true << no(RefusalId::DoNotMove);
    }

    void carAtAFirm_mayBeMoved_aPartAloneThereLeavesItApart()
    {
        QFETCH(int, keys);
        QFETCH(bool, begun);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        if (begun) {
            bench.start(id, op, bench.wheels);
            bench.must(bench.wheels, id, car::PauseWork{op, {}, StopKind::Paused});
        }
        bench.must(bench.wheels, id,
                   car::SendOut{op, {"Cove Wheels", QDate(2031, 3, 19), keys, {}, false, {}}});
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{{}, "with Cove Wheels"}), expected);
        // Back again: it stands as it went.
        bench.must(bench.wheels, id, car::ReceiveBack{op, "D 7", keys});
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.paintBay, {}}), expected);
        // Not right: it still stands as it came, and is driven by nobody before it is.
        bench.must(bench.manager, id, car::FailCheck{op, "one was forgotten", {}});
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{{}, "yard"}), expected);
        const std::vector<RestraintReason> reasons = restraints(bench.car(id), bench.clock.now());
        QVERIFY(std::ranges::find(reasons, Restraint::Drive, &RestraintReason::what) !=
                reasons.end());
        // One of ours begins: now the wheels may be off.
        bench.start(id, op, bench.wheels);
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{{}, "street"}),
                 no(RefusalId::DoNotMove));
        QCOMPARE(bench.broken(id), QStringList());
    }

    void car_thatOtherWorkKeeps_isNotSentToAFirm_aPartOfItIs_data()
    {
        QTest::addColumn<QString>("other");
        QTest::addColumn<int>("keys");
        QTest::addColumn<QString>("expected");
        QTest::newRow("wheels off") << "wheel-refurb" << 1 << no(RefusalId::DoNotMove);
        QTest::newRow("wheels off, only a part goes") << "wheel-refurb" << 0 << done;
        QTest::newRow("its own work begun") << "touch-in" << 1 << done;
        QTest::newRow("fixings not checked")
            << "wheel-fixing-check" << 1 << no(RefusalId::DoNotDrive);
        QTest::newRow("adhesive cures") << "windscreen-fit" << 2 << no(RefusalId::DoNotMove);
        QTest::newRow("powered down") << "steering-part" << 1 << no(RefusalId::DoNotPower);
    }

    void car_thatOtherWorkKeeps_isNotSentToAFirm_aPartOfItIs()
    {
        QFETCH(QString, other);
        QFETCH(int, keys);
        QFETCH(QString, expected);
        Workbench bench;
        bench.spec("steering-part").immobilises = {
            {{Restraint::Power}, RestraintFrom::Started, "belts are powered down"}};
        bench.spec("touch-in").immobilises = {
            {{Restraint::Move}, RestraintFrom::Started, "the bumper is off"}};
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Scratch);
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.found(id, "steering", Condition::Loose);
        bench.found(id, "windscreen", Condition::Crack);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        if (other == "wheel-fixing-check")
            bench.close(id, bench.open(id, "tyre-fit"));
        else if (other == "windscreen-fit")
            bench.close(id, bench.open(id, "windscreen-fit"));
        else
            bench.start(id, bench.open(id, qPrintable(other)),
                        bench.whoFor(bench.operation(id, bench.open(id, qPrintable(other)))));
        const OperationId op = bench.open(id, "touch-in");
        QCOMPARE(
            bench.ask(bench.manager, id,
                      car::SendOut{op, {"Cove Paint", QDate(2031, 3, 19), keys, {}, false, {}}}),
            expected);
        QCOMPARE(bench.state(id, op) == OperationState::Blocked, expected == done);
    }

    void workBegun_thatKeepsTheCar_isNotWithdrawnByACorrection_data()
    {
        QTest::addColumn<QString>("corrected");
        QTest::newRow("what was found") << "finding";
        QTest::newRow("what was read") << "reading";
        QTest::newRow("the figure that it was read against") << "figure";
        QTest::newRow("what the car has") << "facts";
    }

    void workBegun_thatKeepsTheCar_isNotWithdrawnByACorrection()
    {
        QFETCH(QString, corrected);
        Workbench bench;
        // Nothing that closing it opens would keep the car.
        bench.spec("brake-pads").triggers = {};
        bench.catalogue.rules.push_back(bench.catalogue.rules.at(1));
        bench.catalogue.rules.back().id = "worn-electric";
        bench.catalogue.rules.back().placeKinds = {PlaceKind::Steering};
        bench.catalogue.rules.back().conditions = {Condition::Noise};
        bench.catalogue.rules.back().opens = QStringList{"brake-pads"};
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        const OperationId inspection = bench.open(id, "inspection");
        FindingId found;
        if (corrected == "finding") {
            found = bench.found(id, "brakes-front", Condition::Worn);
        } else if (corrected == "facts") {
            found = bench.found(id, "steering", Condition::Noise);
        } else {
            bench.start(id, inspection, bench.mechanic);
            if (corrected == "figure") {
                bench.must(
                    bench.manager, id,
                    car::SetFigure{inspection, "disc", at("brakes-front"), 2250, "data book"});
                bench.must(bench.mechanic, id,
                           car::TakeReading{inspection, "disc", at("brakes-front"), number(230)});
            } else {
                bench.must(bench.mechanic, id,
                           car::TakeReading{inspection, "lining", at("brakes-front"), number(9)});
            }
            bench.must(bench.mechanic, id, car::PauseWork{inspection, {}, StopKind::Paused});
        }
        const OperationId pads = bench.open(id, "brake-pads");
        bench.start(id, pads, bench.technician);
        if (corrected == "finding")
            bench.must(bench.checker, id,
                       car::CorrectFinding{found, {}, false, "only dirt", bench.photo()});
        else if (corrected == "facts")
            bench.must(bench.checker, id,
                       car::CorrectFacts{carWith({Fact::CombustionEngine}), "a petrol car",
                                         bench.photo()});
        else if (corrected == "figure")
            bench.must(bench.checker, id,
                       car::CorrectFigure{inspection, "disc", at("brakes-front"), 225, "data book",
                                          "a nought too many", bench.photo()});
        else
            bench.must(bench.checker, id,
                       car::CorrectReading{inspection,
                                           bench.operation(id, inspection).readings.front().id,
                                           number(90), "a digit too few", bench.photo()});
        // Whoever is on it goes on, and it holds the car until it is put together and signed.
        const Operation kept = bench.operation(id, pads);
        QCOMPARE(kept.state, OperationState::InHand);
        QVERIFY(kept.findings.empty() && kept.fromReadings.empty());
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.lift, {}}),
                 no(RefusalId::DoNotMove));
        bench.close(id, pads, bench.technician);
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
    }

    void wheelsBackOn_notChecked_isNotDriven()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.must(bench.mechanic, id, car::OpenOperation{"road-test", at("car"), "noise"});
        bench.close(id, bench.open(id, "inspection"));
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId test = bench.open(id, "road-test");
        QCOMPARE(bench.ask(bench.mechanic, id, car::StartWork{test}), no(RefusalId::DoNotDrive));
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        bench.close(id, bench.open(id, "wheel-fixing-check"));
        bench.close(id, test);
    }

    void adhesive_curing_endsByItself()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::ScreenCamera}));
        bench.found(id, "windscreen", Condition::Crack);
        bench.close(id, bench.open(id, "windscreen-fit"));
        const OperationId calibration = bench.open(id, "camera-calibration");
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.lift, {}}),
                 no(RefusalId::DoNotMove));
        QCOMPARE(bench.ask(bench.glazier, id, car::StartWork{calibration}),
                 no(RefusalId::DoNotDrive));
        bench.clock.pass(29);
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.lift, {}}),
                 no(RefusalId::DoNotMove));
        bench.clock.pass(1);
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        bench.must(bench.glazier, id, car::StartWork{calibration});
    }

    void isolation_keepsThePowerOff()
    {
        Workbench bench;
        const CarId id = isolated(bench);
        QCOMPARE(bench.ask(bench.technician, id, car::StartWork{bench.open(id, "battery-check")}),
                 no(RefusalId::DoNotPower));
        QVERIFY(std::ranges::any_of(
            restraints(bench.car(id), bench.clock.now()),
            [](const RestraintReason& reason) { return reason.what == Restraint::Power; }));
    }

    void isolation_isLiftedByWhoSetIt_orByTheProcedure_data()
    {
        QTest::addColumn<QString>("who");
        QTest::addColumn<QString>("procedure");
        QTest::addColumn<QString>("expected");
        QTest::newRow("who set it") << "mechanic"
                                    << "" << done;
        QTest::newRow("qualified, in writing") << "technician"
                                               << "called him, proved dead" << done;
        QTest::newRow("qualified, nothing written") << "technician"
                                                    << "  " << no(RefusalId::IsolatedBySomebody);
        QTest::newRow("no right beyond the work") << "other"
                                                  << "I know how" << no(RefusalId::NotAllowed);
        QTest::newRow("manager without the skill") << "manager"
                                                   << "I am the boss" << no(RefusalId::WrongSkill);
    }

    void isolation_isLiftedByWhoSetIt_orByTheProcedure()
    {
        QFETCH(QString, who);
        QFETCH(QString, procedure);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = isolated(bench);
        const PersonId other = bench.hire("Odo", {Skill::Mechanical}, {Right::Work});
        const PersonId person = who == "mechanic"     ? bench.mechanic
                                : who == "technician" ? bench.technician
                                : who == "other"      ? other
                                                      : bench.manager;
        QCOMPARE(bench.ask(person, id, car::LiftIsolation{{}, procedure}), expected);
        QCOMPARE(bench.car(id).isolation.has_value(), expected != done);
    }

    void isolation_isPartOfTheWork()
    {
        Workbench bench;
        const CarId id = isolated(bench);
        const OperationId op = bench.open(id, "high-voltage-repair");
        bench.prove(id, op, bench.mechanic);
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
        QVERIFY(bench.lastWords().contains("isolation lifted"));
        bench.must(bench.mechanic, id, car::LiftIsolation{op, {}});
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        // Done again is isolated again.
        bench.must(bench.checker, id, car::Reopen{op, "plug loose"});
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.must(bench.mechanic, id, car::TakeReading{op, "proved", {}, number(0)});
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
        QVERIFY(bench.lastWords().contains("isolated"));
    }

    void isolation_ofWithdrawnWork_holdsUntilItIsLifted()
    {
        Workbench bench;
        // In a house whose catalogue says nothing of what the work keeps the car from.
        bench.spec("high-voltage-repair").immobilises = {};
        const CarId id = isolated(bench);
        const FindingId broken = bench.car(id).findings.begin()->first;
        bench.must(bench.checker, id,
                   car::CorrectFinding{broken, {}, false, "only dirt", bench.photo()});
        QVERIFY(bench.open(id, "high-voltage-repair").isNull());
        QVERIFY(std::ranges::any_of(
            bench.holds(id), [](const Hold& hold) { return hold.kind == HoldKind::Isolated; }));
        bench.must(bench.mechanic, id, car::LiftIsolation{{}, {}});
        QVERIFY(!bench.car(id).isolation);
    }

private:
    static CarId isolated(Workbench& bench)
    {
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        bench.found(id, "traction-battery", Condition::Broken);
        const OperationId op = bench.open(id, "high-voltage-repair");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SetIsolation{op, "key safe"});
        return id;
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRestraints)
#include "tst_restraints.moc"
