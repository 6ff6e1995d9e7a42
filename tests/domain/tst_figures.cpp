// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A figure of this car that was mistyped: typed over while nobody read against it, corrected with a
// reason and, where safety hangs on it, by somebody else with a photo once somebody did.
class TestFigures : public QObject
{
    Q_OBJECT

private slots:
    void figure_thatNobodyReadAgainst_isTypedOver()
    {
        Workbench bench;
        const Wrong wrong(bench, 22);
        bench.must(bench.manager, wrong.car, wrong.entered(225));
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        const Operation now = wrong.now(bench);
        QCOMPARE(now.figures.size(), 2u);
        QCOMPARE(now.reading("disc", front)->outcome, ReadingOutcome::Inside);
    }

    void figure_thatWasReadAgainst_isNotTypedOver()
    {
        Workbench bench;
        const Wrong wrong(bench, 2250);
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        QCOMPARE(bench.ask(bench.manager, wrong.car, wrong.entered(225)),
                 no(RefusalId::FigureInUse));
        QVERIFY(bench.lastWords().contains(QStringLiteral("correct it")));
    }

    // The reading is outside by a slip, its follow-up cannot be done, and the work never closed.
    void figure_thatHoldsTheCar_isCorrected_andTheWorkCloses()
    {
        Workbench bench;
        const Wrong wrong(bench, 2250);
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        const OperationId pads = bench.open(wrong.car, "brake-pads");
        QVERIFY(!pads.isNull());
        bench.must(bench.checker, wrong.car, wrong.corrected(bench, 225));

        const Operation now = wrong.now(bench);
        // Both stay on record, with who, why and where from.
        QCOMPARE(now.figures.size(), 2u);
        QCOMPARE(now.figures.front().value, 2250);
        QCOMPARE(now.figures.front().by, bench.manager);
        QCOMPARE(now.figure("disc", front)->value, 225);
        QCOMPARE(now.figure("disc", front)->by, bench.checker);
        QCOMPARE(now.figure("disc", front)->correction, QStringLiteral("a nought too many"));
        // What was read has to be read again.
        QVERIFY(now.reading("disc", front) == nullptr);
        QVERIFY(now.readings.front().superseded);
        QCOMPARE(bench.state(wrong.car, pads), OperationState::Withdrawn);
        QVERIFY(bench.operation(wrong.car, pads).withdrawnWhy.contains(QStringLiteral("nought")));
        QCOMPARE(bench.ask(bench.mechanic, wrong.car, car::SignOff{wrong.work, {}}),
                 no(RefusalId::EvidenceOpen));
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        QCOMPARE(wrong.now(bench).reading("disc", front)->outcome, ReadingOutcome::Inside);
        bench.prove(wrong.car, wrong.work, bench.mechanic);
        bench.must(bench.mechanic, wrong.car, car::SignOff{wrong.work, {}});
        QCOMPARE(bench.broken(wrong.car), QStringList());
    }

    void figure_correctedToWhatThereIsTooLittleFor_opensTheWorkAnew()
    {
        Workbench bench;
        const Wrong wrong(bench, 22);
        bench.must(bench.mechanic, wrong.car, wrong.read(210));
        QVERIFY(bench.open(wrong.car, "brake-pads").isNull());
        bench.must(bench.checker, wrong.car, wrong.corrected(bench, 225));
        bench.must(bench.mechanic, wrong.car, wrong.read(210));
        QVERIFY(!bench.open(wrong.car, "brake-pads").isNull());
        QCOMPARE(bench.broken(wrong.car), QStringList());
    }

    void correction_ofAFigure_isAskedFor_data()
    {
        QTest::addColumn<QString>("how");
        QTest::addColumn<QString>("expected");
        QTest::newRow("all there") << "" << done;
        QTest::newRow("who entered it") << "enterer" << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("who read against it") << "reader" << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("not entitled") << "mechanic" << no(RefusalId::NotAllowed);
        QTest::newRow("no photo") << "no photo" << no(RefusalId::EvidenceMissing);
        QTest::newRow("a photo of before") << "old photo" << no(RefusalId::EvidenceNotFresh);
        QTest::newRow("no reason") << "no reason" << no(RefusalId::ReasonMissing);
        QTest::newRow("no source") << "no source" << no(RefusalId::FieldMissing);
        QTest::newRow("nought") << "nought" << no(RefusalId::ValueOutOfRange);
        QTest::newRow("of nothing") << "other key" << no(RefusalId::ReadingUnknown);
        QTest::newRow("of no operation") << "no work" << no(RefusalId::OperationUnknown);
    }

