// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/cataloguechecks.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What every car gets on arrival, and the places that somebody must have looked at.
class TestBaseline : public QObject
{
    Q_OBJECT

private slots:
    void smallCatalogue_ofTheBench_holdsTogether()
    {
        QCOMPARE(checkCatalogue(smallCatalogue()), QStringList());
    }

    void arrival_byFacts_opensBaseline_data()
    {
        QTest::addColumn<bool>("battery");
        QTest::addColumn<QStringList>("kinds");
        const QStringList all{"arrival-check", "inspection", "tyre-survey", "valet", "final-check"};
        QStringList withBattery = all;
        withBattery.insert(3, "battery-check");
        QTest::newRow("combustion engine") << false << all;
        QTest::newRow("traction battery") << true << withBattery;
    }

    void arrival_byFacts_opensBaseline()
    {
        QFETCH(bool, battery);
        QFETCH(QStringList, kinds);
        Workbench bench;
        const CarId id =
            bench.bringIn(carWith({battery ? Fact::TractionBattery : Fact::CombustionEngine}));
        QStringList opened;
        for (const auto& [number, operation] : bench.car(id).operations) {
            opened.append(operation.spec->id);
            QCOMPARE(operation.origin, Origin::Baseline);
            QCOMPARE(operation.catalogueHash, QStringLiteral("small"));
            QCOMPARE(operation.place, wholeCar());
        }
        QCOMPARE(opened, kinds);
    }

    void arrival_newCar_hasIdentityFactsAndStatusArriving()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        const CarState car = bench.car(id);
        QCOMPARE(car.identity.stockNumber, QStringLiteral("K1"));
        QCOMPARE(car.facts.odometer, 48'000);
        QCOMPARE(car.promised, QDate(2031, 3, 20));
        QCOMPARE(car.parking, QStringLiteral("yard"));
        QCOMPARE(bench.status(id), CarStatus::Arriving);
    }

