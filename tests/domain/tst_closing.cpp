// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/words.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A safety operation closes only with its readings, photos and signatures.
class TestClosing : public QObject
{
    Q_OBJECT

private slots:
    void signOff_withoutEvidence_namesAllThatIsMissing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId inspection = bench.open(id, "inspection");
        bench.start(id, inspection, bench.mechanic);
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{inspection, {}}),
                 no(RefusalId::EvidenceOpen));
        for (const char* part : {"lining", "disc", "play", "photo"})
            QVERIFY2(bench.lastWords().contains(part), part);
        QVERIFY(!bench.lastWords().contains("note"));
    }

    void signOff_onePieceMissing_isRefused_data()
    {
        QTest::addColumn<QString>("without");
        QTest::newRow("a photo") << "photo";
        QTest::newRow("a reading at one of two places") << "lining";
        QTest::newRow("an answer") << "play";
    }

    void signOff_onePieceMissing_isRefused()
    {
        QFETCH(QString, without);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.checker, id,
                   car::SetFigure{op, "disc", at("brakes-front"), 220, "data book"});
        const auto take = [&](const char* key, const char* place, const ReadingValue& value) {
            if (without != QLatin1StringView(key) || at(place) == at("brakes-rear"))
                bench.must(bench.mechanic, id, car::TakeReading{op, key, at(place), value});
        };
        take("lining", "brakes-front", number(55));
        take("lining", "brakes-rear", number(48));
        take("disc", "brakes-front", number(240));
        take("play", "steering", answer("sound"));
        if (without != "photo")
            bench.must(bench.mechanic, id,
                       car::AttachPhoto{bench.photo(), PhotoMoment::During, {}, op, {}});
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
        QCOMPARE(bench.lastRefusal().details.size(), 1);
        QVERIFY(bench.lastWords().contains(without));
        QVERIFY(bench.operation(id, op).isOpen());
    }

    void signOff_complete_closesWithNameMinutesAndMeaning()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.close(id, op);
        const Operation closed = bench.operation(id, op);
        QCOMPARE(closed.state, OperationState::Closed);
        QCOMPARE(closed.signatures.size(), 1u);
        QCOMPARE(closed.signatures.front().by, bench.mechanic);
        QCOMPARE(closed.signatures.front().minutes, 10);
        QCOMPARE(closed.signatures.front().meaning, SignatureMeaning::DidTheWork);
        QVERIFY(!closed.isRunning());
    }

    void photo_ofThePast_countsOnlyBeforeTheWork()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId kerbed = bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.must(bench.appraiser, id,
                   car::AttachPhoto{bench.photo(), PhotoMoment::Before, {}, {}, kerbed});
        const OperationId op = bench.open(id, "wheel-refurb");
        bench.start(id, op, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{op, "metal", {}, answer("whole")});
        QCOMPARE(bench.ask(bench.wheels, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
        // The finding's photo is the one before; the one after is missing.
        QCOMPARE(bench.lastRefusal().details.size(), 1);
        bench.must(bench.wheels, id,
                   car::AttachPhoto{bench.photo(), PhotoMoment::After, {}, op, {}});
        bench.must(bench.wheels, id, car::SignOff{op, {}});
        // Sent back: the photo shows the work that was not good enough.
        bench.clock.pass(5);
        bench.must(bench.checker, id, car::Reopen{op, "runs in the lacquer"});
        bench.must(bench.wheels, id, car::StartWork{op});
        bench.must(bench.wheels, id, car::TakeReading{op, "metal", {}, answer("whole")});
        QCOMPARE(bench.ask(bench.wheels, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
    }

    // ---- against a limit

    void limit_reading_isJudgedByTheStrictestOwner_data()
    {
        QTest::addColumn<int>("tenths");
        QTest::addColumn<int>("outcome");
        QTest::newRow("below the annual test") << 14 << int(ReadingOutcome::Outside);
        QTest::newRow("between test and house") << 29 << int(ReadingOutcome::Outside);
        QTest::newRow("at the house's") << 30 << int(ReadingOutcome::Inside);
        QTest::newRow("above") << 80 << int(ReadingOutcome::Inside);
    }

    void limit_reading_isJudgedByTheStrictestOwner()
    {
        QFETCH(int, tenths);
        QFETCH(int, outcome);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "lining", at("brakes-rear"), number(tenths)});
        const Operation now = bench.operation(id, op);
        const Reading* reading = now.reading("lining", at("brakes-rear"));
        QVERIFY(reading != nullptr);
        QCOMPARE(int(reading->outcome), outcome);
        QCOMPARE(reading->limits.size(), 2u);
        QCOMPARE(reading->limits.back().owner, LimitOwner::AnnualTest);
        QCOMPARE(bench.open(id, "brake-pads", "brakes-rear").isNull(),
                 outcome == int(ReadingOutcome::Inside));
    }

    void limit_outside_keepsItOpenUntilFollowUpAndMeasuredAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "lining", at("brakes-rear"), number(20)});
        const OperationId pads = bench.open(id, "brake-pads");
        QCOMPARE(bench.operation(id, pads).fromReadings.size(), 1u);
        // Not by measuring until it fits.
        QCOMPARE(bench.ask(bench.mechanic, id,
                           car::TakeReading{op, "lining", at("brakes-rear"), number(50)}),
                 no(RefusalId::NotYet));
        bench.must(bench.mechanic, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.close(id, pads);
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "lining", at("brakes-front"), number(50)});
        bench.must(bench.checker, id,
                   car::SetFigure{op, "disc", at("brakes-front"), 220, "data book"});
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "disc", at("brakes-front"), number(230)});
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "play", at("steering"), answer("sound")});
        bench.must(bench.mechanic, id,
                   car::AttachPhoto{bench.photo(), PhotoMoment::During, {}, op, {}});
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{op, {}}),
                 no(RefusalId::ReadingOutside));
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "lining", at("brakes-rear"), number(110)});
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        // The first measurement stays on record.
        const Operation closed = bench.operation(id, op);
        QCOMPARE(closed.readings.front().value, number(20));
        QVERIFY(closed.readings.front().superseded);
    }

    void limit_ofTheCarNotEntered_isARefusalNotAGuess()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        const car::TakeReading disc{op, "disc", at("brakes-front"), number(400)};
        QCOMPARE(bench.ask(bench.mechanic, id, disc), no(RefusalId::LimitMissing));
        bench.must(bench.manager, id,
                   car::SetFigure{op, "disc", at("brakes-front"), 410, "data book"});
        bench.must(bench.mechanic, id, disc);
        const Operation now = bench.operation(id, op);
        const Reading& reading = *now.reading("disc", at("brakes-front"));
        QCOMPARE(reading.outcome, ReadingOutcome::Outside);
        QCOMPARE(reading.limits.front().owner, LimitOwner::VehicleData);
        QCOMPARE(reading.limits.front().source, QStringLiteral("data book"));
    }

    void limit_ofTheCar_isNotEnteredByWhoSignsAgainstIt()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.technician);
        bench.must(bench.technician, id,
                   car::SetFigure{op, "disc", at("brakes-front"), 1, "data book"});
        bench.prove(id, op, bench.mechanic);
        QCOMPARE(bench.ask(bench.technician, id, car::SignOff{op, {}}),
                 no(RefusalId::FigureBySigner));
    }

    void figure_entered_needsRightValueAndSource_data()
    {
        QTest::addColumn<int>("value");
        QTest::addColumn<QString>("source");
        QTest::addColumn<bool>("entitled");
        QTest::addColumn<QString>("expected");
        QTest::newRow("entitled, complete") << 120 << "data book" << true << done;
        QTest::newRow("not entitled") << 120 << "data book" << false << no(RefusalId::NotAllowed);
        QTest::newRow("nought") << 0 << "data book" << true << no(RefusalId::ValueOutOfRange);
        QTest::newRow("below nought")
            << -5 << "data book" << true << no(RefusalId::ValueOutOfRange);
        QTest::newRow("no source") << 120 << "  " << true << no(RefusalId::FieldMissing);
    }

    void figure_entered_needsRightValueAndSource()
    {
        QFETCH(int, value);
        QFETCH(QString, source);
        QFETCH(bool, entitled);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        QCOMPARE(bench.ask(entitled ? bench.technician : bench.mechanic, id,
                           car::SetFigure{op, "disc", at("brakes-front"), value, source}),
                 expected);
    }

    // ---- to a figure of the car

    void figure_reading_equalsTheCarsOrIsRefused_data()
    {
        QTest::addColumn<int>("value");
        QTest::addColumn<QString>("expected");
        QTest::newRow("the figure") << 120 << done;
        QTest::newRow("one below") << 119 << no(RefusalId::FigureDiffers);
        QTest::newRow("one above") << 121 << no(RefusalId::FigureDiffers);
    }

    void figure_reading_equalsTheCarsOrIsRefused()
    {
        QFETCH(int, value);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = fixingCheck(bench, id);
        bench.start(id, op, bench.checker);
        bench.must(bench.manager, id, car::SetFigure{op, "torque", {}, 120, "data book"});
        QCOMPARE(bench.ask(bench.checker, id, car::TakeReading{op, "torque", {}, number(value)}),
                 expected);
    }

    void figure_enteredByTheSigner_isRefused()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = fixingCheck(bench, id);
        bench.start(id, op, bench.checker);
        bench.must(bench.checker, id, car::SetFigure{op, "torque", {}, 120, "data book"});
        QCOMPARE(bench.ask(bench.checker, id, car::TakeReading{op, "torque", {}, number(120)}),
                 no(RefusalId::FigureBySigner));
        // Nor does it help to let somebody else type the reading.
        bench.must(bench.technician, id, car::TakeReading{op, "torque", {}, number(120)});
        bench.must(bench.technician, id, car::TakeReading{op, "wrench", {}, answer("W3")});
        QCOMPARE(bench.ask(bench.checker, id, car::SignOff{op, {}}), no(RefusalId::FigureBySigner));
    }

    // ---- answers, records, words

    void reading_value_mustBeOneThatItCanHave_data()
    {
        QTest::addColumn<QString>("key");
        QTest::addColumn<QString>("place");
        QTest::addColumn<bool>("isNumber");
        QTest::addColumn<int>("value");
        QTest::addColumn<QString>("text");
        const auto row = [](const char* name, const char* key, const char* place, bool isNumber,
                            int value, const QString& text) {
            QTest::newRow(name) << QString(key) << QString(place) << isNumber << value << text;
        };
        row("limit: words", "lining", "brakes-rear", false, 0, "thick");
        row("limit: nothing", "lining", "brakes-rear", false, 0, "");
        row("limit: both", "lining", "brakes-rear", true, 40, "thick");
        row("limit: below nought", "lining", "brakes-rear", true, -1, "");
        row("limit: beyond all measure", "lining", "brakes-rear", true, 10'000'001, "");
        row("choice: another answer", "play", "steering", false, 0, "perhaps");
        row("choice: a number", "play", "steering", true, 1, "");
        row("text: nothing", "note", "", false, 0, "   ");
        row("text: a number", "note", "", true, 1, "");
        row("text: a book", "note", "", false, 0, QString(201, QLatin1Char('x')));
    }

    void reading_value_mustBeOneThatItCanHave()
    {
        QFETCH(QString, key);
        QFETCH(QString, place);
        QFETCH(bool, isNumber);
        QFETCH(int, value);
        QFETCH(QString, text);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        const ReadingValue typed{isNumber ? std::optional(value) : std::nullopt, text};
        QCOMPARE(bench.ask(bench.mechanic, id, car::TakeReading{op, key, PlaceId{place}, typed}),
                 no(RefusalId::ReadingMalformed));
    }

    void choice_thatForbidsClosing_keepsItOpenAndOpensItsFollowUp()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "play", at("steering"), answer("unsafe")});
        QVERIFY(!bench.open(id, "steering-part", "steering").isNull());
    }

    void choice_thatForbidsClosing_isNamedAtSignOff()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "arrival-check");
        bench.start(id, op, bench.appraiser);
        bench.must(bench.appraiser, id, car::TakeReading{op, "papers", {}, answer("differ")});
        QCOMPARE(bench.ask(bench.appraiser, id, car::SignOff{op, {}}),
                 no(RefusalId::AnswerForbidsClosing));
        QVERIFY(bench.lastWords().contains("differ"));
    }

    void reading_afterTheSignature_isRefusedWhileASecondOneIsAwaited_data()
    {
        QTest::addColumn<bool>("outside");
        QTest::newRow("done in the house") << false;
        QTest::newRow("back from an outside firm") << true;
    }

    void reading_afterTheSignature_isRefusedWhileASecondOneIsAwaited()
    {
        QFETCH(bool, outside);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        if (outside) {
            bench.must(bench.mechanic, id,
                       car::SendOut{op, {"Cove Steering", QDate(2031, 3, 19), 1, "D1", false, {}}});
            bench.must(bench.mechanic, id, car::ReceiveBack{op, "D1", 1});
        } else {
            bench.start(id, op, bench.mechanic);
        }
        const car::TakeReading part{op, "part", {}, answer("rod 5")};
        bench.must(bench.mechanic, id, part);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        QCOMPARE(bench.state(id, op), OperationState::AwaitingCheck);
        QCOMPARE(bench.ask(bench.mechanic, id, part), no(RefusalId::OperationNotOpen));
    }

    void waitingTime_fromAReading_beginsWithTheSignature()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId op = bench.open(id, "windscreen-fit");
        bench.start(id, op, bench.glazier);
        bench.must(bench.glazier, id, car::TakeReading{op, "cure", {}, number(90)});
        bench.must(bench.glazier, id, car::SignOff{op, {}});
        QCOMPARE(bench.operation(id, op).waitUntil, bench.clock.now().plusMinutes(90));
    }

