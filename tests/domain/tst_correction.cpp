// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/carcard.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What was recorded wrongly is corrected: with a reason, at a safety item by somebody else with a
// fresh photo; the original stays, and work that rested only on it is withdrawn, never closed.
class TestCorrection : public QObject
{
    Q_OBJECT

private slots:
    void draft_isDecidedByWhatIsRecorded_andOpenAgainOnceThatIsTakenBack()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        SpokenRound round;
        round.transcript = {"words"};
        round.drafts.resize(3);
        for (SpokenDraft& draft : round.drafts)
            draft.data = finding("roof", Condition::Dent);
        bench.must(bench.appraiser, id, car::TakeSpeech{round});
        QCOMPARE(bench.car(id).openDrafts(), 3);
        // The same words again change nothing.
        const qint64 before = bench.car(id).seq;
        bench.must(bench.appraiser, id, car::TakeSpeech{round});
        QCOMPARE(bench.car(id).seq, before);

        FindingData changed = round.drafts[1].data;
        changed.severity = Severity::Heavy;
        bench.must(bench.appraiser, id,
                   car::RecordFinding{round.drafts[0].data, {}, {round.transcript, 0}});
        bench.must(bench.appraiser, id, car::RecordFinding{changed, {}, {round.transcript, 1}});
        bench.must(bench.appraiser, id, car::DropDraft{{round.transcript, 2}});
        const auto endOf = [&](std::size_t draft) {
            return bench.car(id).spoken.front().decisions.at(draft).end;
        };
        QCOMPARE(endOf(0), DraftEnd::Kept);
        QCOMPARE(endOf(1), DraftEnd::Changed);
        QCOMPARE(endOf(2), DraftEnd::Dropped);
        QCOMPARE(bench.car(id).openDrafts(), 0);