    void correction_ofAFigure_isAskedFor()
    {
        QFETCH(QString, how);
        QFETCH(QString, expected);
        Workbench bench;
        const Wrong wrong(bench, 2250, bench.technician);
        bench.must(bench.technician, wrong.car, wrong.read(230));
        car::CorrectFigure correct = wrong.corrected(bench, how == "nought" ? 0 : 225);
        if (how == "no photo")
            correct.evidence = {};
        if (how == "old photo")
            bench.must(bench.manager, wrong.car,
                       car::AttachPhoto{correct.evidence, PhotoMoment::During, {}, wrong.work, {}});
        if (how == "no reason")
            correct.reason = QStringLiteral("  ");
        if (how == "no source")
            correct.source = QStringLiteral("  ");
        if (how == "other key")
            correct.key = QStringLiteral("lining");
        if (how == "no work")
            correct.operation = OperationId{999};
        const PersonId who = how == "enterer"    ? bench.manager
                             : how == "reader"   ? bench.technician
                             : how == "mechanic" ? bench.mechanic
                                                 : bench.checker;
        QCOMPARE(bench.ask(who, wrong.car, correct), expected);
    }

    void correction_withNothingEntered_isRefused()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        QCOMPARE(bench.ask(bench.checker, id,
                           car::CorrectFigure{op, "disc", front, 225, "data book", "a slip",
                                              bench.photo()}),
                 no(RefusalId::LimitMissing));
    }

    void correction_whereSafetyDoesNotHangOnIt_needsAReasonAndAPhotoOnly()
    {
        Workbench bench;
        bench.spec("valet").readings = {bench.spec("wheel-fixing-check").readings.front()};
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "valet");
        bench.start(id, op, bench.painter);
        bench.must(bench.manager, id, car::SetFigure{op, "torque", {}, 12, "data book"});
        bench.must(bench.painter, id, car::TakeReading{op, "torque", {}, number(12)});
        bench.must(bench.manager, id,
                   car::CorrectFigure{
                       op, "torque", {}, 120, "data book", "a nought left out", bench.photo()});
        QVERIFY(bench.operation(id, op).reading("torque", {}) == nullptr);
        bench.must(bench.painter, id, car::TakeReading{op, "torque", {}, number(120)});
        QCOMPARE(bench.broken(id), QStringList());
    }

    void whoCorrectedIt_signsNothingAgainstIt()
    {
        Workbench bench;
        const Wrong wrong(bench, 2250);
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        bench.must(bench.technician, wrong.car, wrong.corrected(bench, 225));
        bench.must(bench.mechanic, wrong.car, car::PauseWork{wrong.work, {}, StopKind::Paused});
        bench.start(wrong.car, wrong.work, bench.technician);
        bench.prove(wrong.car, wrong.work, bench.technician);
        QCOMPARE(bench.ask(bench.technician, wrong.car, car::SignOff{wrong.work, {}}),
                 no(RefusalId::FigureBySigner));
        bench.must(bench.technician, wrong.car, car::PauseWork{wrong.work, {}, StopKind::Paused});
        bench.must(bench.mechanic, wrong.car, car::StartWork{wrong.work});
        bench.must(bench.mechanic, wrong.car, car::SignOff{wrong.work, {}});
    }

    void correctedFigure_isNotTypedOver_butASlipInItIsOnesOwn()
    {
        Workbench bench;
        const Wrong wrong(bench, 2250);
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        bench.must(bench.checker, wrong.car, wrong.corrected(bench, 22));
        // Nobody undoes alone what two had to agree on.
        QCOMPARE(bench.ask(bench.manager, wrong.car, wrong.entered(190)),
                 no(RefusalId::FigureInUse));
        QCOMPARE(bench.ask(bench.manager, wrong.car, wrong.corrected(bench, 190)),
                 no(RefusalId::SecondPersonNeeded));
        bench.must(bench.checker, wrong.car, wrong.corrected(bench, 225));
        bench.must(bench.mechanic, wrong.car, wrong.read(230));
        QCOMPARE(bench.ask(bench.checker, wrong.car, wrong.corrected(bench, 190)),
                 no(RefusalId::SecondPersonNeeded));
        QCOMPARE(bench.broken(wrong.car), QStringList());
    }

    void figure_ofAToolSetToIt_isCorrected_andTheToolSetAnew()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId op = bench.open(id, "wheel-fixing-check");
        bench.start(id, op, bench.checker);
        bench.must(bench.manager, id, car::SetFigure{op, "torque", {}, 12, "data book"});
        bench.must(bench.checker, id, car::TakeReading{op, "torque", {}, number(12)});
        bench.must(bench.technician, id,
                   car::CorrectFigure{
                       op, "torque", {}, 120, "data book", "a nought left out", bench.photo()});
        QCOMPARE(bench.ask(bench.checker, id, car::TakeReading{op, "torque", {}, number(12)}),
                 no(RefusalId::FigureDiffers));
        bench.must(bench.checker, id, car::TakeReading{op, "torque", {}, number(120)});
        bench.must(bench.checker, id, car::TakeReading{op, "wrench", {}, answer("W3")});
        bench.must(bench.checker, id, car::SignOff{op, {}});
        QCOMPARE(bench.broken(id), QStringList());
    }

    void figure_ofACheckOfOnesOwnWork_isNotCorrected()
    {
        Workbench bench;
        const PersonId both =
            bench.hire(QStringLiteral("Ferro"), {Skill::Wheels}, {Right::Work, Right::Check});
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.close(id, bench.open(id, "tyre-fit"), both);
        const OperationId op = bench.open(id, "wheel-fixing-check");
        bench.start(id, op, bench.checker);
        bench.must(bench.manager, id, car::SetFigure{op, "torque", {}, 12, "data book"});
        bench.must(bench.checker, id, car::TakeReading{op, "torque", {}, number(12)});
        QCOMPARE(bench.ask(both, id,
                           car::CorrectFigure{
                               op, "torque", {}, 120, "data book", "a slip", bench.photo()}),
                 no(RefusalId::CheckByDoer));
    }

    void figure_thatWasSignedAgainst_isCorrectedOnceTheWorkIsOpenAgain()
    {
        Workbench bench;
        bench.spec("steering-part").readings.front() =
            bench.spec("wheel-fixing-check").readings.front();
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.start(id, op, bench.mechanic);
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        const auto correct = [&] {
            return car::CorrectFigure{op,          "torque",        {},           90,
                                      "data book", "the other row", bench.photo()};
        };
        QCOMPARE(bench.ask(bench.technician, id, correct()), no(RefusalId::OperationNotOpen));
        bench.must(bench.technician, id, car::FailCheck{op, "another torque", {}});
        bench.must(bench.technician, id, correct());
        bench.must(bench.mechanic, id, car::StartWork{op});
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        bench.must(bench.checker, id, car::Countersign{op});
        QCOMPARE(bench.ask(bench.technician, id, correct()), no(RefusalId::OperationNotOpen));
        QCOMPARE(bench.broken(id), QStringList());
    }