private:
    /// A tyre was fitted; its check is owed.
    static OperationId fixingCheck(Workbench& bench, const CarId& id)
    {
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"));
        return bench.open(id, "wheel-fixing-check");
    }

    void reading_withAToolOfTheHouse_keepsItAsItWas()
    {
        Workbench bench;
        bench.spec("tyre-survey").readings.front().tool = ToolKind::TreadGauge;
        const ToolId gauge = bench.tool("G 4", ToolKind::TreadGauge, bench.today());
        const ToolId old = bench.tool("G 1", ToolKind::TreadGauge, bench.today().addDays(-1));
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.start(id, op, bench.wheels);
        const auto take = [&](ToolId tool) {
            return bench.ask(
                bench.wheels, id,
                car::TakeReading{op, "tread", at("tyre-front-left"), number(60), tool});
        };
        QCOMPARE(take({}), no(RefusalId::ToolNeeded));
        QCOMPARE(take(old), no(RefusalId::ToolOverdue));
        QVERIFY2(bench.lastWords().contains("G 1"), qPrintable(bench.lastWords()));
        QVERIFY2(bench.lastWords().contains(dayWords(bench.today().addDays(-1))),
                 qPrintable(bench.lastWords()));
        QCOMPARE(take(gauge), done);
        // Engraved anew and calibrated later: the reading says what it was taken with.
        bench.ask(bench.manager, site::SetTool{{gauge, "G 44", ToolKind::TreadGauge,
                                                bench.today().addDays(400), true}});
        const Reading kept = bench.operation(id, op).readings.front();
        QCOMPARE(kept.tool, (ToolUsed{gauge, "G 4", bench.today()}));
    }

    void reading_inAHouseWithoutSuchATool_saysThatNoneWasEntered()
    {
        Workbench bench;
        bench.spec("tyre-survey").readings.front().tool = ToolKind::TreadGauge;
        const ToolId wrench = bench.tool("T 7", ToolKind::TorqueWrench, bench.today());
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.start(id, op, bench.wheels);
        QCOMPARE(
            bench.ask(bench.wheels, id,
                      car::TakeReading{op, "tread", at("tyre-front-left"), number(60), wrench}),
            no(RefusalId::ToolUnknown));
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-front-left"), number(60)});
        QVERIFY(!bench.operation(id, op).readings.front().tool.isEntered());
        // A tool that left the house asks for nothing either.
        const ToolId gauge = bench.tool("G 4", ToolKind::TreadGauge, bench.today());
        bench.ask(bench.manager,
                  site::SetTool{{gauge, "G 4", ToolKind::TreadGauge, bench.today(), false}});
        QCOMPARE(bench.ask(bench.wheels, id,
                           car::TakeReading{op, "tread", at("tyre-rear-left"), number(60), gauge}),
                 no(RefusalId::ToolUnknown));
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-rear-left"), number(60)});
    }

    void correctedReading_keepsItsToolOrNamesAnother()
    {
        Workbench bench;
        bench.spec("tyre-survey").readings.front().tool = ToolKind::TreadGauge;
        const ToolId gauge = bench.tool("G 4", ToolKind::TreadGauge, bench.today());
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.start(id, op, bench.wheels);
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-front-left"), number(60), gauge});
        // By tomorrow it is overdue; the slip of the finger was made with it in date.
        bench.clock.pass(24 * 60);
        const auto correct = [&](ToolId tool) {
            const Operation now = bench.operation(id, op);
            return bench.ask(bench.checker, id,
                             car::CorrectReading{op, now.readings.back().id, number(61), "misread",
                                                 bench.photo(), tool});
        };
        QCOMPARE(correct(gauge), no(RefusalId::ToolOverdue));
        QCOMPARE(correct({}), done);
        QCOMPARE(bench.operation(id, op).readings.back().tool.number, QStringLiteral("G 4"));
        const ToolId other = bench.tool("G 5", ToolKind::TreadGauge, bench.today());
        QCOMPARE(correct(other), done);
        QCOMPARE(bench.operation(id, op).readings.back().tool.number, QStringLiteral("G 5"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestClosing)
#include "tst_closing.moc"
