// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "workbench.h"

#include "domain/audit.h"
#include "domain/tyreconcerns.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

NamedLimit houseLimit(const char* name, Unit unit, int decimals, std::optional<int> min,
                      std::optional<int> max)
{
    NamedLimit limit;
    limit.name = QString::fromLatin1(name);
    limit.unit = unit;
    limit.decimals = decimals;
    limit.source = QStringLiteral("house default");
    limit.min = min;
    limit.max = max;
    return limit;
}

/// The bench with the figures that tyres, glass and paint are judged by, and a tyre survey that
/// asks for three points.
struct GaugeBench : Workbench
{
    GaugeBench()
    {
        catalogue.houseLimits = {
            houseLimit("tread-legal", Unit::Millimetre, 1, 16, {}),
            houseLimit("tread-house", Unit::Millimetre, 1, 30, {}),
            houseLimit("tread-spread", Unit::Millimetre, 1, {}, 15),
            houseLimit("tread-axle-difference", Unit::Millimetre, 1, {}, 20),
            houseLimit("tyre-inspect-years", Unit::Year, 0, {}, 6),
            houseLimit("tyre-replace-years", Unit::Year, 0, {}, 10),
            houseLimit("screen-zone-a", Unit::Millimetre, 0, {}, 10),
            houseLimit("screen-swept", Unit::Millimetre, 0, {}, 40),
            houseLimit("screen-repair", Unit::Millimetre, 0, {}, 40),
            houseLimit("screen-repair-driver", Unit::Millimetre, 0, {}, 20),
            houseLimit("paint-repaint-hint", Unit::Micrometre, 0, {}, 200),
            houseLimit("paint-filler-hint", Unit::Micrometre, 0, {}, 500),
        };
        for (OperationSpec& spec : catalogue.operations)
            if (spec.id == QLatin1String("tyre-survey"))
                addTreadPoints(spec);
    }

    static void addTreadPoints(OperationSpec& spec)
    {
        for (const char* key : {"tread-inner", "tread-centre", "tread-outer"}) {
            ReadingSpec reading;
            reading.key = reading.title = QString::fromLatin1(key);
            reading.kind = ReadingKind::Limit;
            reading.unit = Unit::Millimetre;
            reading.decimals = 1;
            reading.limits = {{LimitOwner::House, QStringLiteral("house default"), 30, {}}};
            reading.places = {at("tyre-front-left"), at("tyre-front-right")};
            reading.opens = QStringLiteral("tyre-fit");
            reading.optional = true;
            spec.readings.push_back(reading);
        }
        ReadingSpec date;
        date.key = date.title = QStringLiteral("date-code");
        date.kind = ReadingKind::Text;
        date.places = {at("tyre-front-left")};
        date.optional = true;
        spec.readings.push_back(date);
    }

    /// "condition/remedy" of every finding that stands on a place, in order.
    QStringList foundAt(const CarId& id, const char* place)
    {
        QStringList found;
        for (const auto& [number, finding] : car(id).findings)
            if (finding.stands() && finding.data().place == at(place))
                found.append(QStringLiteral("%1/%2").arg(
                    nameOf(finding.data().condition),
                    finding.data().remedies.empty() ? QString()
                                                    : nameOf(finding.data().remedies.front())));
        return found;
    }

    QString noteAt(const CarId& id, const char* place)
    {
        QString note;
        for (const auto& [number, finding] : car(id).findings)
            if (finding.stands() && finding.data().place == at(place))
                note = finding.data().note;
        return note;
    }
};

} // namespace

