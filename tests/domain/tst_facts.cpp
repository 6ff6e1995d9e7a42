// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "gaugebench.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

CarFacts sized(CarFacts facts, const char* size)
{
    facts.frontTyre.size = QString::fromLatin1(size);
    return facts;
}

/// Holes in tyres are plugged, but in run-flat ones.
struct PlugBench : Workbench
{
    PlugBench()
    {
        OperationSpec plug = *catalogue.find(QStringLiteral("tyre-fit"));
        plug.id = QStringLiteral("tyre-plug");
        plug.title = QStringLiteral("Plug a tyre");
        catalogue.operations.push_back(plug);
        FindingRule plugged;
        plugged.id = QStringLiteral("hole");
        plugged.placeKinds = {PlaceKind::Tyre};
        plugged.conditions = {Condition::Hole};
        plugged.opens = {plug.id};
        FindingRule replaced = plugged;
        replaced.id = QStringLiteral("hole-run-flat");
        replaced.ifFact = Fact::RunFlats;
        replaced.opens = {QStringLiteral("tyre-fit")};
        catalogue.rules.insert(catalogue.rules.begin(), {replaced, plugged});
    }
};

} // namespace

// What was wrong about the car itself is corrected fact by fact: by somebody else than who said it,
// where safety hangs on it, and with all that rested on it.
class TestFacts : public QObject
{
    Q_OBJECT

private slots:
    // ---- who said which of them

    void fact_isOfWhoSaidIt_whateverElseWasCorrectedSince()
    {
        Workbench bench;
        const CarFacts electric = carWith({Fact::TractionBattery});
        const CarId id = bench.appraised(electric);
        const OperationId check = bench.open(id, "battery-check");
        CarFacts fewer = electric;
        fewer.keys = 1;
        bench.must(bench.checker, id, car::CorrectFacts{fewer, "only one came", bench.photo()});
        CarFacts none = fewer;
        none.has = {Fact::CombustionEngine};
        QCOMPARE(bench.ask(bench.appraiser, id, car::CorrectFacts{none, "no", bench.photo()}),
                 no(RefusalId::SecondPersonNeeded));
        QVERIFY(bench.lastWords().contains("Tamsin"));
        QCOMPARE(bench.state(id, check), OperationState::Waiting);
        // Whoever counted the keys said nothing about the battery.
        bench.must(bench.checker, id, car::CorrectFacts{none, "no", bench.photo()});
        QCOMPARE(bench.state(id, check), OperationState::Withdrawn);
        QCOMPARE(bench.car(id).lastOdometer()->by, bench.appraiser);
    }

    // Typed over what the car was when the form was opened.
    void formOfBefore_leavesWhatOthersCorrectedSince()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarFacts shown = bench.car(id).facts;
        CarFacts typed = shown;
        typed.keys = 1;
        typed.has = {Fact::LeatherTrim, Fact::CombustionEngine};
        CarFacts electric = shown;
        electric.has.push_back(Fact::TractionBattery);
        electric.frontTyre.size = "205/55 R16";
        bench.must(bench.checker, id, car::CorrectFacts{electric, "seen", bench.photo()});
        bench.must(bench.appraiser, id,
                   car::CorrectFacts{typed, "one is lost", bench.photo(), shown});
        const CarFacts now = bench.car(id).facts;
        QCOMPARE(now.keys, 1);
        QVERIFY(now.is(Fact::LeatherTrim) && now.is(Fact::TractionBattery));
        QCOMPARE(now.frontTyre.size, QStringLiteral("205/55 R16"));
        QVERIFY(!bench.open(id, "battery-check").isNull());

