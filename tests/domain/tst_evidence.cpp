// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a photo proves: a correction, when it was taken for it; work, once, and as it was last done.
class TestEvidence : public QObject
{
    Q_OBJECT

private slots:
    // ---- of a correction

    void correction_withAPhotoThatWasOnTheCar_isRefused_data()
    {
        QTest::addColumn<QString>("where");
        QTest::addColumn<QString>("expected");
        const QString stale = no(RefusalId::EvidenceNotFresh);
        QTest::newRow("of the finding itself") << "finding" << stale;
        QTest::newRow("of other work") << "work" << stale;
        QTest::newRow("of the car") << "car" << stale;
        QTest::newRow("of another correction") << "correction" << stale;
        QTest::newRow("on another car") << "elsewhere" << done;
        QTest::newRow("nowhere yet") << "" << done;
    }

    void correction_withAPhotoThatWasOnTheCar_isRefused()
    {
        QFETCH(QString, where);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId cut = bench.found(id, "tyre-front-left", Condition::Cut);
        const PhotoId photo = bench.photo();
        car::AttachPhoto attach{photo, PhotoMoment::Before, {}, {}, {}};
        if (where == "finding")
            attach.finding = cut;
        if (where == "work")
            attach.operation = bench.open(id, "valet");
        if (where == "correction") {
            const FindingId worn = bench.found(id, "brakes-front", Condition::Worn);
            bench.must(bench.checker, id,
                       car::CorrectFinding{worn, {}, false, "measured: sound", photo});
        } else if (where == "elsewhere") {
            bench.must(bench.appraiser, bench.bringIn(), attach);
        } else if (!where.isEmpty()) {
            bench.must(bench.appraiser, id, attach);
        }
        QCOMPARE(
            bench.ask(bench.checker, id, car::CorrectFinding{cut, {}, false, "a mark only", photo}),
            expected);
        QCOMPARE(bench.car(id).finding(cut)->stands(), expected != done);
    }

