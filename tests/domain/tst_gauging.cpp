// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "gaugebench.h"

#include "domain/audit.h"
#include "domain/reviewing.h"
#include "domain/words.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

class TestGauging : public QObject
{
    Q_OBJECT

private slots:
    void value_isOne_andItsUnitAgrees()
    {
        QCOMPARE(valueWords(1, 0, Unit::Day), QStringLiteral("1 day"));
        QCOMPARE(valueWords(10, 1, Unit::Month), QStringLiteral("1.0 months"));
        QCOMPARE(valueWords(2, 0, Unit::Year), QStringLiteral("2 years"));
        QCOMPARE(valueWords(15, 1, Unit::Year), QStringLiteral("1.5 years"));
    }

    void odometer_showingLess_wantsAReason()
    {
        GaugeBench bench;
        CarFacts facts = carWith({Fact::CombustionEngine});
        facts.odometer = 41'200;
        const CarId id = bench.bringIn(facts);
        QCOMPARE(bench.ask(bench.mechanic, id, car::ReadOdometer{41'100, DistanceUnit::Miles}),
                 no(RefusalId::OdometerLower));
        QVERIFY(bench.lastWords().contains("41200 mi"));
        bench.must(bench.mechanic, id, car::ReadOdometer{41'209, DistanceUnit::Miles});
        QCOMPARE(bench.car(id).lastOdometer()->value, 41'209);
        // What it showed on arrival stays.
        QCOMPARE(bench.car(id).facts.odometer, 41'200);
        // 41209 miles are 66319.5 km: the display of a new cluster may show either side of it.
        QCOMPARE(bench.ask(bench.mechanic, id, car::ReadOdometer{66'300, DistanceUnit::Kilometres}),
                 no(RefusalId::OdometerLower));
        bench.must(bench.mechanic, id, car::ReadOdometer{66'319, DistanceUnit::Kilometres});
        bench.must(bench.mechanic, id,
                   car::ReadOdometer{12, DistanceUnit::Kilometres, {}, "new instrument cluster"});
        QCOMPARE(bench.car(id).lastOdometer()->lowerWhy, QStringLiteral("new instrument cluster"));
        QCOMPARE(bench.ask(bench.mechanic, id, car::ReadOdometer{0, DistanceUnit::Miles}),
                 no(RefusalId::ValueOutOfRange));
        // A facts correction to less says why by itself.
        facts.odometer = 14'200;
        QCOMPARE(bench.ask(bench.manager, id, car::CorrectFacts{facts, {}, {}}),
                 no(RefusalId::ReasonMissing));
        bench.must(bench.manager, id, car::CorrectFacts{facts, "digits were turned", {}});
    }

    void odometer_readDuringWork_countsForTheCar()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        const OperationId survey = bench.open(id, "tyre-survey");
        bench.start(id, survey, bench.wheels);
        const car::TakeReading less{survey, "odometer", {}, number(47'990)};
        QCOMPARE(bench.ask(bench.wheels, id, less), no(RefusalId::OdometerLower));
        bench.must(bench.wheels, id, car::TakeReading{survey, "odometer", {}, number(49'000)});
        QCOMPARE(bench.car(id).lastOdometer()->value, 49'000);
        QCOMPARE(bench.car(id).lastOdometer()->during, survey);
        const ReadingId taken = bench.operation(id, survey).reading("odometer", {})->id;
        bench.must(bench.checker, id,
                   car::CorrectReading{survey, taken, number(48'009), "misread", bench.photo()});
        QCOMPARE(bench.car(id).lastOdometer()->value, 48'009);
        QCOMPARE(bench.car(id).lastOdometer()->lowerWhy, QStringLiteral("misread"));
    }

    void odometer_olderReadingCorrected_isNotTheLast()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        const OperationId survey = bench.open(id, "tyre-survey");
        bench.start(id, survey, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{survey, "odometer", {}, number(49'000)});
        bench.clock.pass(10);
        bench.must(bench.mechanic, id, car::ReadOdometer{49'010, DistanceUnit::Miles});
        for (const auto& [who, value] :
             {std::pair(bench.checker, 48'900), std::pair(bench.manager, 48'009)}) {
            bench.clock.pass(10);
            const ReadingId taken = bench.operation(id, survey).reading("odometer", {})->id;
            bench.must(who, id,
                       car::CorrectReading{survey, taken, number(value), "misread", bench.photo()});
            QCOMPARE(bench.car(id).lastOdometer()->value, 49'010);
        }
        // It stands where it was read, behind what it corrects.
        const std::vector<OdometerReading> read = bench.car(id).odometer;
        QCOMPARE(read.size(), std::size_t{4});
        QCOMPARE(read.at(2).value, 48'009);
        QCOMPARE(read.at(2).at, read.front().at);
        QCOMPARE(read.at(2).lowerWhy, QStringLiteral("misread"));
        QCOMPARE(bench.ask(bench.mechanic, id, car::ReadOdometer{49'009, DistanceUnit::Miles}),
                 no(RefusalId::OdometerLower));
        QCOMPARE(bench.broken(id), QStringList());
    }

    void odometerUnit_correctedAmongTheFacts_isThatOfTheNextReading()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        const auto unit = [&] {
            const CarState car = bench.car(id);
            return car.unitOf(car.lastOdometer());
        };
        bench.clock.pass(10);
        bench.must(bench.mechanic, id, car::ReadOdometer{48'010, DistanceUnit::Miles});
        bench.clock.pass(10);
        CarFacts facts = bench.car(id).facts;
        facts.odometerUnit = DistanceUnit::Kilometres;
        bench.must(bench.checker, id, car::CorrectFacts{facts, "it counts km", bench.photo()});
        QCOMPARE(unit(), DistanceUnit::Kilometres);
        // Work that reads it has no field for why: the correction says so.
        const OperationId survey = bench.open(id, "tyre-survey");
        bench.start(id, survey, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{survey, "odometer", {}, number(48'015)});
        QCOMPARE(bench.car(id).lastOdometer()->value, 48'015);
        QCOMPARE(bench.car(id).lastOdometer()->unit, DistanceUnit::Kilometres);
        QCOMPARE(bench.car(id).lastOdometer()->lowerWhy,
                 QStringLiteral("its unit was corrected since"));
        // What was read since is believed.
        bench.clock.pass(10);
        bench.must(bench.mechanic, id,
                   car::ReadOdometer{48'020, DistanceUnit::Miles, {}, "another cluster"});
        QCOMPARE(unit(), DistanceUnit::Miles);
        QCOMPARE(bench.broken(id), QStringList());
    }

    void odometer_lowerInTheLedgerWithoutReason_isBlamed()
    {
        GaugeBench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id, car::ReadOdometer{48'500, DistanceUnit::Miles});
        const CarState state = bench.car(id);
        const SiteState site = bench.ledger.site().value();
        const auto broken = [&](const QString& why) {
            return rulesBroken(state,
                               {{state.seq + 1,
                                 bench.clock.now(),
                                 bench.mechanic,
                                 {},
                                 OdometerRead{48'499, DistanceUnit::Miles, {}, why}}},
                               site);
        };
        QCOMPARE(broken({}).size(), 1);
        QCOMPARE(broken("cluster changed").size(), 0);
    }

    void showsLess_acrossUnits_allowsForTheDisplay_data()
    {
        QTest::addColumn<int>("value");
        QTest::addColumn<bool>("kilometres");
        QTest::addColumn<int>("before");
        QTest::addColumn<bool>("kilometresBefore");
        QTest::addColumn<bool>("less");
        QTest::newRow("same") << 100 << false << 100 << false << false;
        QTest::newRow("one less") << 99 << false << 100 << false << true;
        // 100 miles are 160.93 km.
        QTest::newRow("160 km after 100 mi") << 160 << true << 100 << false << false;
        QTest::newRow("159 km after 100 mi") << 159 << true << 100 << false << true;
        QTest::newRow("100 mi after 161 km") << 100 << false << 161 << true << false;
        QTest::newRow("99 mi after 161 km") << 99 << false << 161 << true << true;
        QTest::newRow("the largest") << 2'000'000 << false << 2'000'000 << true << false;
    }

    void showsLess_acrossUnits_allowsForTheDisplay()
    {
        QFETCH(int, value);
        QFETCH(bool, kilometres);
        QFETCH(int, before);
        QFETCH(bool, kilometresBefore);
        QFETCH(bool, less);
        const auto unit = [](bool km) {
            return km ? DistanceUnit::Kilometres : DistanceUnit::Miles;
        };
        QCOMPARE(showsLess(value, unit(kilometres), before, unit(kilometresBefore)), less);
    }

    void screen_zones_areKeptApart_data()
    {
        QTest::addColumn<int>("fromWheel");
        QTest::addColumn<int>("size");
        QTest::addColumn<bool>("sensor");
        QTest::addColumn<QString>("zone");
        QTest::addColumn<bool>("passes");
        QTest::addColumn<bool>("fills");
        QTest::newRow("small before the driver")
            << 0 << 10 << false << "driver-test" << true << true;
        QTest::newRow("over 10 before the driver: fails, yet can be filled")
            << -100 << 11 << false << "driver-test" << false << true;
        QTest::newRow("over 20 before the driver")
            << 100 << 21 << false << "driver-test" << false << false;
        // The middle is outside 145 mm, the edge reaches in.
        QTest::newRow("reaching in") << 150 << 12 << false << "driver-test" << false << true;
        QTest::newRow("between 290 and 400: the test allows 40, the repair 20")
            << 180 << 25 << false << "driver-repair" << true << false;
        QTest::newRow("between, small") << 180 << 18 << false << "driver-repair" << true << true;
        QTest::newRow("beyond both") << 600 << 40 << false << "swept" << true << true;
        QTest::newRow("beyond both, large") << 600 << 41 << false << "swept" << false << false;
        QTest::newRow("at the camera") << 400 << 4 << true << "swept" << true << false;
    }

    void screen_zones_areKeptApart()
    {
        QFETCH(int, fromWheel);
        QFETCH(int, size);
        QFETCH(bool, sensor);
        QFETCH(QString, zone);
        QFETCH(bool, passes);
        QFETCH(bool, fills);
        GaugeBench bench;
        const ScreenSpot spot{ScreenZone::Unswept, fromWheel, sensor};
        QCOMPARE(nameOf(reached(spot, size)), zone);
        const ScreenVerdict verdict = judgeScreen(spot, size, bench.catalogue, {});
        QCOMPARE(verdict.passesTest, std::optional(passes));
        QCOMPARE(verdict.mayBeFilled, std::optional(fills));
        QVERIFY(verdict.testWords.contains("house"));
        QVERIFY(!verdict.repairWords.isEmpty());
        // No figure: nothing is concluded, but a sensor's window is a sensor's window.
        const ScreenVerdict unknown = judgeScreen(spot, size, Catalogue{}, {});
        QVERIFY(!unknown.passesTest);
        QCOMPARE(unknown.mayBeFilled.has_value(), sensor);
    }

    void screen_finding_getsTheRemedyThatItsZoneAllows_data()
    {
        QTest::addColumn<int>("zone");
        QTest::addColumn<int>("size");
        QTest::addColumn<QString>("said"); // remedy of the appraiser
        QTest::addColumn<QString>("found");
        const auto zone = [](ScreenZone z) { return int(z); };
        QTest::newRow("small, elsewhere") << zone(ScreenZone::Swept) << 8 << ""
                                          << "chip/repair";
        QTest::newRow("too large to fill, fails") << zone(ScreenZone::DriverTest) << 24 << "repair"
                                                  << "chip/replace";
        QTest::newRow("too large to fill, passes")
            << zone(ScreenZone::DriverRepair) << 24 << "repair"
            << "chip/investigate";
        QTest::newRow("said to be replaced") << zone(ScreenZone::Swept) << 8 << "replace"
                                             << "chip/replace";
    }

    void screen_finding_getsTheRemedyThatItsZoneAllows()
    {
        QFETCH(int, zone);
        QFETCH(int, size);
        QFETCH(QString, said);
        QFETCH(QString, found);
        GaugeBench bench;
        const CarId id = bench.bringIn();
        FindingData chip = finding("windscreen", Condition::Chip);
        chip.sizeMm = size;
        chip.screen = ScreenSpot{ScreenZone(zone), {}, false};
        if (const auto remedy = fromName<Remedy>(said))
            chip.remedies = {*remedy};
        bench.must(bench.appraiser, id, car::RecordFinding{chip, {}});
        QCOMPARE(bench.foundAt(id, "windscreen"), QStringList{found});
        QVERIFY(bench.noteAt(id, "windscreen").contains("mm"));
        // A place on the screen is a place on the screen.
        chip.place = at("bonnet");
        QCOMPARE(bench.ask(bench.appraiser, id, car::RecordFinding{chip, {}}),
                 no(RefusalId::ValueOutOfRange));
    }

    void paint_panels_areComparedWithEachOther()
    {
        GaugeBench bench;
        // A worked car: medians 104, 110, 106, 108, 102, 240, 105, 104; the sixth was repainted.
        const PaintDepths depths{
            {at("bonnet"), {102, 104, 107}},           {at("roof"), {109, 110, 113}},
            {at("tailgate"), {104, 106, 108}},         {at("wing-left"), {106, 108, 108}},
            {at("wing-right"), {101, 102, 106}},       {at("front-door-left"), {230, 240, 255}},
            {at("front-door-right"), {104, 105, 620}}, {at("quarter-left"), {103, 104, 105}},
        };
        const PaintComparison all = comparePaint(depths, bench.catalogue, {});
        QVERIFY(all.enough);
        // In order: 102 104 104 105 106 108 110 240; the deviations from 105: 0 1 1 1 3 3 5 135.
        QCOMPARE(all.median, 105);
        QCOMPARE(all.scatter, 2);
        const auto panel = [&](const char* place) {
            return *std::ranges::find(all.panels, at(place), &PanelPaint::panel);
        };
        QCOMPARE(panel("bonnet").sign, PaintSign::Alike);
        QCOMPARE(panel("roof").sign, PaintSign::Alike);
        QCOMPARE(panel("front-door-left").sign, PaintSign::Thicker);
        QVERIFY(panel("front-door-left").words.contains("over 200 µm (house"));
        QCOMPARE(panel("front-door-right").sign, PaintSign::ThickerInPlaces);
        QVERIFY(panel("front-door-right").words.contains("over 500 µm (house"));
        QVERIFY(panel("front-door-right").words.contains("filler"));
        // 0.6745 * 135 / 2 = 45.5
        QCOMPARE(panel("front-door-left").scoreTenths, 455);
    }

    void paint_thickCar_hasNothingThatStandsOut()
    {
        // All over 200: a car with thick paint, no repair. There is no universal figure.
        const PaintDepths depths{{at("bonnet"), {240, 245, 251}},
                                 {at("roof"), {238, 243, 249}},
                                 {at("tailgate"), {236, 247, 250}},
                                 {at("wing-left"), {241, 246, 248}}};
        for (const PanelPaint& panel : comparePaint(depths, GaugeBench().catalogue, {}).panels)
            QCOMPARE(panel.sign, PaintSign::Alike);
        PaintDepths few = depths;
        few.erase(at("roof"));
        few[at("bonnet")] = {900, 900, 900};
        const PaintComparison three = comparePaint(few, Catalogue{}, {});
        QVERIFY(!three.enough);
        QVERIFY(std::ranges::all_of(
            three.panels, [](const PanelPaint& p) { return p.sign == PaintSign::Alike; }));
    }

    void paint_thatStandsOut_isAFindingOnlyWhenSomebodySaysSo()
    {
        GaugeBench bench;
        const CarId id = bench.bringIn();
        const auto measure = [&](const char* panel, std::vector<int> depths) {
            return bench.ask(bench.appraiser, id,
                             car::RecordPaintDepth{at(panel), std::move(depths)});
        };
        QCOMPARE(measure("bonnet", {100, 101}), no(RefusalId::FieldMissing));
        QCOMPARE(measure("front-bumper", {100, 101, 102}), no(RefusalId::ValueOutOfRange));
        QCOMPARE(measure("bonnet", {100, -1, 100}), no(RefusalId::ValueOutOfRange));
        QCOMPARE(measure("bonnet", {100, 101, 104}), done);
        QCOMPARE(measure("roof", {98, 99, 104}), done);
        QCOMPARE(measure("tailgate", {99, 102, 103}), done);
        QCOMPARE(measure("wing-left", {300, 310, 320}), done);
        QVERIFY(bench.car(id).findings.empty());
        QCOMPARE(bench.ask(bench.appraiser, id, car::ConfirmRepair{at("roof")}),
                 no(RefusalId::PaintAlike));
        bench.must(bench.appraiser, id, car::ConfirmRepair{at("wing-left"), "edge of mask seen"});
        bench.must(bench.painter, id, car::ConfirmRepair{at("wing-left")});
        QCOMPARE(bench.foundAt(id, "wing-left"), QStringList{"previous-repair/"});
        QVERIFY(bench.noteAt(id, "wing-left").contains("310 µm"));
        QVERIFY(bench.noteAt(id, "wing-left").contains("edge of mask seen"));
    }

    // ---- what was said on a walk-round

    void whatIsLeftOfARound_followsFromTheCar()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        SpokenRound round;
        round.transcript = {"words"};
        for (const auto& [place, percent] :
             {std::pair{"roof", 93}, std::pair{"bonnet", 63}, std::pair{"tyre-front-left", 55}}) {
            SpokenDraft draft;
            draft.data = finding(place, Condition::Worn);
            draft.percent = percent;
            round.drafts.push_back(draft);
        }
        const PlaceId tyre{QStringLiteral("tyre-front-left")};
        const PlaceId other{QStringLiteral("tyre-front-right")};
        round.depths = {{tyre, 40, 40, {}, {}}, {other, 50, 50, {}, {}}, {other, 44, 46, {}, {}}};
        round.sound = {{QStringLiteral("roof")}, {QStringLiteral("grille")}};
        round.notMentioned = {{QStringLiteral("horn")}, {QStringLiteral("locks")}};
        round.facts.keys = bench.car(id).facts.keys + 1;
        bench.must(bench.appraiser, id, car::TakeSpeech{round});
        const auto left = [&] { return leftOf(bench.car(id), bench.car(id).spoken.front()); };

        // The least likely first; a tyre that was spoken of twice has the span.
        QCOMPARE(left().doubtful, (std::vector{2, 1}));
        QCOMPARE(left().sure, std::vector{0});
        QCOMPARE(left().depths.size(), std::size_t{2});
        QVERIFY(treadOf(left().depths.front()).has_value());
        QVERIFY(waitsForDraft(bench.car(id).spoken.front(), tyre));
        QCOMPARE(left().depths.back().lowTenthsMm, 44);
        QCOMPARE(left().depths.back().highTenthsMm, 50);
        QVERIFY(!treadOf(left().depths.back()).has_value());
        // Said to be sound, and something was found there: that is decided first.
        QCOMPARE(left().sound, std::vector{PlaceId{QStringLiteral("grille")}});
        bench.must(bench.appraiser, id, car::DropDraft{{round.transcript, 0}});
        QCOMPARE(left().sound.size(), std::size_t{2});

        bench.must(bench.appraiser, id, car::FindSound{left().sound});
        bench.must(bench.appraiser, id, car::FindSound{{{QStringLiteral("horn")}}});
        bench.must(bench.appraiser, id, car::RecordTyre{other, Tread{45, 46, 47}});
        for (const CarCommand& command : takeFacts(bench.car(id), left().facts, "said"))
            bench.must(bench.appraiser, id, command);
        QVERIFY(left().sound.empty());
        QCOMPARE(left().notMentioned, std::vector{PlaceId{QStringLiteral("locks")}});
        QCOMPARE(left().depths.size(), std::size_t{1});
        QVERIFY(!left().facts.keys.has_value());
    }

    void odometerThatShowsLess_isNotTaken()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id, car::ReadOdometer{90'000, DistanceUnit::Miles});
        SaidOfCar said;
        said.odometer = 89'000;
        QVERIFY(saysLess(bench.car(id), said));
        QVERIFY(takeFacts(bench.car(id), said, "said").empty());
        said.odometer = 90'010;
        QCOMPARE(takeFacts(bench.car(id), said, "said").size(), std::size_t{1});
    }

    void fileName_namesACar_data()
    {
        QTest::addColumn<QString>("file");
        QTest::addColumn<QString>("number");
        QTest::newRow("whole") << "R-208.vtt"
                               << "R-208";
        QTest::newRow("among words") << "walk R-208 tuesday.srt"
                                     << "R-208";
        QTest::newRow("without the dash") << "r208_walk.txt"
                                          << "R-208";
        QTest::newRow("longer number") << "R-2081 walk.vtt"
                                       << "R-2081";
        QTest::newRow("part of another word") << "AR-208x.vtt"
                                              << "";
        QTest::newRow("none") << "New recording 12.txt"
                              << "";
        QTest::newRow("two cars") << "R-208 and K-711.txt"
                                  << "";
        QTest::newRow("ending is no number") << "walk.K-7"
                                             << "";
    }

    void fileName_namesACar()
    {
        QFETCH(const QString, file);
        QFETCH(const QString, number);
        const std::vector<QString> numbers{"R-208", "R-2081", "K-711", "K-7", ""};
        const auto named = numberNamedBy(file, numbers);
        QCOMPARE(named ? numbers[*named] : QString(), number);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestGauging)
#include "tst_gauging.moc"
