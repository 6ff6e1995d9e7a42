// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "gaugebench.h"

#include "domain/tyreconcerns.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

class TestTyres : public QObject
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

    void survey_comparesAnAxle_onlyByWhatItReadItself_data()
    {
        QTest::addColumn<int>("right"); ///< read by the survey; 0: not
        QTest::addColumn<bool>("rightFirst");
        QTest::addColumn<QStringList>("found"); ///< on the left tyre
        const QStringList nothing;
        const QStringList unlike{QStringLiteral("mismatched/investigate")};
        QTest::newRow("the other one not read yet") << 0 << false << nothing;
        QTest::newRow("both alike") << 41 << false << nothing;
        QTest::newRow("the lower one read first") << 61 << false << unlike;
        QTest::newRow("the lower one read last") << 61 << true << unlike;
    }

    void survey_comparesAnAxle_onlyByWhatItReadItself()
    {
        QFETCH(int, right);
        QFETCH(bool, rightFirst);
        QFETCH(QStringList, found);
        GaugeBench bench;
        const CarId id = bench.appraised();
        for (const char* tyre : {"tyre-front-left", "tyre-front-right"})
            bench.must(bench.appraiser, id, car::RecordTread{at(tyre), {62, 62, 62}});
        const OperationId survey = bench.open(id, "tyre-survey");
        bench.start(id, survey, bench.wheels);
        const auto read = [&](const char* tyre, int tenths) {
            for (const char* key : {"tread-inner", "tread-centre", "tread-outer"})
                bench.must(bench.wheels, id,
                           car::TakeReading{survey, key, at(tyre), number(tenths)});
        };
        if (rightFirst)
            read("tyre-front-right", right);
        read("tyre-front-left", 40);
        if (!rightFirst && right > 0)
            read("tyre-front-right", right);
        QCOMPARE(bench.foundAt(id, "tyre-front-left"), found);
        QCOMPARE(bench.foundAt(id, "tyre-front-right"), QStringList());
        if (!found.isEmpty())
            QVERIFY2(bench.noteAt(id, "tyre-front-left").startsWith("2.1 mm less tread"),
                     qPrintable(bench.noteAt(id, "tyre-front-left")));
    }

    void survey_notBegun_leavesTheAppraisersTyresToBeCompared()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        QVERIFY(!bench.open(id, "tyre-survey").isNull());
        bench.must(bench.appraiser, id, car::RecordTread{at("tyre-front-right"), {62, 62, 62}});
        bench.must(bench.appraiser, id, car::RecordTread{at("tyre-front-left"), {40, 40, 40}});
        QCOMPARE(bench.foundAt(id, "tyre-front-left"),
                 QStringList{QStringLiteral("mismatched/investigate")});
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

    void tyreFitted_duringTheSurvey_isMeasuredAtAllThreePointsAgain_data()
    {
        QTest::addColumn<int>("centre");
        QTest::addColumn<int>("outer");
        QTest::newRow("the old one was worn all over") << 21 << 22;
        QTest::newRow("the old one was worn at one edge") << 50 << 50;
    }

    void tyreFitted_duringTheSurvey_isMeasuredAtAllThreePointsAgain()
    {
        QFETCH(int, centre);
        QFETCH(int, outer);
        GaugeBench bench;
        for (ReadingSpec& spec : bench.spec("tyre-survey").readings)
            if (spec.key.startsWith("tread-"))
                spec.optional = false;
        const CarId id = bench.appraised();
        const PlaceId tyre = at("tyre-front-left");
        const PlaceId other = at("tyre-front-right");
        const OperationId survey = bench.open(id, "tyre-survey");
        bench.start(id, survey, bench.wheels);
        const auto read = [&](const char* key, const PlaceId& place, int tenths) {
            bench.must(bench.wheels, id, car::TakeReading{survey, key, place, number(tenths)});
        };
        for (const char* key : {"tread-inner", "tread-centre", "tread-outer"})
            read(key, other, 79);
        read("tread-inner", tyre, 20);
        read("tread-centre", tyre, centre);
        read("tread-outer", tyre, outer);
        bench.must(bench.wheels, id, car::PauseWork{survey, {}, StopKind::Paused});
        bench.clock.pass(5);
        const qsizetype before = bench.foundAt(id, "tyre-front-left").size();
        bench.close(id, bench.open(id, "tyre-fit"));
        bench.clock.pass(5);
        const Operation now = bench.operation(id, survey);
        for (const char* key : {"tread-inner", "tread-centre", "tread-outer"}) {
            QVERIFY(now.reading(key, tyre) == nullptr);
            QVERIFY(now.reading(key, other) != nullptr);
        }
        bench.must(bench.wheels, id, car::StartWork{survey});
        read("tread-inner", tyre, 80);
        QVERIFY(!bench.car(id).treads.contains(tyre));
        QCOMPARE(bench.foundAt(id, "tyre-front-left").size(), before);
        QCOMPARE(bench.ask(bench.wheels, id, car::SignOff{survey, {}}),
                 no(RefusalId::EvidenceOpen));
        read("tread-centre", tyre, 81);
        read("tread-outer", tyre, 80);
        QCOMPARE(bench.car(id).treads.at(tyre), (Tread{80, 81, 80}));
        QCOMPARE(bench.foundAt(id, "tyre-front-left").size(), before);
        bench.prove(id, survey, bench.wheels);
        bench.must(bench.wheels, id, car::SignOff{survey, {}});
        QCOMPARE(bench.state(id, survey), OperationState::Closed);
    }

    // Its readings cannot be corrected any more, so nobody could ever take that work away.
    void tyreFitted_takesAlongWhatWasStillToBeDoneToTheOldOne()
    {
        GaugeBench bench;
        const CarId id = bench.appraised();
        const PlaceId tyre = at("tyre-front-left");
        const OperationId survey = bench.open(id, "tyre-survey");
        const PersonId other = bench.hire("Ferro", {Skill::Wheels}, {Right::Work});
        bench.start(id, survey, bench.wheels);
        bench.must(bench.wheels, id, car::TakeReading{survey, "tread-inner", tyre, number(20)});
        const OperationId fit = bench.open(id, "tyre-fit");
        bench.start(id, fit, other);
        bench.must(bench.wheels, id, car::TakeReading{survey, "tread-outer", tyre, number(21)});
        const OperationId again = bench.open(id, "tyre-fit");
        QVERIFY(again != fit);
        bench.clock.pass(5);
        bench.close(id, fit, other);
        QCOMPARE(bench.state(id, again), OperationState::Withdrawn);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestTyres)
#include "tst_tyres.moc"