class TestGauging : public QObject
{
    Q_OBJECT

private slots:
    void readDateCode_typed_isReadOrRefusedInWords_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<QString>("said"); // "week/year", or part of the refusal
        QTest::newRow("four digits") << "2319"
                                     << "23/2019";
        QTest::newRow("the whole code") << "DOT K9X2 ABCD 0125"
                                        << "1/2025";
        QTest::newRow("last week") << "5320"
                                   << "53/2020";
        QTest::newRow("this week") << "1131"
                                   << "11/2031";
        QTest::newRow("next week") << "1231"
                                   << "still to come";
        QTest::newRow("week 0") << "0019"
                                << "weeks 01 to 53";
        QTest::newRow("week 54") << "5419"
                                 << "weeks 01 to 53";
        QTest::newRow("three digits") << "519"
                                      << "before 2000";
        QTest::newRow("letters") << "23A9"
                                 << "last four digits";
        QTest::newRow("five digits") << "23190"
                                     << "last four digits";
        QTest::newRow("nothing") << " "
                                 << "last four digits";
    }

    void readDateCode_typed_isReadOrRefusedInWords()
    {
        QFETCH(QString, typed);
        QFETCH(QString, said);
        const auto code = readDateCode(typed, QDate(2031, 3, 12));
        const QString answer =
            code ? QStringLiteral("%1/%2").arg(code->week).arg(code->year) : code.error();
        QVERIFY2(answer.contains(said), qPrintable(answer));
    }

    void dateCode_age_countsWholeYearsFromItsMonday()
    {
        // 6 June 2016 is the Monday of week 23 in ISO 8601.
        const DateCode code{23, 2016};
        QCOMPARE(code.monday(), QDate(2016, 6, 6));
        QCOMPARE(code.yearsOn(QDate(2022, 6, 5)), 5);
        QCOMPARE(code.yearsOn(QDate(2022, 6, 6)), 6);
        QCOMPARE(code.yearsOn(QDate(2016, 1, 1)), 0);
    }

    void readTyreSize_typed_isOneSpelling_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<QString>("spelt");
        QTest::addColumn<QString>("construction");
        QTest::newRow("blanks") << "205/55 R 16"
                                << "205/55 R16"
                                << "R";
        QTest::newRow("with service") << "205/55r16 91v"
                                      << "205/55 R16 91V"
                                      << "R";
        QTest::newRow("ZR") << "225/40ZR18 (Y)"
                            << ""
                            << "";
        QTest::newRow("ZR with load") << "225/40ZR18 92(Y)"
                                      << "225/40 R18 92(Y)"
                                      << "R";
        QTest::newRow("van") << "185R14C 102/100Q"
                             << "185 R14C 102Q"
                             << "R";
        QTest::newRow("diagonal") << "155/80-13"
                                  << "155/80 -13"
                                  << "-";
        QTest::newRow("words") << "wide ones"
                               << ""
                               << "";
    }

    void readTyreSize_typed_isOneSpelling()
    {
        QFETCH(QString, typed);
        QFETCH(QString, spelt);
        QFETCH(QString, construction);
        const auto size = readTyreSize(typed);
        QCOMPARE(size ? fitmentWords(size->fitment) : QString(), spelt);
        QCOMPARE(size ? QString(size->construction) : QString(), construction);
    }

    void serviceDescription_tables_haveTheStandardsValues()
    {
        const std::vector<std::pair<int, int>> loads{{60, 250},  {75, 387},   {91, 615},
                                                     {100, 800}, {121, 1450}, {130, 1900}};
        for (const auto& [index, kilograms] : loads)
            QCOMPARE(loadOfIndex(index), std::optional(kilograms));
        QVERIFY(!loadOfIndex(59));
        QVERIFY(!loadOfIndex(131));
        // Twenty steps are the factor 10^(1/4), to within the rounding of the table.
        for (int index = 60; index + 20 <= 130; ++index) {
            const double factor = double(*loadOfIndex(index + 20)) / *loadOfIndex(index);
            QVERIFY2(factor >= 1.75 && factor < 1.81, qPrintable(QString::number(index)));
        }
        QCOMPARE(speedOfSymbol("H"), std::optional(210));
        QCOMPARE(speedOfSymbol("V"), std::optional(240));
        QVERIFY(speedOfSymbol("(Y)") == std::optional(300));
        QVERIFY(!speedOfSymbol("O"));
        QVERIFY(!tidied(TyreFitment{{}, 40, {}}));
        QVERIFY(!tidied(TyreFitment{{}, {}, "O"}));
    }

    void tyre_readings_giveWhatFollows_data()
    {
        QTest::addColumn<Tread>("tread");
        QTest::addColumn<QString>("dateCode");
        QTest::addColumn<QStringList>("found");
        QTest::addColumn<QString>("said");
        const QStringList nothing;
        QTest::newRow("good") << Tread{60, 61, 60} << "2528" << nothing << "";
        QTest::newRow("below the house's") << Tread{31, 29, 31} << "" << QStringList{"worn/replace"}
                                           << "2.9 mm at the lowest point; at least 3.0 mm (house";
        QTest::newRow("below the law's")
            << Tread{15, 29, 29} << "" << QStringList{"worn/replace"} << "at least 1.6 mm";
        QTest::newRow("askew") << Tread{40, 48, 55} << "" << QStringList{"wear/adjust"}
                               << "1.5 mm apart suggests the wheel alignment";
        QTest::newRow("nearly askew") << Tread{40, 48, 54} << "" << nothing << "";
        // It is March 2031 on the bench.
        QTest::newRow("old enough to look")
            << Tread{60, 60, 60} << "0525" << QStringList{"overdue/investigate"} << "6 years old";
        QTest::newRow("not yet") << Tread{60, 60, 60} << "2025" << nothing << "";
        QTest::newRow("too old") << Tread{60, 60, 60} << "0521" << QStringList{"overdue/replace"}
                                 << "10 years old: replace by 10 years (house";
    }

    void tyre_readings_giveWhatFollows()
    {
        QFETCH(Tread, tread);
        QFETCH(QString, dateCode);
        QFETCH(QStringList, found);
        QFETCH(QString, said);
        GaugeBench bench;
        const CarId id = bench.bringIn();
        const car::RecordTyre tyre{at("tyre-rear-left"), tread, dateCode};
        bench.must(bench.appraiser, id, tyre);
        QCOMPARE(bench.foundAt(id, "tyre-rear-left"), found);
        QVERIFY2(bench.noteAt(id, "tyre-rear-left").contains(said),
                 qPrintable(bench.noteAt(id, "tyre-rear-left")));
        // Typed again by somebody else: nothing is found twice.
        bench.must(bench.mechanic, id, tyre);
        QCOMPARE(bench.foundAt(id, "tyre-rear-left"), found);
    }

    void tyre_withoutFigures_concludesNothingButTheCataloguesRule()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), Tread{40, 90, 90}, "0121"});
        QVERIFY(bench.car(id).findings.empty());
        bench.must(bench.appraiser, id, car::RecordTread{at("tyre-rear-left"), {29, 90, 90}});
        QVERIFY(!bench.open(id, "tyre-fit", "tyre-rear-left").isNull());
    }

    void tyre_otherFindingOnIt_doesNotHideLowTread()
    {
        GaugeBench bench;
        const CarId id = bench.bringIn();
        FindingData scuff = finding("tyre-rear-left", Condition::Scuff);
        scuff.remedies = {Remedy::Leave};
        bench.must(bench.appraiser, id, car::RecordFinding{scuff, {}});
        bench.must(bench.appraiser, id, car::RecordTread{at("tyre-rear-left"), {20, 25, 25}});
        QVERIFY(!bench.open(id, "tyre-fit", "tyre-rear-left").isNull());
    }

    void axle_unlikeTyres_areSaidOnce()
    {
        GaugeBench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-front-left"), Tread{40, 40, 40}, {}, "205/55r16 91V"});
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), Tread{70, 70, 70}, {}, "225/50 R17"});
        QVERIFY(bench.car(id).findings.empty());
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-front-right"), Tread{61, 61, 61}, {}, "195/65 R15"});
        // The lower one is short of tread; both sizes are said where they were read.
        QVERIFY(bench.foundAt(id, "tyre-front-left").contains("mismatched/investigate"));
        QVERIFY(bench.foundAt(id, "tyre-front-right").contains("mismatched/replace"));
        QVERIFY(!bench.foundAt(id, "tyre-front-right").contains("mismatched/investigate"));
        QVERIFY(bench.noteAt(id, "tyre-front-right").contains("size differs across the axle"));
        QVERIFY(bench.foundAt(id, "tyre-rear-left").isEmpty());
    }

    void construction_unlike_isNamed()
    {
        GaugeBench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), {}, {}, "155/80 R13"});
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-right"), {}, {}, "155/80-13"});
        QVERIFY(bench.noteAt(id, "tyre-rear-right").contains("construction differs"));
    }

    void carsOwnTyres_enteredLater_judgeWhatWasRead()
    {
        GaugeBench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), {}, {}, "205/55 R16 88H"});
        QVERIFY(bench.car(id).findings.empty());
        CarFacts facts = bench.car(id).facts;
        facts.frontTyre = {QStringLiteral("205/55r16"), 91, QStringLiteral("v")};
        bench.must(bench.manager, id, car::CorrectFacts{facts, "off the door pillar", {}});
        QCOMPARE(bench.car(id).facts.frontTyre.size, QStringLiteral("205/55 R16"));
        const QString note = bench.noteAt(id, "tyre-rear-left");
        QVERIFY2(note.contains("load index 88 (560 kg) is below the car's 91 (615 kg)"),
                 qPrintable(note));
        QVERIFY2(note.contains("speed symbol H (210 km/h) is below the car's V (240 km/h)"),
                 qPrintable(note));
        // The rear has its own.
        facts.rearTyre = {QStringLiteral("225/45 R17"), {}, {}};
        const CarId other = bench.bringIn(facts);
        bench.must(bench.appraiser, other,
                   car::RecordTyre{at("tyre-rear-left"), {}, {}, "225/45R17 91W"});
        QVERIFY(bench.car(other).findings.empty());
        facts.rearTyre.speedSymbol = QStringLiteral("O");
        QCOMPARE(bench.ask(bench.manager, id, car::CorrectFacts{facts, "typed", {}}),
                 no(RefusalId::TyreMarkMalformed));
    }

    void survey_threePoints_countLikeTheAppraisers()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        const OperationId survey = bench.open(id, "tyre-survey");
        QVERIFY(!survey.isNull());
        bench.start(id, survey, bench.wheels);
        const PlaceId tyre = at("tyre-front-left");
        const auto take = [&](const char* key, int tenths) {
            bench.must(bench.wheels, id,
                       car::TakeReading{survey, QString::fromLatin1(key), tyre, number(tenths)});
        };
        take("tread-inner", 35);
        take("tread-centre", 50);
        QVERIFY(!bench.car(id).treads.contains(tyre));
        take("tread-outer", 52);
        QCOMPARE(bench.car(id).treads.at(tyre), (Tread{35, 50, 52}));
        QCOMPARE(bench.foundAt(id, "tyre-front-left"), QStringList{"wear/adjust"});
        QCOMPARE(bench.ask(bench.wheels, id,
                           car::TakeReading{survey, "date-code", tyre, answer("6019")}),
                 no(RefusalId::TyreMarkMalformed));
        bench.must(bench.wheels, id, car::TakeReading{survey, "date-code", tyre, answer("0121")});
        QCOMPARE(bench.car(id).tyres.at(tyre).dateCode, QStringLiteral("0121"));
        QVERIFY(bench.foundAt(id, "tyre-front-left").contains("overdue/replace"));
        // The inner edge was read wrongly: with the second person's correction the suggestion goes.
        const ReadingId inner = bench.operation(id, survey).reading("tread-inner", tyre)->id;
        bench.must(bench.checker, id,
                   car::CorrectReading{survey, inner, number(53), "read again", bench.photo()});
        QCOMPARE(bench.car(id).treads.at(tyre), (Tread{53, 50, 52}));
        QVERIFY(!bench.foundAt(id, "tyre-front-left").contains("wear/adjust"));
        QVERIFY(bench.foundAt(id, "tyre-front-left").contains("overdue/replace"));
    }

    void tyreFitted_closing_forgetsTheOldOne()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{at("tyre-rear-left"), Tread{20, 25, 25}, "2519", "205/55 R16"});
        const OperationId fit = bench.open(id, "tyre-fit", "tyre-rear-left");
        bench.close(id, fit);
        QVERIFY(!bench.car(id).treads.contains(at("tyre-rear-left")));
        QVERIFY(!bench.car(id).tyres.contains(at("tyre-rear-left")));
        // Worn again: the old finding is settled, this one is new.
        bench.must(bench.mechanic, id, car::RecordTread{at("tyre-rear-left"), {21, 25, 25}});
        QVERIFY(!bench.open(id, "tyre-fit", "tyre-rear-left").isNull());
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
};

QTEST_GUILESS_MAIN(TestGauging)
#include "tst_gauging.moc"