        Identity was = bench.car(id).identity;
        Identity other = was;
        other.colour = "slate";
        bench.must(bench.manager, id, car::CorrectIdentity{other, "looked", was});
        Identity later = was;
        later.registration = "ZZ 77";
        bench.must(bench.appraiser, id, car::CorrectIdentity{later, "read off it", was});
        QCOMPARE(bench.car(id).identity.colour, QStringLiteral("slate"));
        QCOMPARE(bench.car(id).identity.registration, QStringLiteral("ZZ 77"));
    }

    void fact_saidLater_isOfWhoSaidItThen()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(
            bench.checker, id,
            car::CorrectFacts{carWith({Fact::TractionBattery}), "it is electric", bench.photo()});
        const CarFacts none = carWith({Fact::CombustionEngine});
        QCOMPARE(bench.ask(bench.checker, id, car::CorrectFacts{none, "no", bench.photo()}),
                 no(RefusalId::SecondPersonNeeded));
        QCOMPARE(bench.ask(bench.appraiser, id, car::CorrectFacts{none, "no", bench.photo()}),
                 done);
    }

    void fitment_isOfAllWhoseWordsItIsMadeOf()
    {
        CarFacts facts = sized({}, "205/55 R16");
        FactsBy by;
        by.arrived(facts, PersonId{1});
        CarFacts indexed = facts;
        indexed.frontTyre.loadIndex = 91;
        by.corrected(facts, indexed, PersonId{2});
        QCOMPARE(by.frontTyre, (std::set{PersonId{1}, PersonId{2}}));
        const CarFacts other = sized({}, "225/45 R17");
        QCOMPARE(by.ofWhatDiffers(indexed, other), (std::set{PersonId{1}, PersonId{2}}));
        by.corrected(indexed, other, PersonId{3});
        QCOMPARE(by.frontTyre, std::set{PersonId{3}});
        // The rear had none of its own and asked for what the front does.
        CarFacts rear = other;
        rear.rearTyre.size = QStringLiteral("225/40 R18");
        QCOMPARE(by.ofWhatDiffers(other, rear), std::set{PersonId{3}});
        by.corrected(other, CarFacts{}, PersonId{4});
        QVERIFY(by.frontTyre.empty());
    }

    void keysAndCertificate_areNothingThatWorkHangsOn()
    {
        CarFacts facts = carWith({Fact::RunFlats});
        CarFacts other = facts;
        other.keys = 9;
        other.testCertificateMonths = 3;
        other.odometer = 1;
        QVERIFY(!differForWork(facts, other));
        other.has.clear();
        QVERIFY(differForWork(facts, other));
        QVERIFY(differForWork(facts, sized(facts, "205/55 R16")));
    }

    // ---- findings that the facts decided about

    void fact_thatWasWrong_changesWhatAnswersAFinding()
    {
        PlugBench bench;
        const CarId id = bench.appraised();
        const FindingId hole = bench.found(id, "tyre-rear-left", Condition::Hole);
        const OperationId plug = bench.open(id, "tyre-plug");
        // The tyre is safety's, and its work goes: that is no one person's word.
        const car::CorrectFacts correct{carWith({Fact::CombustionEngine, Fact::RunFlats}),
                                        "they are run-flats", bench.photo()};
        QCOMPARE(bench.ask(bench.appraiser, id, correct), no(RefusalId::SecondPersonNeeded));
        bench.must(bench.checker, id, correct);
        QCOMPARE(bench.state(id, plug), OperationState::Withdrawn);
        QCOMPARE(bench.operation(id, plug).withdrawnWhy, QStringLiteral("they are run-flats"));
        const OperationId fit = bench.open(id, "tyre-fit", "tyre-rear-left");
        QCOMPARE(bench.operation(id, fit).findings, std::vector{hole});
        const Finding finding = *bench.car(id).finding(hole);
        QCOMPARE(finding.rule, QStringLiteral("hole-run-flat"));
        // It is as it was found, and whoever corrected the facts did not find it.
        QCOMPARE(finding.versions.size(), 1u);
        QCOMPARE(finding.recorders(), std::set{bench.appraiser});
    }

    void fact_correctedInTheAppraisal_isLikeTakingOnesOwnFindingBack()
    {
        PlugBench bench;
        const CarId id = bench.bringIn();
        bench.found(id, "tyre-rear-left", Condition::Hole);
        bench.must(bench.appraiser, id,
                   car::CorrectFacts{carWith({Fact::CombustionEngine, Fact::RunFlats}),
                                     "they are run-flats", bench.photo()});
        QVERIFY(bench.open(id, "tyre-plug").isNull());
        QVERIFY(!bench.open(id, "tyre-fit").isNull());
    }

    void work_thatSomethingElseNeeds_staysForThat()
    {
        PlugBench bench;
        const CarId id = bench.appraised();
        const FindingId hole = bench.found(id, "tyre-rear-left", Condition::Hole);
        bench.must(bench.appraiser, id,
                   car::OpenOperation{"tyre-plug", at("tyre-front-left"), "loses air"});
        bench.must(bench.mechanic, id,
                   car::OpenOperation{"tyre-fit", at("tyre-rear-left"), "bald"});
        const OperationId plug = bench.open(id, "tyre-plug", "tyre-rear-left");
        const OperationId byHand = bench.open(id, "tyre-plug", "tyre-front-left");
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.must(bench.checker, id,
                   car::CorrectFacts{carWith({Fact::CombustionEngine, Fact::RunFlats}),
                                     "they are run-flats", bench.photo()});
        QCOMPARE(bench.state(id, plug), OperationState::Withdrawn);
        QVERIFY(bench.operation(id, byHand).isOpen());
        // The tyre that is fitted anyhow is the one.
        QCOMPARE(bench.open(id, "tyre-fit"), fit);
        QCOMPARE(bench.operation(id, fit).findings, std::vector{hole});
    }

    void work_begunOnTheStrengthOfAWrongFact_isWithdrawnAndOwesItsChecks()
    {
        PlugBench bench;
        // Work that keeps the car as it stands would stay open.
        bench.spec("tyre-plug").immobilises = {};
        const CarId id = bench.appraised();
        bench.found(id, "tyre-rear-left", Condition::Hole);
        const OperationId plug = bench.open(id, "tyre-plug");
        bench.start(id, plug, bench.wheels);
        bench.must(bench.checker, id,
                   car::CorrectFacts{carWith({Fact::CombustionEngine, Fact::RunFlats}),
                                     "they are run-flats", bench.photo()});
        QCOMPARE(bench.state(id, plug), OperationState::Withdrawn);
        QVERIFY(!bench.operation(id, plug).isRunning());
        // The wheel may have been off.
        QVERIFY(!bench.open(id, "wheel-fixing-check").isNull());
        QVERIFY(!bench.open(id, "tyre-fit").isNull());
    }

    void work_thatIsDone_staysDone_andWhatIsWantedNowIsOpened()
    {
        PlugBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-rear-left", Condition::Hole);
        const OperationId plug = bench.open(id, "tyre-plug");
        bench.close(id, plug);
        // Nothing of safety goes: one person may say so.
        bench.must(bench.appraiser, id,
                   car::CorrectFacts{carWith({Fact::CombustionEngine, Fact::RunFlats}),
                                     "they are run-flats", bench.photo()});
        QCOMPARE(bench.state(id, plug), OperationState::Closed);
        QVERIFY(!bench.open(id, "tyre-fit").isNull());
    }

    void finding_thatNoRuleAnswersNow_isToBeDecided_andBackAgain()
    {
        Workbench bench;
        const CarFacts electric = carWith({Fact::TractionBattery});
        const CarId id = bench.appraised(electric);
        const FindingId broken = bench.found(id, "traction-battery", Condition::Broken);
        const OperationId repair = bench.open(id, "high-voltage-repair");
        QCOMPARE(bench.car(id).finding(broken)->rule, QStringLiteral("high-voltage"));
        bench.must(bench.checker, id,
                   car::CorrectFacts{carWith({Fact::CombustionEngine}), "no", bench.photo()});
        QCOMPARE(bench.state(id, repair), OperationState::Withdrawn);
        QVERIFY(bench.car(id).finding(broken)->undecided);
        QCOMPARE(bench.car(id).finding(broken)->rule, QString());
        bench.must(bench.checker, id,
                   car::CorrectFacts{electric, "it is after all", bench.photo()});
        QVERIFY(!bench.open(id, "high-voltage-repair").isNull());
        QVERIFY(!bench.car(id).finding(broken)->undecided);
    }

    // ---- what open work would have made due

    void fact_whoseSafetyWorkIsStillToCome_goesByASecondPersonOnly_data()
    {
        QTest::addColumn<bool>("samePerson");
        QTest::addColumn<bool>("photo");
        QTest::addColumn<QString>("expected");
        QTest::newRow("all there") << false << true << done;
        QTest::newRow("who said it") << true << true << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("no photo") << false << false << no(RefusalId::EvidenceMissing);
    }

    void fact_whoseSafetyWorkIsStillToCome_goesByASecondPersonOnly()
    {
        QFETCH(bool, samePerson);
        QFETCH(bool, photo);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
        bench.found(id, "windscreen", Condition::Crack);
        const OperationId fit = bench.open(id, "windscreen-fit");
        QVERIFY(bench.open(id, "camera-calibration").isNull());
        CarFacts none = bench.car(id).facts;
        none.has = {Fact::CombustionEngine};
        QCOMPARE(bench.ask(
                     samePerson ? bench.appraiser : bench.technician, id,
                     car::CorrectFacts{none, "no camera there", photo ? bench.photo() : PhotoId{}}),
                 expected);
        bench.close(id, fit);
        QCOMPARE(bench.open(id, "camera-calibration").isNull(), expected == done);
    }

    void fact_whoseSafetyWorkNothingOpenWouldBring_goesAlone()
    {
        Workbench bench;
        const CarId id = bench.appraised(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
        CarFacts none = bench.car(id).facts;
        none.has = {Fact::CombustionEngine};
        QCOMPARE(bench.ask(bench.appraiser, id,
                           car::CorrectFacts{none, "no camera there", bench.photo()}),
                 done);
    }

    void otherFacts_leaveFindingsAlone()
    {
        PlugBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-rear-left", Condition::Hole);
        CarFacts facts = bench.car(id).facts;
        facts.has.push_back(Fact::LeatherTrim);
        facts.keys = 1;
        const std::vector<CarEvent> events =
            bench.must(bench.appraiser, id, car::CorrectFacts{facts, "seen", bench.photo()});
        QCOMPARE(events.size(), 1u);
    }

    // ---- tyres that the car asks for

    void concern_fromAWrongSize_isTakenBackByASecondPerson_data()
    {
        QTest::addColumn<bool>("samePerson");
        QTest::addColumn<bool>("photo");
        QTest::addColumn<QString>("expected");
        QTest::newRow("all there") << false << true << done;
        QTest::newRow("who entered the size") << true << true << no(RefusalId::SecondPersonNeeded);
        QTest::newRow("no photo") << false << false << no(RefusalId::EvidenceMissing);
    }

    void concern_fromAWrongSize_isTakenBackByASecondPerson()
    {
        QFETCH(bool, samePerson);
        QFETCH(bool, photo);
        QFETCH(QString, expected);
        GaugeBench bench;
        const CarId id = bench.appraised();
        // Worn askew, whatever size it is.
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), Tread{35, 50, 52}, {}, "205/55 R16"});
        const CarFacts none = bench.car(id).facts;
        bench.must(bench.manager, id,
                   car::CorrectFacts{sized(none, "225/45 R17"), "off the door pillar", {}});
        const QStringList both{"wear/adjust", "mismatched/replace"};
        QCOMPARE(bench.foundAt(id, "tyre-rear-left"), both);
        const auto undecided = [&] {
            return std::ranges::count(bench.holds(id), HoldKind::UndecidedFinding, &Hold::kind);
        };
        const auto before = undecided();
        QCOMPARE(bench.ask(samePerson ? bench.manager : bench.appraiser, id,
                           car::CorrectFacts{sized(none, "205/55 R16"), "the other line",
                                             photo ? bench.photo() : PhotoId{}}),
                 expected);
        QCOMPARE(bench.foundAt(id, "tyre-rear-left"),
                 expected == done ? QStringList{"wear/adjust"} : both);
        QCOMPARE(before - undecided(), expected == done ? 1 : 0);
    }

    void concern_thatAnotherWrongSizeShowsToo_isSaidAnew()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), {}, {}, "205/55 R16"});
        const CarFacts none = bench.car(id).facts;
        bench.must(bench.manager, id,
                   car::CorrectFacts{sized(none, "225/45 R17"), "off the door pillar", {}});
        bench.must(bench.appraiser, id,
                   car::CorrectFacts{sized(none, "195/65 R15"), "read again", bench.photo()});
        QCOMPARE(bench.foundAt(id, "tyre-rear-left"), QStringList{"mismatched/replace"});
        QVERIFY(bench.noteAt(id, "tyre-rear-left").contains("195/65 R15"));
    }

    void concern_takenBack_takesItsWorkAlong()
    {
        GaugeBench bench;
        FindingRule unlike;
        unlike.id = QStringLiteral("unlike");
        unlike.placeKinds = {PlaceKind::Tyre};
        unlike.conditions = {Condition::Mismatched};
        unlike.opens = {QStringLiteral("tyre-fit")};
        bench.catalogue.rules.push_back(unlike);
        const CarId id = bench.appraised();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), {}, {}, "205/55 R16"});
        const CarFacts none = bench.car(id).facts;
        bench.must(bench.manager, id,
                   car::CorrectFacts{sized(none, "225/45 R17"), "off the door pillar", {}});
        const OperationId fit = bench.open(id, "tyre-fit");
        QVERIFY(!fit.isNull());
        bench.must(bench.appraiser, id,
                   car::CorrectFacts{sized(none, "205/55 R16"), "the other line", bench.photo()});
        QCOMPARE(bench.state(id, fit), OperationState::Withdrawn);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestFacts)
#include "tst_facts.moc"