    void correction_ofReadingsAndFacts_wantsAFreshPhotoToo()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::TractionBattery}));
        const OperationId survey = bench.open(id, "tyre-survey");
        bench.start(id, survey, bench.wheels);
        bench.must(bench.wheels, id,
                   car::TakeReading{survey, "tread", at("tyre-front-left"), number(12)});
        const ReadingId low = bench.operation(id, survey).readings.front().id;
        const PhotoId old = bench.photo();
        bench.must(bench.wheels, id,
                   car::AttachPhoto{old, PhotoMoment::During, at("tyre-front-left"), survey, {}});
        QCOMPARE(bench.ask(bench.checker, id,
                           car::CorrectReading{survey, low, number(60), "a digit", old}),
                 no(RefusalId::EvidenceNotFresh));
        QCOMPARE(bench.ask(bench.checker, id,
                           car::CorrectFacts{carWith({Fact::CombustionEngine}), "no", old}),
                 no(RefusalId::EvidenceNotFresh));
        // One photo is fresh for one correction.
        const PhotoId fresh = bench.photo();
        bench.must(bench.checker, id,
                   car::CorrectReading{survey, low, number(60), "a digit", fresh});
        QCOMPARE(bench.ask(bench.checker, id,
                           car::CorrectFacts{carWith({Fact::CombustionEngine}), "no", fresh}),
                 no(RefusalId::EvidenceNotFresh));
    }

    void correction_ofNoSafety_takesAFreshPhoto_too()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId scratch = bench.found(id, "bonnet", Condition::Scratch);
        const PhotoId photo = bench.photo();
        bench.must(bench.appraiser, id,
                   car::AttachPhoto{photo, PhotoMoment::Before, {}, {}, scratch});
        QCOMPARE(bench.ask(bench.appraiser, id,
                           car::CorrectFinding{scratch, {}, false, "it was dirt", photo}),
                 no(RefusalId::EvidenceNotFresh));
        FindingData deeper = finding("bonnet", Condition::Scratch);
        deeper.severity = Severity::Heavy;
        QCOMPARE(bench.ask(bench.appraiser, id,
                           car::CorrectFinding{scratch, deeper, true, "deeper", {}}),
                 no(RefusalId::EvidenceMissing));
        bench.must(bench.appraiser, id,
                   car::CorrectFinding{scratch, deeper, true, "deeper", bench.photo()});
    }

    void fact_ofNoSafety_isCorrectedByAnybodyEntitled_withAReasonAndAPhoto()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        CarFacts facts = bench.car(id).facts;
        facts.keys = 1;
        QCOMPARE(bench.ask(bench.appraiser, id, car::CorrectFacts{facts, "", {}}),
                 no(RefusalId::ReasonMissing));
        const PhotoId old = bench.photo();
        bench.must(bench.appraiser, id, car::AttachPhoto{old, PhotoMoment::Before, {}, {}, {}});
        QCOMPARE(bench.ask(bench.appraiser, id, car::CorrectFacts{facts, "only one came", {}}),
                 no(RefusalId::EvidenceMissing));
        QCOMPARE(bench.ask(bench.appraiser, id, car::CorrectFacts{facts, "only one came", old}),
                 no(RefusalId::EvidenceNotFresh));
        bench.must(bench.appraiser, id, car::CorrectFacts{facts, "only one came", bench.photo()});
        QCOMPARE(bench.car(id).facts.keys, 1);
    }

    void fact_duringTheWalkRound_orThatNobodyHadSaid_needsNoPhoto()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        CarFacts facts = bench.car(id).facts;
        facts.keys = 1;
        bench.must(bench.appraiser, id, car::CorrectFacts{facts, "only one came", {}});
        const CarId appraised = bench.appraised();
        facts = bench.car(appraised).facts;
        QVERIFY(!facts.testCertificateMonths);
        facts.testCertificateMonths = 7;
        facts.frontTyre.size = "205/55 R16";
        bench.must(bench.appraiser, appraised, car::CorrectFacts{facts, "off the car", {}});
        facts.frontTyre.loadIndex = 91;
        bench.must(bench.appraiser, appraised, car::CorrectFacts{facts, "off the pillar", {}});
        facts.frontTyre.size = "225/45 R17";
        QCOMPARE(bench.ask(bench.appraiser, appraised, car::CorrectFacts{facts, "a slip", {}}),
                 no(RefusalId::EvidenceMissing));
        facts.frontTyre.size = "205/55 R16";
        facts.testCertificateMonths.reset();
        QCOMPARE(bench.ask(bench.appraiser, appraised, car::CorrectFacts{facts, "a slip", {}}),
                 no(RefusalId::EvidenceMissing));
    }

    void reading_ofNoSafety_isCorrectedByWhoTookIt_withAReasonAndAPhoto()
    {
        Workbench bench;
        ReadingSpec chips;
        chips.key = "chips";
        chips.unit = Unit::Count;
        bench.spec("valet").readings = {chips};
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "valet");
        bench.start(id, op, bench.painter);
        bench.must(bench.painter, id, car::TakeReading{op, chips.key, {}, number(50)});
        const ReadingId taken = bench.operation(id, op).readings.front().id;
        QCOMPARE(
            bench.ask(bench.painter, id, car::CorrectReading{op, taken, number(60), "misread", {}}),
            no(RefusalId::EvidenceMissing));
        bench.must(bench.painter, id,
                   car::CorrectReading{op, taken, number(60), "misread", bench.photo()});
    }

    // A reading is as many people's word as corrected it.
    void reading_correctedBefore_isCorrectedByNeitherOfThem()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "tyre-survey");
        bench.start(id, op, bench.wheels);
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-rear-left"), number(60)});
        bench.must(bench.wheels, id,
                   car::TakeReading{op, "tread", at("tyre-front-left"), number(12)});
        const auto correct = [&](PersonId who, int tenths) {
            return bench.ask(who, id,
                             car::CorrectReading{op, bench.operation(id, op).readings.back().id,
                                                 number(tenths), "read again", bench.photo()});
        };
        QCOMPARE(correct(bench.checker, 14), done);
        QCOMPARE(correct(bench.wheels, 60), no(RefusalId::SecondPersonNeeded));
        QCOMPARE(correct(bench.checker, 60), no(RefusalId::SecondPersonNeeded));
        QCOMPARE(correct(bench.technician, 60), done);
        const Operation now = bench.operation(id, op);
        QCOMPARE(now.recorders(now.readings.back().id),
                 (std::set{bench.wheels, bench.checker, bench.technician}));
        // Not of the other tyre's.
        QCOMPARE(now.recorders(now.readings.front().id), std::set{bench.wheels});
    }

    // ---- of work

    void photo_attachedTwice_changesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId worn = bench.found(id, "brakes-front", Condition::Worn);
        const OperationId pads = bench.open(id, "brake-pads");
        const PhotoId photo = bench.photo();
        const std::vector<car::AttachPhoto> all{
            {photo, PhotoMoment::After, at("brakes-front"), pads, {}},
            {photo, PhotoMoment::Before, at("brakes-front"), {}, worn},
            {photo, PhotoMoment::During, at("bonnet"), {}, {}},
            {photo, PhotoMoment::During, at("roof"), {}, {}}};
        for (const car::AttachPhoto& attach : all) {
            QCOMPARE(bench.must(bench.mechanic, id, attach).size(), 1u);
            QVERIFY(bench.must(bench.mechanic, id, attach).empty());
        }
        QCOMPARE(bench.car(id).photos.size(), all.size());
    }

    void photo_thatALedgerHoldsTwice_countsOnce()
    {
        Workbench bench;
        bench.spec("brake-pads").photos = {{PhotoMoment::After, "left"},
                                           {PhotoMoment::After, "right"}};
        const CarId id = bench.appraised();
        bench.found(id, "brakes-front", Condition::Worn);
        const OperationId pads = bench.open(id, "brake-pads");
        bench.start(id, pads, bench.mechanic);
        bench.must(bench.mechanic, id, car::TakeReading{pads, "part", {}, answer("P 7")});
        CarState car = bench.car(id);
        const PhotoAttached twice{bench.photo(), PhotoMoment::After, {}, pads, {}};
        for (int i = 0; i < 2; ++i)
            apply(car, {car.seq + 1, bench.clock.now(), bench.mechanic, {}, twice});
        QCOMPARE(car.photos.size(), 2u);
        const auto missing = [&] {
            return missingEvidence(*car.operation(pads), car, HouseRules{}).size();
        };
        QCOMPARE(missing(), 2);
        const PhotoAttached other{bench.photo(), PhotoMoment::After, {}, pads, {}};
        apply(car, {car.seq + 1, bench.clock.now(), bench.mechanic, {}, other});
        QCOMPARE(missing(), 0);
    }

    void photo_ofBefore_isNoneOfAfter()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const FindingId kerbed = bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId refurb = bench.open(id, "wheel-refurb");
        const PhotoId photo = bench.photo();
        bench.must(bench.appraiser, id,
                   car::AttachPhoto{photo, PhotoMoment::Before, {}, {}, kerbed});
        bench.start(id, refurb, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{refurb, "metal", {}, answer("whole")});
        bench.must(bench.wheels, id, car::AttachPhoto{photo, PhotoMoment::After, {}, refurb, {}});
        QCOMPARE(bench.ask(bench.wheels, id, car::SignOff{refurb, {}}),
                 no(RefusalId::EvidenceOpen));
        QVERIFY2(bench.lastWords().contains("after"), qPrintable(bench.lastWords()));
        QVERIFY2(!bench.lastWords().contains("before"), qPrintable(bench.lastWords()));
        bench.must(bench.wheels, id,
                   car::AttachPhoto{bench.photo(), PhotoMoment::After, {}, refurb, {}});
        bench.must(bench.wheels, id, car::SignOff{refurb, {}});
    }

    void photo_ofWorkThatWasOpenedAgain_doesNotCountOnceMore()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "brakes-front", Condition::Worn);
        const OperationId pads = bench.open(id, "brake-pads");
        bench.close(id, pads);
        const PhotoId old = bench.car(id).photos.back().photo;
        bench.clock.pass(5);
        bench.must(bench.checker, id, car::Reopen{pads, "squeals"});
        bench.start(id, pads, bench.mechanic);
        bench.must(bench.mechanic, id, car::TakeReading{pads, "part", {}, answer("P 7")});
        bench.must(bench.mechanic, id,
                   car::AttachPhoto{old, PhotoMoment::After, at("brakes-front"), pads, {}});
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{pads, {}}),
                 no(RefusalId::EvidenceOpen));
        bench.must(bench.mechanic, id,
                   car::AttachPhoto{bench.photo(), PhotoMoment::After, {}, pads, {}});
        bench.must(bench.mechanic, id, car::SignOff{pads, {}});
    }

    // ---- of a figure

    void figure_isSignedForByOthers_alsoWithTheSecondSignature()
    {
        Workbench bench;
        ReadingSpec torque;
        torque.key = torque.title = QStringLiteral("torque");
        torque.kind = ReadingKind::Figure;
        torque.unit = Unit::NewtonMetre;
        torque.neededFrom = LimitOwner::VehicleData;
        bench.spec("steering-part").readings.push_back(torque);
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.checker, id, car::SetFigure{op, "torque", {}, 120, "data book"});
        bench.must(bench.mechanic, id, car::TakeReading{op, "torque", {}, number(120)});
        bench.must(bench.mechanic, id, car::TakeReading{op, "part", {}, answer("P 7")});
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        QCOMPARE(bench.ask(bench.checker, id, car::Countersign{op}), no(RefusalId::FigureBySigner));
        QVERIFY(bench.lastWords().contains("torque"));
        QCOMPARE(bench.state(id, op), OperationState::AwaitingCheck);
        bench.must(bench.technician, id, car::Countersign{op});
        QCOMPARE(bench.state(id, op), OperationState::Closed);
        // So it takes three people, and a house that has two is told.
        SiteState site;
        const auto hire = [&](std::vector<Skill> skills, std::vector<Right> rights) {
            Person person;
            person.id = PersonId{static_cast<int>(site.people.size()) + 1};
            person.skills = std::move(skills);
            person.rights = std::move(rights);
            site.people[person.id] = person;
        };
        const auto said = [&] {
            return missingCombinations(site, bench.catalogue, bench.today())
                .filter(QStringLiteral("the figure for: Steering part"))
                .size();
        };
        hire({Skill::Mechanical}, {Right::Work});
        hire({}, {Right::Check, Right::Manage});
        QCOMPARE(said(), 1);
        hire({}, {Right::Manage});
        QCOMPARE(said(), 0);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestEvidence)
#include "tst_evidence.moc"
