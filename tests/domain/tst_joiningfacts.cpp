// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "joinbench.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What the second entry of a car says of it as a whole: what it has, and where it stands.
class TestJoiningFacts : public QObject
{
    Q_OBJECT

private slots:
    // ---- what the car has

    void fact_saidThereAlone_opensTheCheckOfWorkHere_data()
    {
        QTest::addColumn<bool>("done");
        QTest::newRow("of work that is done") << true;
        QTest::newRow("of work that comes") << false;
    }

    void fact_saidThereAlone_opensTheCheckOfWorkHere()
    {
        QFETCH(bool, done);
        Twice bench(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
        bench.found(bench.keep, "windscreen", Condition::Crack);
        if (done)
            bench.close(bench.keep, bench.open(bench.keep, "windscreen-fit"));
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QVERIFY(bench.now().facts.is(Fact::ScreenCamera));
        if (!done)
            bench.close(bench.keep, bench.open(bench.keep, "windscreen-fit"));
        QVERIFY(!bench.open(bench.keep, "camera-calibration").isNull());
        QCOMPARE(bench.broken(bench.keep), QStringList());
    }

    void tractionBattery_saidThereAlone_isLookedAtAndCheckedHere()
    {
        Twice bench(carWith({Fact::TractionBattery}));
        const FindingId broken = bench.found(bench.keep, "traction-battery", Condition::Broken);
        QVERIFY(bench.now().finding(broken)->undecided);
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        const CarState car = bench.now();
        QVERIFY(std::ranges::find(car.safetyPlaces, at("traction-battery"), &SafetyPlace::place) !=
                car.safetyPlaces.end());
        QVERIFY(!bench.open(bench.keep, "battery-check").isNull());
        QVERIFY(!bench.open(bench.keep, "high-voltage-repair").isNull());
        QVERIFY(!car.finding(broken)->undecided);
        QVERIFY(car.facts.is(Fact::CombustionEngine));
        QCOMPARE(bench.broken(bench.keep), QStringList());
    }

    void fact_saidThereAlone_takesNoWorkAway()
    {
        Twice bench(carWith({Fact::FaceCutWheels}));
        FindingRule cut;
        cut.id = "kerbed-cut";
        cut.conditions = {Condition::Kerbed};
        cut.ifFact = Fact::FaceCutWheels;
        cut.opens = {"wheel-replace"};
        bench.catalogue.rules.insert(bench.catalogue.rules.begin(), cut);
        bench.hire("Ivo", {}, {}); // the catalogue in force is made anew
        bench.found(bench.keep, "wheel-front-left", Condition::Kerbed);
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QVERIFY(!bench.open(bench.keep, "wheel-replace").isNull());
        QVERIFY(!bench.open(bench.keep, "wheel-refurb").isNull());
        QCOMPARE(bench.broken(bench.keep), QStringList());
    }

    void factsNotSaidHere_areFilledIn_andTheOthersStay()
    {
        CarFacts there = carWith({});
        there.keys = 3;
        there.testCertificateMonths = 7;
        there.frontTyre = {"205/55 R16", 91, "V"};
        Twice bench(there);
        CarFacts here = bench.now().facts;
        here.keys = 0;
        here.testCertificateMonths = 5;
        here.frontTyre.size = "205/55 R16";
        bench.say(bench.appraiser, bench.keep, car::CorrectFacts{here, "off the door", {}});
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        const CarFacts now = bench.now().facts;
        QCOMPARE(now.keys, there.keys);
        QCOMPARE(now.testCertificateMonths, here.testCertificateMonths);
        QCOMPARE(now.frontTyre, there.frontTyre);
        QCOMPARE(bench.broken(bench.keep), QStringList());
    }

    void tyreSize_saidOtherwiseThere_staysAsItIsHere()
    {
        CarFacts there = carWith({Fact::CombustionEngine});
        there.frontTyre = {"225/45 R17", 91, "V"};
        there.rearTyre = {"245/40 R17", 95, "V"};
        Twice bench(there);
        CarFacts here = bench.now().facts;
        here.frontTyre.size = "205/55 R16";
        bench.say(bench.appraiser, bench.keep, car::CorrectFacts{here, "off the door", {}});
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QCOMPARE(bench.now().facts.frontTyre, here.frontTyre);
        QVERIFY(bench.now().facts.rearTyre.isEmpty());
    }

    void tyreSize_saidThereAlone_isWhatTheTyresHereAreJudgedBy()
    {
        CarFacts there = carWith({Fact::CombustionEngine});
        there.frontTyre.size = "205/55 R16";
        Twice bench(there);
        bench.say(bench.appraiser, bench.keep,
                  car::RecordTyre{at("tyre-front-left"), {}, {}, "225/45 R17"});
        QVERIFY(bench.now().findings.empty());
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QVERIFY(bench.now().hasFinding(at("tyre-front-left")));
        QCOMPARE(bench.broken(bench.keep), QStringList());
    }

    void fact_carriedOver_isOfWhoSaidItAndOfWhoJoinedTheTwo()
    {
        Twice bench(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
        bench.found(bench.keep, "windscreen", Condition::Crack);
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        const CarFacts none = carWith({Fact::CombustionEngine});
        for (const PersonId one : {bench.appraiser, bench.manager})
            QCOMPARE(
                bench.ask(one, bench.keep, car::CorrectFacts{none, "no camera", bench.photo()}),
                no(RefusalId::SecondPersonNeeded));
        bench.must(bench.checker, bench.keep, car::CorrectFacts{none, "no camera", bench.photo()});
    }

    // ---- where it stands

    void bay_ofTheSecondEntry_isWhereTheCarStands_data()
    {
        QTest::addColumn<bool>("apart");
        QTest::newRow("nobody is on it") << false;
        QTest::newRow("a wheel is off") << true;
    }

    void bay_ofTheSecondEntry_isWhereTheCarStands()
    {
        QFETCH(bool, apart);
        Twice bench;
        bench.must(bench.appraiser, bench.second, car::MoveCar{bench.lift, {}});
        if (apart) {
            bench.found(bench.keep, "tyre-front-left", Condition::Cut);
            bench.start(bench.keep, bench.open(bench.keep, "tyre-fit"), bench.wheels);
        }
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QCOMPARE(bench.now().bay, bench.lift);
        QVERIFY(bench.car(bench.second).bay.isNull());
        QCOMPARE(bench.ledger.bayTakenBy(bench.lift).value(), bench.now().identity.stockNumber);
        QCOMPARE(bench.broken(bench.keep), QStringList());
    }

    void bay_ofBoth_isThatOfTheEntryThatStays()
    {
        Twice bench;
        bench.must(bench.appraiser, bench.keep, car::MoveCar{bench.paintBay, {}});
        bench.must(bench.appraiser, bench.second, car::MoveCar{bench.lift, {}});
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QCOMPARE(bench.now().bay, bench.paintBay);
        QCOMPARE(bench.ledger.bayTakenBy(bench.lift).value(), QString());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestJoiningFacts)
#include "tst_joiningfacts.moc"