        bench.must(bench.appraiser, id,
                   car::CorrectFinding{FindingId{1}, round.drafts[0].data, false, "a slip", {}});
        bench.must(bench.appraiser, id, car::DropDraft{{round.transcript, 2}, false});
        QCOMPARE(endOf(0), DraftEnd::Open);
        QCOMPARE(endOf(1), DraftEnd::Changed);
        QCOMPARE(endOf(2), DraftEnd::Open);
        QCOMPARE(cardOf(bench.car(id), {}).openDrafts, 2);
    }

    // ---- findings

    void finding_atSafetyPlace_needsReasonSecondPersonAndPhoto_data()
    {
        QTest::addColumn<bool>("samePerson");
        QTest::addColumn<QString>("reason");
        QTest::addColumn<bool>("photo");
        QTest::addColumn<QString>("expected");
        QTest::newRow("all there") << false << "seen again" << true << done;
        QTest::newRow("the same person")
            << true << "seen again" << true << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("no photo") << false << "seen again" << false
                                  << no(RefusalId::EvidenceMissing);
        QTest::newRow("no reason") << false << " " << true << no(RefusalId::ReasonMissing);
    }

    void finding_atSafetyPlace_needsReasonSecondPersonAndPhoto()
    {
        QFETCH(bool, samePerson);
        QFETCH(QString, reason);
        QFETCH(bool, photo);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        QCOMPARE(bench.ask(samePerson ? bench.appraiser : bench.checker, id,
                           car::CorrectFinding{
                               cut, {}, false, reason, photo ? bench.photo() : PhotoId{}}),
                 expected);
    }

    void finding_cosmetic_isCorrectedByWhoRecordedIt()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId scratch = bench.found(id, "bonnet", Condition::Scratch);
        QCOMPARE(bench.ask(bench.appraiser, id,
                           car::CorrectFinding{scratch, {}, false, "it was dirt", {}}),
                 no(RefusalId::EvidenceMissing));
        bench.must(bench.appraiser, id,
                   car::CorrectFinding{scratch, {}, false, "it was dirt", bench.photo()});
        QVERIFY(!bench.car(id).finding(scratch)->stands());
    }

    void finding_ownSlip_isTakenBackWhileTheAppraisalGoesOn_data()
    {
        QTest::addColumn<QString>("how");
        QTest::addColumn<QString>("expected");
        QTest::newRow("one's own, at once") << "own" << done;
        QTest::newRow("somebody else's") << "other" << no(RefusalId::EvidenceMissing);
        QTest::newRow("the appraisal is finished")
            << "finished" << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("work has begun") << "begun" << no(RefusalId::SecondPersonNeeded);
    }

    void finding_ownSlip_isTakenBackWhileTheAppraisalGoesOn()
    {
        QFETCH(QString, how);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.bringIn();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        if (how == "finished")
            bench.must(bench.appraiser, id, car::FinishAppraisal{});
        if (how == "begun")
            bench.start(id, fit, bench.wheels);
        QCOMPARE(bench.ask(how == "other" ? bench.checker : bench.appraiser, id,
                           car::CorrectFinding{cut, {}, false, "the other wheel", {}}),
                 expected);
        if (expected != done)
            return;
        QCOMPARE(bench.state(id, fit), OperationState::Withdrawn);
        // Never meant, so nobody has looked there: it stays to be done.
        QVERIFY(!bench.car(id).seen.contains({QStringLiteral("tyre-front-left")}));
        // What was really seen there before counts on.
        bench.must(bench.appraiser, id,
                   car::RecordTread{{QStringLiteral("tyre-front-left")}, {60, 61, 62}});
        const FindingId bulge = bench.found(id, "tyre-front-left", Condition::Bulge);
        bench.must(bench.appraiser, id, car::CorrectFinding{bulge, {}, false, "no", {}});
        QVERIFY(bench.car(id).seen.contains({QStringLiteral("tyre-front-left")}));
    }

    void finding_corrected_keepsTheOriginalAndWithdrawsItsWork()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        const OperationId fit = bench.open(id, "tyre-fit");
        const PhotoId photo = bench.photo();
        bench.must(bench.checker, id, car::CorrectFinding{cut, {}, false, "a mark only", photo});
        const Finding now = *bench.car(id).finding(cut);
        QCOMPARE(now.versions.size(), 2u);
        QCOMPARE(now.versions.front().data.condition, Condition::Cut);
        QVERIFY(now.versions.front().stands);
        QCOMPARE(now.versions.back().reason, QStringLiteral("a mark only"));
        QCOMPARE(now.versions.back().evidence, photo);
        const Operation withdrawn = bench.operation(id, fit);
        QCOMPARE(withdrawn.state, OperationState::Withdrawn);
        QCOMPARE(withdrawn.withdrawnWhy, QStringLiteral("a mark only"));
        QVERIFY(withdrawn.signatures.empty());
    }

    void finding_oneOfTwo_leavesTheSharedOperationOpen()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        const FindingId bulge = bench.found(id, "tyre-front-left", Condition::Bulge);
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.must(bench.checker, id,
                   car::CorrectFinding{cut, {}, false, "a mark only", bench.photo()});
        QVERIFY(bench.operation(id, fit).isOpen());
        QCOMPARE(bench.operation(id, fit).findings, std::vector{bulge});
    }

    void finding_correctedThereAndBack_leavesNothingAtTheOtherPlace()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId kerbed = bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.must(bench.checker, id,
                   car::CorrectFinding{kerbed, finding("wheel-front-right", Condition::Kerbed),
                                       true, "other side", bench.photo()});
        bench.must(bench.technician, id,
                   car::CorrectFinding{kerbed, finding("wheel-front-left", Condition::Kerbed), true,
                                       "it was right", bench.photo()});
        QVERIFY(!bench.open(id, "wheel-refurb", "wheel-front-left").isNull());
        QVERIFY(bench.open(id, "wheel-refurb", "wheel-front-right").isNull());
    }

    void finding_correctedAtItsNewPlace_keepsTheWorkThere()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId kerbed = bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.must(bench.checker, id,
                   car::CorrectFinding{kerbed, finding("wheel-front-right", Condition::Kerbed),
                                       true, "other side", bench.photo()});
        const OperationId refurb = bench.open(id, "wheel-refurb", "wheel-front-right");
        bench.start(id, refurb, bench.wheels);
        FindingData heavier = finding("wheel-front-right", Condition::Kerbed);
        heavier.severity = Severity::Heavy;
        bench.must(bench.technician, id,
                   car::CorrectFinding{kerbed, heavier, true, "deeper", bench.photo()});
        QCOMPARE(bench.state(id, refurb), OperationState::InHand);
    }

    void finding_onlyTheWordsCorrected_opensNoClosedWorkAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId scratch = bench.found(id, "bonnet", Condition::Scratch);
        bench.close(id, bench.open(id, "touch-in"));
        FindingData spelled = finding("bonnet", Condition::Scratch);
        spelled.note = "near the badge";
        bench.must(bench.appraiser, id,
                   car::CorrectFinding{scratch, spelled, true, "spelling", {}});
        QVERIFY(bench.open(id, "touch-in").isNull());
        // Another severity is another decision.
        spelled.severity = Severity::Heavy;
        bench.must(bench.appraiser, id,
                   car::CorrectFinding{scratch, spelled, true, "deeper", bench.photo()});
        QVERIFY(!bench.open(id, "touch-in").isNull());
    }

    void finding_afterRelease_holdsTheCarAgain_data()
    {
        QTest::addColumn<QString>("how");
        QTest::newRow("a new finding") << "new";
        QTest::newRow("a finding corrected") << "corrected";
        QTest::newRow("a fact corrected") << "fact";
        QTest::newRow("a reading corrected") << "reading";
    }

    void finding_afterRelease_holdsTheCarAgain()
    {
        QFETCH(QString, how);
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        bench.release(id);
        if (how == "new")
            bench.found(id, "tyre-rear-left", Condition::Cut);
        else if (how == "corrected")
            bench.must(bench.checker, id,
                       car::CorrectFinding{cut, finding("tyre-front-right", Condition::Cut), true,
                                           "other side", bench.photo()});
        else if (how == "fact")
            bench.must(
                bench.appraiser, id,
                car::CorrectFacts{carWith({Fact::TractionBattery}), "electric", bench.photo()});
        else {
            const OperationId survey = bench.newest(id, "tyre-survey");
            const ReadingId first = bench.operation(id, survey).readings.front().id;
            bench.must(bench.checker, id,
                       car::CorrectReading{survey, first, number(12), "misread", bench.photo()});
        }
        QCOMPARE(bench.status(id), CarStatus::Held);
        QVERIFY(!bench.car(id).released);
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::CarHeld));
    }

    // ---- readings

    void reading_ofSafetyWork_needsSecondPersonAndPhoto_data()
    {
        QTest::addColumn<bool>("samePerson");
        QTest::addColumn<bool>("photo");
        QTest::addColumn<QString>("expected");
        QTest::newRow("all there") << false << true << done;
        QTest::newRow("the same person") << true << true << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("no photo") << false << false << no(RefusalId::EvidenceMissing);
    }

    void reading_ofSafetyWork_needsSecondPersonAndPhoto()
    {
        QFETCH(bool, samePerson);
        QFETCH(bool, photo);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.start(id, op, bench.wheels);
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-front-left"), number(6)});
        const ReadingId wrong = bench.operation(id, op).readings.front().id;
        QCOMPARE(bench.ask(samePerson ? bench.wheels : bench.checker, id,
                           car::CorrectReading{op, wrong, number(60), "a digit too few",
                                               photo ? bench.photo() : PhotoId{}}),
                 expected);
        const bool corrected = expected == done;
        // The tyre that rested only on the wrong digit is withdrawn, not closed.
        QCOMPARE(bench.open(id, "tyre-fit").isNull(), corrected);
        if (corrected) {
            QCOMPARE(bench.state(id, bench.newest(id, "tyre-fit")), OperationState::Withdrawn);
            const Operation now = bench.operation(id, op);
            QCOMPARE(now.readings.size(), 2u);
            QVERIFY(now.readings.front().superseded);
            QCOMPARE(now.readings.back().correction, QStringLiteral("a digit too few"));
        }
    }

    void reading_ofCosmeticWorkThatOpenedSafetyWork_needsASecondPersonToo()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        bench.start(id, op, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{op, "metal", {}, answer("cracked")});
        QVERIFY(!bench.open(id, "wheel-replace").isNull());
        const ReadingId cracked = bench.operation(id, op).readings.front().id;
        QCOMPARE(bench.ask(bench.wheels, id,
                           car::CorrectReading{op, cracked, answer("whole"), "no crack", {}}),
                 no(RefusalId::SecondPersonNeeded));
        QVERIFY(!bench.open(id, "wheel-replace").isNull());
    }

    void reading_correctedToOutside_opensTheClosedOperationAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.close(id, op);
        const Reading first = bench.operation(id, op).readings.front();
        bench.must(bench.checker, id,
                   car::CorrectReading{op, first.id, number(20), "misread", bench.photo()});
        QVERIFY(bench.operation(id, op).isOpen());
        QVERIFY(!bench.open(id, "tyre-fit", qPrintable(first.place.text)).isNull());
        QVERIFY(bench.operation(id, op).signatures.front().voided);
    }

    void reading_stillOutside_leavesTheFollowUpInHand()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.start(id, op, bench.wheels);
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-front-left"), number(12)});
        bench.must(bench.wheels, id, car::PauseWork{op, {}, StopKind::Paused});
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.start(id, fit, bench.wheels);
        bench.must(bench.checker, id,
                   car::CorrectReading{op, bench.operation(id, op).readings.front().id, number(14),
                                       "read again", bench.photo()});
        QCOMPARE(bench.state(id, fit), OperationState::InHand);
        QCOMPARE(bench.open(id, "tyre-fit"), fit);
        QCOMPARE(bench.operation(id, fit).fromReadings.size(), 1u);
        QCOMPARE(bench.operation(id, fit).fromReadings.front(),
                 bench.operation(id, op).readings.back().id);
    }

    // ---- facts

    void fact_thatGoesWithSafetyWork_needsSecondPersonAndPhoto_data()
    {
        QTest::addColumn<bool>("samePerson");
        QTest::addColumn<bool>("photo");
        QTest::addColumn<QString>("expected");
        QTest::newRow("all there") << false << true << done;
        QTest::newRow("the same person") << true << true << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("no photo") << false << false << no(RefusalId::EvidenceMissing);
    }

    void fact_thatGoesWithSafetyWork_needsSecondPersonAndPhoto()
    {
        QFETCH(bool, samePerson);
        QFETCH(bool, photo);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        const OperationId check = bench.open(id, "battery-check");
        QCOMPARE(bench.ask(samePerson ? bench.appraiser : bench.checker, id,
                           car::CorrectFacts{carWith({Fact::CombustionEngine}), "not electric",
                                             photo ? bench.photo() : PhotoId{}}),
                 expected);
        QCOMPARE(bench.state(id, check),
                 expected == done ? OperationState::Withdrawn : OperationState::Waiting);
    }

    void fact_thatGoes_withdrawsTheChecksThatOnlyItMadeDue()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::ScreenCamera}));
        bench.found(id, "windscreen", Condition::Crack);
        bench.close(id, bench.open(id, "windscreen-fit"));
        const OperationId calibration = bench.open(id, "camera-calibration");
        const CarFacts none = carWith({});
        QCOMPARE(bench.ask(bench.appraiser, id,
                           car::CorrectFacts{none, "no camera there", bench.photo()}),
                 no(RefusalId::SecondPersonNeeded));
        bench.must(bench.checker, id, car::CorrectFacts{none, "no camera there", bench.photo()});
        QCOMPARE(bench.state(id, calibration), OperationState::Withdrawn);
    }

    // ---- signatures

    void signOff_byMistake_isReopenedWithAReasonAndStaysOnRecord()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId valet = bench.open(id, "valet");
        bench.close(id, valet);
        QCOMPARE(bench.ask(bench.painter, id, car::Reopen{valet, "wrong car"}),
                 no(RefusalId::NotAllowed));
        QCOMPARE(bench.ask(bench.manager, id, car::Reopen{valet, ""}),
                 no(RefusalId::ReasonMissing));
        bench.must(bench.manager, id, car::Reopen{valet, "wrong car"});
        const Operation open = bench.operation(id, valet);
        QCOMPARE(open.state, OperationState::Paused);
        QCOMPARE(open.signatures.size(), 1u);
        QVERIFY(open.signatures.front().voided);
        QCOMPARE(open.sentBackWhy, QStringLiteral("wrong car"));
    }

    void safety_open_cannotBeLeftOrTakenOutByAnybody()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.mechanic, id,
                   car::OpenOperation{"brake-pads", at("brakes-front"), "squeals"});
        for (const char* kind : {"inspection", "brake-pads", "final-check"}) {
            const OperationId op = bench.open(id, kind);
            QCOMPARE(bench.ask(bench.manager, id, car::LeaveAsIs{op, "sold as seen"}),
                     no(RefusalId::SafetyCannotBeLeft));
            QCOMPARE(bench.ask(bench.manager, id, car::WithdrawOperation{op, "not needed"}),
                     no(RefusalId::NotWithdrawable));
        }
    }

    void handMade_workThatSomethingElseNeedsByNow_isNotTakenOut()
    {
        Workbench bench;
        // A reading that opens cosmetic work, which was open by hand already.
        for (OperationSpec& spec : bench.catalogue.operations)
            if (spec.id == "arrival-check")
                spec.readings.front().options.back().opens = "valet-extra";
        OperationSpec extra = *bench.catalogue.find("valet");
        extra.id = "valet-extra";
        extra.baseline = false;
        bench.catalogue.operations.push_back(extra);
        const CarId id = bench.appraised();
        bench.must(bench.appraiser, id, car::OpenOperation{"valet-extra", at("car"), "smells"});
        const OperationId op = bench.open(id, "valet-extra");
        const OperationId arrival = bench.open(id, "arrival-check");
        bench.start(id, arrival, bench.appraiser);
        bench.must(bench.appraiser, id, car::TakeReading{arrival, "papers", {}, answer("differ")});
        QCOMPARE(bench.open(id, "valet-extra"), op);
        QCOMPARE(bench.ask(bench.manager, id, car::WithdrawOperation{op, "not needed"}),
                 no(RefusalId::NotWithdrawable));
    }

    void handMade_cosmeticWorkNotBegun_isTakenOutWithAReason()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.painter, id, car::OpenOperation{"touch-in", at("bonnet"), "chips"});
        const OperationId op = bench.open(id, "touch-in");
        QCOMPARE(bench.ask(bench.manager, id, car::WithdrawOperation{op, " "}),
                 no(RefusalId::ReasonMissing));
        bench.must(bench.manager, id, car::WithdrawOperation{op, "not worth it"});
        QCOMPARE(bench.state(id, op), OperationState::Withdrawn);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCorrection)
#include "tst_correction.moc"
