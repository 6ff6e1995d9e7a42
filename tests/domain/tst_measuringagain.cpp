// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What was read stands. It is measured again after the work that it calls for; a slip is put right
// by who made it; whatever else was wrong is corrected.
class TestMeasuringAgain : public QObject
{
    Q_OBJECT

private slots:
    void reading_insideItsLimit_isTakenAnewByWhoTookIt()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = begin(bench, id, "inspection", bench.mechanic);
        const auto lining = [&](int tenths) {
            return car::TakeReading{op, "lining", at("brakes-front"), number(tenths)};
        };
        bench.must(bench.mechanic, id, lining(44));
        bench.must(bench.mechanic, id, lining(45));
        const std::vector<Reading> readings = bench.operation(id, op).readings;
        QCOMPARE(readings.size(), 2u);
        QCOMPARE(readings.front().value, number(44));
        QVERIFY(readings.front().superseded);
        // Also to a value that holds the car.
        bench.must(bench.mechanic, id, lining(20));
        QVERIFY(!bench.open(id, "brake-pads", "brakes-front").isNull());
    }

    void reading_ofSomebodyElse_stands_untilTheWorkGoesOn()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = begin(bench, id, "inspection", bench.mechanic);
        const car::TakeReading lining{op, "lining", at("brakes-front"), number(44)};
        bench.must(bench.mechanic, id, lining);
        QCOMPARE(bench.ask(bench.technician, id, lining), no(RefusalId::ReadingStands));
        for (const char* part : {"4.4 mm", "somebody else read it", "a photo"})
            QVERIFY2(bench.lastWords().contains(QLatin1StringView(part)),
                     qPrintable(bench.lastWords()));
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.start(id, op, bench.technician);
        bench.must(bench.technician, id, lining);
        QCOMPARE(bench.operation(id, op).readings.front().by, bench.mechanic);
    }

    // Somebody who measures until it fits: a limit, and an answer, of safety work that opens
    // nothing.
    void reading_thatHoldsTheCar_stands_untilItsWorkIsDoneAgain_data()
    {
        QTest::addColumn<QString>("kind");
        QTest::addColumn<QString>("key");
        QTest::newRow("a limit") << "high-voltage-repair"
                                 << "proved";
        QTest::newRow("an answer") << "road-test"
                                   << "result";
    }

    void reading_thatHoldsTheCar_stands_untilItsWorkIsDoneAgain()
    {
        QFETCH(QString, kind);
        QFETCH(QString, key);
        const bool limit = key == "proved";
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        if (limit) {
            bench.found(id, "traction-battery", Condition::Broken);
        } else {
            bench.close(id, bench.open(id, "inspection"));
            bench.must(bench.manager, id, car::OpenOperation{kind, at("car"), "noise"});
        }
        const OperationId op = begin(bench, id, qPrintable(kind), bench.mechanic);
        const car::TakeReading bad{op, key, {}, limit ? number(2) : answer("poor")};
        const car::TakeReading good{op, key, {}, limit ? number(0) : answer("good")};
        bench.must(bench.mechanic, id, bad);
        for (const car::TakeReading& again : {good, bad}) {
            QCOMPARE(bench.ask(bench.mechanic, id, again), no(RefusalId::ReadingStands));
            QVERIFY2(bench.lastWords().contains("pause, put it right, go on with it") &&
                         bench.lastWords().contains("somebody else than who read it corrects it"),
                     qPrintable(bench.lastWords()));
        }
        // Corrected it is by a second person, with a photo, and the first stays.
        const ReadingId first = bench.operation(id, op).readings.front().id;
        QCOMPARE(bench.ask(bench.mechanic, id,
                           car::CorrectReading{op, first, good.value, "a slip", bench.photo()}),
                 no(RefusalId::SecondPersonNeeded));
        // Measured again it is after the work was begun again.
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.ask(bench.mechanic, id, good), no(RefusalId::ReadingStands));
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.must(bench.mechanic, id, good);
        QCOMPARE(bench.operation(id, op).readings.size(), 2u);
        QVERIFY(bench.operation(id, op).readings.front().superseded);
        QCOMPARE(bench.operation(id, op).readings.front().value, bad.value);
    }

    void reading_thatHoldsTheCar_isCorrectedByASecondPerson()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        bench.found(id, "traction-battery", Condition::Broken);
        const OperationId op = begin(bench, id, "high-voltage-repair", bench.mechanic);
        bench.must(bench.mechanic, id, car::TakeReading{op, "proved", {}, number(2)});
        const ReadingId first = bench.operation(id, op).readings.front().id;
        bench.must(
            bench.technician, id,
            car::CorrectReading{op, first, number(0), "the leads were swapped", bench.photo()});
        const Reading* now = bench.operation(id, op).reading("proved", {});
        QVERIFY(now != nullptr);
        QCOMPARE(now->outcome, ReadingOutcome::Inside);
        QCOMPARE(now->correction, QStringLiteral("the leads were swapped"));
    }

    void reading_outsideFromAnOutsideFirm_isTakenAnewWhenTheWorkIsBack()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        bench.found(id, "traction-battery", Condition::Broken);
        const OperationId op = begin(bench, id, "high-voltage-repair", bench.mechanic);
        bench.must(bench.mechanic, id, car::TakeReading{op, "proved", {}, number(2)});
        bench.must(bench.mechanic, id,
                   car::SendOut{op, {"Cove Works", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.mechanic, id, car::ReceiveBack{op, "note 7", 1});
        bench.must(bench.mechanic, id, car::TakeReading{op, "proved", {}, number(1)});
        QCOMPARE(bench.ask(bench.mechanic, id, car::TakeReading{op, "proved", {}, number(0)}),
                 no(RefusalId::ReadingStands));
        QVERIFY2(bench.lastWords().contains("let the check fail"), qPrintable(bench.lastWords()));
        bench.must(bench.technician, id, car::FailCheck{op, "still live", {}});
        QVERIFY(bench.operation(id, op).reading("proved", {}) == nullptr);
    }

    void reading_whoseFollowUpIsDone_isMeasuredAgainByAnybodyWhoMay()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = begin(bench, id, "inspection", bench.mechanic);
        const auto lining = [&](int tenths) {
            return car::TakeReading{op, "lining", at("brakes-rear"), number(tenths)};
        };
        bench.must(bench.mechanic, id, lining(20));
        // A new start of the inspection does not replace the pads.
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.start(id, op, bench.technician);
        QCOMPARE(bench.ask(bench.technician, id, lining(50)), no(RefusalId::NotYet));
        QVERIFY2(bench.lastWords().contains("brake pads"), qPrintable(bench.lastWords()));
        bench.must(bench.technician, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.close(id, bench.open(id, "brake-pads"));
        bench.must(bench.technician, id, lining(110));
        QCOMPARE(bench.operation(id, op).reading("lining", at("brakes-rear"))->by,
                 bench.technician);
    }

    void reading_whoseFollowUpWasLeftAsItIs_standsWhereSafetyHangsOnIt()
    {
        Workbench bench;
        // Worn linings that open something cosmetic: the manager leaves that as it is.
        bench.spec("inspection").readings.front().opens = QStringLiteral("touch-in");
        const CarId id = bench.appraised();
        const OperationId op = begin(bench, id, "inspection", bench.mechanic);
        const auto lining = [&](int tenths) {
            return car::TakeReading{op, "lining", at("brakes-rear"), number(tenths)};
        };
        bench.must(bench.mechanic, id, lining(20));
        bench.must(bench.manager, id, car::LeaveAsIs{bench.open(id, "touch-in"), "sold so"});
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.must(bench.mechanic, id, car::StartWork{op});
        QCOMPARE(bench.ask(bench.mechanic, id, lining(50)), no(RefusalId::ReadingStands));
        QVERIFY2(bench.lastWords().contains("left as it is"), qPrintable(bench.lastWords()));
    }

    void answer_ofNoSafety_isPutRightByWhoGaveIt_andCorrectedByOthers()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const PersonId other = bench.hire(QStringLiteral("Wyn"), {}, {Right::Appraise});
        const OperationId op = begin(bench, id, "arrival-check", bench.appraiser);
        bench.must(bench.appraiser, id, car::TakeReading{op, "papers", {}, answer("differ")});
        QCOMPARE(bench.ask(other, id, car::TakeReading{op, "papers", {}, answer("agree")}),
                 no(RefusalId::ReadingStands));
        QVERIFY2(!bench.lastWords().contains("photo"), qPrintable(bench.lastWords()));
        bench.must(bench.appraiser, id, car::TakeReading{op, "papers", {}, answer("agree")});
        bench.must(bench.appraiser, id, car::SignOff{op, {}});
    }

    void answer_ofACheck_saysThatTheCheckFails()
    {
        Workbench bench;
        bench.spec("wheel-true-check").readings.front().opens.clear();
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.close(id, bench.open(id, "wheel-refurb"));
        bench.clock.pass(60);
        const OperationId check = begin(bench, id, "wheel-true-check", bench.checker);
        bench.must(bench.checker, id, car::TakeReading{check, "run-out", {}, number(25)});
        QCOMPARE(bench.ask(bench.checker, id, car::TakeReading{check, "run-out", {}, number(5)}),
                 no(RefusalId::ReadingStands));
        QVERIFY2(bench.lastWords().contains("let the check fail"), qPrintable(bench.lastWords()));
        bench.must(bench.checker, id, car::FailCheck{check, "runs out", {}});
        QCOMPARE(bench.operation(id, bench.newest(id, "wheel-refurb")).sentBackWhy,
                 QStringLiteral("runs out"));
    }

    void answer_thatAFindingRemedies_saysSo()
    {
        Workbench bench;
        bench.spec("road-test").readings.front().options.back().remediedBy = RemediedBy::Finding;
        const CarId id = bench.appraised();
        bench.close(id, bench.open(id, "inspection"));
        bench.must(bench.manager, id, car::OpenOperation{"road-test", at("car"), "noise"});
        const OperationId op = begin(bench, id, "road-test", bench.mechanic);
        bench.must(bench.mechanic, id, car::TakeReading{op, "result", {}, answer("poor")});
        QCOMPARE(bench.ask(bench.mechanic, id, car::TakeReading{op, "result", {}, answer("good")}),
                 no(RefusalId::ReadingStands));
        QVERIFY2(bench.lastWords().contains("record a finding"), qPrintable(bench.lastWords()));
    }

    void reading_ofReopenedWork_asksForNothingOfTheFirstTime()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.close(id, op);
        bench.must(bench.manager, id, car::Reopen{op, "one was forgotten"});
        const PersonId other = bench.hire(QStringLiteral("Lowri"), {Skill::Wheels}, {Right::Work});
        bench.start(id, op, other);
        bench.must(other, id, car::TakeReading{op, "tread", at("tyre-front-left"), number(60)});
    }

    // What deciding lets through, the check of the ledger does, too.
    void everyWayToMeasureAgain_isNoBreachOfARule()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = begin(bench, id, "inspection", bench.mechanic);
        const auto lining = [&](const char* place, int tenths) {
            return car::TakeReading{op, "lining", at(place), number(tenths)};
        };
        bench.must(bench.mechanic, id, lining("brakes-front", 44));
        bench.must(bench.mechanic, id, lining("brakes-front", 45));
        bench.must(bench.mechanic, id, lining("brakes-rear", 20));
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.close(id, bench.open(id, "brake-pads"));
        bench.start(id, op, bench.technician);
        bench.must(bench.technician, id, lining("brakes-rear", 110));
        bench.must(bench.technician, id, lining("brakes-front", 46));
        QCOMPARE(bench.broken(id), QStringList());
        CarState car;
        car.id = id;
        const std::vector<CarEnvelope> history = bench.ledger.history(id).value();
        for (const CarEnvelope& entry : history)
            apply(car, entry);
        QVERIFY(car == bench.car(id));
    }

private:
    static OperationId begin(Workbench& bench, const CarId& id, const char* kind, PersonId who)
    {
        const OperationId op = bench.open(id, kind);
        bench.start(id, op, who);
        return op;
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestMeasuringAgain)
#include "tst_measuringagain.moc"