private:
    static inline const PlaceId front{QStringLiteral("brakes-front")};

    /// An inspection in hand whose disc has a limit that was typed wrongly.
    struct Wrong
    {
        Wrong(Workbench& bench, int typed, PersonId who = {})
            : car(bench.appraised())
            , work(bench.open(car, "inspection"))
        {
            bench.start(car, work, who.isNull() ? bench.mechanic : who);
            bench.must(bench.manager, car, entered(typed));
        }

        [[nodiscard]] car::SetFigure entered(int value) const
        {
            return {work, QStringLiteral("disc"), front, value, QStringLiteral("data book")};
        }
        [[nodiscard]] car::TakeReading read(int value) const
        {
            return {work, QStringLiteral("disc"), front, number(value)};
        }
        [[nodiscard]] car::CorrectFigure corrected(Workbench& bench, int value) const
        {
            return {work,
                    QStringLiteral("disc"),
                    front,
                    value,
                    QStringLiteral("data book, page 7"),
                    QStringLiteral("a nought too many"),
                    bench.photo()};
        }
        [[nodiscard]] Operation now(Workbench& bench) const { return bench.operation(car, work); }

        CarId car;
        OperationId work;
    };
};

RAMPLIGHT_TEST(QCoreApplication, TestFigures)
#include "tst_figures.moc"