    void safetyPlace_neverLookedAt_holdsAndNamesItsInspection()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id, car::FindSound{{at("brakes-front"), at("bonnet")}});
        bench.must(bench.appraiser, id, car::FinishAppraisal{});
        QStringList unseen;
        for (const Hold& hold : bench.holds(id))
            if (hold.kind == HoldKind::SafetyPlaceNotSeen) {
                QVERIFY(hold.safety);
                QVERIFY(!hold.operation.isNull());
                unseen.append(hold.place.text);
                const QString kind = bench.operation(id, hold.operation).spec->id;
                QCOMPARE(kind, hold.place.text.startsWith("brakes") || hold.place.text == "steering"
                                   ? QStringLiteral("inspection")
                                   : QStringLiteral("tyre-survey"));
            }
        QCOMPARE(unseen.size(), 10);
        QVERIFY(!unseen.contains("brakes-front"));
        QVERIFY(unseen.contains("brakes-rear"));
    }

    void safetyPlace_neverLookedAt_isClearedByItsInspection()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id, car::FinishAppraisal{});
        QCOMPARE(notLookedAt(bench.car(id)).size(), 11u);
        bench.close(id, bench.open(id, "inspection"));
        QCOMPARE(notLookedAt(bench.car(id)).size(), 8u);
        bench.close(id, bench.open(id, "tyre-survey"));
        QVERIFY(notLookedAt(bench.car(id)).empty());
    }

    void safetyPlace_findingMovedElsewhere_isUnseenAgain()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        // A slip of the finger: it was the rear brakes. Nobody looked at the front ones.
        const FindingId slip = bench.found(id, "brakes-front", Condition::Worn);
        bench.must(bench.checker, id,
                   car::CorrectFinding{slip, finding("brakes-rear", Condition::Worn), true,
                                       "wrong axle", bench.photo()});
        const CarState car = bench.car(id);
        QVERIFY(car.seen.contains(at("brakes-rear")));
        QVERIFY(!car.seen.contains(at("brakes-front")));
    }

    void safetyPlace_findingNotThere_countsAsLookedAt()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        const FindingId wrong = bench.found(id, "brakes-front", Condition::Worn);
        bench.must(bench.checker, id,
                   car::CorrectFinding{wrong, {}, false, "measured: sound", bench.photo()});
        QVERIFY(bench.car(id).seen.value(at("brakes-front")).sound);
    }

    void finding_atAPlace_opensWhatTheCatalogueAnswers_data()
    {
        QTest::addColumn<QString>("place");
        QTest::addColumn<int>("condition");
        QTest::addColumn<QString>("kind");
        QTest::addColumn<QString>("stands");
        const auto row = [](const char* name, const char* place, Condition condition,
                            const char* kind, const char* stands) {
            QTest::newRow(name) << QString(place) << int(condition) << QString(kind)
                                << QString(stands);
        };
        row("place scope", "wheel-front-left", Condition::Kerbed, "wheel-refurb",
            "wheel-front-left");
        row("axle scope", "brakes-rear", Condition::Worn, "brake-pads", "brakes-rear");
        row("glass", "windscreen", Condition::Crack, "windscreen-fit", "windscreen");
        row("panel", "bonnet", Condition::Scratch, "touch-in", "bonnet");
    }

    void finding_atAPlace_opensWhatTheCatalogueAnswers()
    {
        QFETCH(QString, place);
        QFETCH(int, condition);
        QFETCH(QString, kind);
        QFETCH(QString, stands);
        Workbench bench;
        const CarId id = bench.bringIn();
        const FindingId made = bench.found(id, qPrintable(place), Condition(condition));
        const Operation opened = bench.operation(id, bench.open(id, qPrintable(kind)));
        QCOMPARE(opened.place.text, stands);
        QCOMPARE(opened.origin, Origin::Finding);
        QCOMPARE(opened.findings, std::vector{made});
        QVERIFY(!bench.car(id).finding(made)->undecided);
    }

    void finding_twoInOneReach_shareOneOperation()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        const FindingId first = bench.found(id, "bonnet", Condition::Scratch);
        const FindingId second = bench.found(id, "bonnet", Condition::Chip);
        const std::vector expected{first, second};
        QCOMPARE(bench.operation(id, bench.open(id, "touch-in")).findings, expected);
    }

    void finding_leftByARule_isDisclosedAndHoldsNothing()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        FindingData data = finding("bonnet", Condition::Scratch);
        data.remedies = {Remedy::Leave};
        bench.must(bench.appraiser, id, car::RecordFinding{data, {}});
        QVERIFY(bench.car(id).findings.begin()->second.disclosed);
        QVERIFY(bench.open(id, "touch-in").isNull());
    }

    void finding_answeredByNoRuleAtSafetyPlace_holdsUntilWorkIsAdded()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Noise);
        const auto undecided = [&] {
            return std::ranges::count(bench.holds(id), HoldKind::UndecidedFinding, &Hold::kind);
        };
        QCOMPARE(undecided(), 1);
        bench.must(bench.mechanic, id,
                   car::OpenOperation{"steering-part", at("steering"), "it knocks"});
        QCOMPARE(undecided(), 0);
        QVERIFY(!bench.open(id, "steering-part").isNull());
    }

    void tread_belowTheHouseMinimum_opensATyreWhoeverTypedIt_data()
    {
        QTest::addColumn<int>("lowest");
        QTest::addColumn<bool>("opens");
        QTest::newRow("below") << 29 << true;
        QTest::newRow("at the minimum") << 30 << false;
        QTest::newRow("above") << 62 << false;
    }

    void tread_belowTheHouseMinimum_opensATyreWhoeverTypedIt()
    {
        QFETCH(int, lowest);
        QFETCH(bool, opens);
        Workbench bench;
        const CarId id = bench.bringIn();
        const car::RecordTread tread{at("tyre-rear-left"), {70, lowest, 70}};
        bench.must(bench.appraiser, id, tread);
        QCOMPARE(!bench.open(id, "tyre-fit", "tyre-rear-left").isNull(), opens);
        // Said again by somebody else: it is one tyre and one operation.
        bench.must(bench.mechanic, id, tread);
        QCOMPARE(std::ranges::count_if(
                     bench.car(id).operations,
                     [](const auto& entry) { return entry.second.spec->id == "tyre-fit"; }),
                 opens ? 1 : 0);
    }

    void fact_thatComes_opensItsBaselineAndItsSafetyPlaces()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(
            bench.appraiser, id,
            car::CorrectFacts{carWith({Fact::TractionBattery}), "it is electric", bench.photo()});
        const Operation opened = bench.operation(id, bench.open(id, "battery-check"));
        QCOMPARE(opened.origin, Origin::Fact);
        QCOMPARE(notLookedAt(bench.car(id)).size(), 1u);
    }

    void fact_thatComes_opensTheChecksOfWorkThatIsClosed()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        bench.close(id, bench.open(id, "windscreen-fit"));
        QVERIFY(bench.open(id, "camera-calibration").isNull());
        bench.must(bench.appraiser, id,
                   car::CorrectFacts{carWith({Fact::CombustionEngine, Fact::ScreenCamera}),
                                     "there is a camera", bench.photo()});
        QVERIFY(!bench.open(id, "camera-calibration").isNull());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBaseline)
#include "tst_baseline.moc"
