// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "walkhands.h"

#include "domain/holds.h"

#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// An appraisal by touch: findings, what is sound, tyres, what comes out, and the end.
class tst_WalkRoundScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void kerbedWheel_takesFourTouches_data() { sizes(); }
    void kerbedWheel_takesFourTouches();
    void everyPlace_isReachedInTwoTouches_data();
    void everyPlace_isReachedInTwoTouches();
    void tyres_takeTwelveEntries_lowOneSaysWhatItOpens_data() { sizes(); }
    void tyres_takeTwelveEntries_lowOneSaysWhatItOpens();
    void dateCode_isOptional_refusedInWords_andShowsTheAge();
    void sound_inOneTouch_placeSideAndView();
    void lastFinding_isTakenBack_andThePlaceIsOpenAgain();
    void extras_countSizeAndNote_areOnThePanel();
    void paint_isMeasuredComparedAndConfirmed_data() { sizes(); }
    void paint_isMeasuredComparedAndConfirmed();
    void photo_isOfferedForTheLastFinding();
    void whatAnotherRecords_isShown();
};

void tst_WalkRoundScreen::kerbedWheel_takesFourTouches()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open(size));
    bench.shoot(QStringLiteral("walkround-begun"));
    QVERIFY(car.hands.place("wheel-front-left"));
    QVERIFY(car.hands.condition(Condition::Kerbed));
    QVERIFY(car.hands.severity(Severity::Moderate));
    bench.shoot(QStringLiteral("walkround-said"));
    QVERIFY(car.hands.advised());
    QCOMPARE(car.hands.touches(), 4);
    bench.shoot(QStringLiteral("walkround-recorded"));
    const CarState now = car.now();
    QCOMPARE(now.findings.size(), std::size_t{1});
    const FindingData& found = now.findings.begin()->second.data();
    QCOMPARE(found.place.text, QStringLiteral("wheel-front-left"));
    QCOMPARE(found.condition, Condition::Kerbed);
    QCOMPARE(found.severity, std::optional(Severity::Moderate));
    QCOMPARE(found.remedies, std::vector{Remedy::Refurbish});
    // What came out stands beside the drawing, with its minutes.
    QVERIFY(!bench.house().open(car.id, "wheel-refurb", "wheel-front-left").isNull());
    QVERIFY(bench.says(QStringLiteral("not entered")) ||
            bench.shell().walkRound()->materialWords() == QStringLiteral("not entered"));
    QVERIFY(bench.shell().walkRound()->skills()->rowCount() > 0);
}

void tst_WalkRoundScreen::everyPlace_isReachedInTwoTouches_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<QString>("shape");
    for (const auto& [shape, name] : Names<BodyShape>::table)
        QTest::addRow("%s", name) << (shape == BodyShape::Saloon ? QSize(1080, 1920)
                                                                 : QSize(1920, 1080))
                                  << QString::fromLatin1(name);
}

void tst_WalkRoundScreen::everyPlace_isReachedInTwoTouches()
{
    QFETCH(const QSize, size);
    QFETCH(const QString, shape);
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench, *fromName<BodyShape>(shape),
                {Fact::CombustionEngine, Fact::TractionBattery});
    QVERIFY(car.open(size));
    const CarState state = car.now();
    // A saloon's, upright, and a hatch's one by one; of the other shapes every third, another third
    // with each.
    const bool all = shape == nameOf(BodyShape::Saloon) || shape == nameOf(BodyShape::Hatch);
    std::size_t number = static_cast<std::size_t>(*fromName<BodyShape>(shape));
    for (const auto& [view, viewName] : Names<WalkView>::table) {
        QVERIFY(car.hands.view(viewName));
        bench.shoot(QStringLiteral("walkround-%1-%2").arg(QString::fromLatin1(viewName), shape));
        for (const PlaceInfo* place : placesIn(view, state))
            if (all || ++number % 3 == 0)
                QVERIFY2(car.hands.place(place->id.text.toLatin1().constData()),
                         qPrintable(place->id.text));
    }
}

void tst_WalkRoundScreen::tyres_takeTwelveEntries_lowOneSaysWhatItOpens()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open(size));
    QVERIFY(car.hands.view("wheels"));
    const int before = car.hands.touches();
    // Near side front, near side rear, off side rear, off side front.
    QVERIFY(car.hands.digits(QStringLiteral("454748")));
    QVERIFY(car.hands.digits(QStringLiteral("52")));
    // A slip: back, and once more.
    QVERIFY(car.hands.digits(QStringLiteral("9")));
    QVERIFY(bench.tap(bench.ofType("KeyCap", "symbol", QStringLiteral("6"))));
    QVERIFY(car.hands.digits(QStringLiteral("5150")));
    QVERIFY(car.hands.digits(QStringLiteral("22")));
    WalkRound& walk = car.hands.walk();
    QVERIFY(bench.until(
        [&] { return walk.tyres()->tyres()->rows().at(2).lowWords.contains(u"below 3.0 mm"); },
        QStringLiteral("what it opens")));
    bench.shoot(QStringLiteral("walkround-tyres"));
    QVERIFY(car.hands.digits(QStringLiteral("2631")));
    QVERIFY(car.hands.digits(QStringLiteral("606162")));
    QCOMPARE(car.hands.touches() - before, 25); // one of them was the slip
    QVERIFY(
        bench.until([&] { return car.now().treads.size() == 4; }, QStringLiteral("four tyres")));
    const CarState now = car.now();
    QCOMPARE(now.treads.at({QStringLiteral("tyre-front-left")}), (Tread{45, 47, 48}));
    QCOMPARE(now.treads.at({QStringLiteral("tyre-rear-left")}), (Tread{52, 51, 50}));
    QCOMPARE(now.treads.at({QStringLiteral("tyre-rear-right")}), (Tread{22, 26, 31}));
    QCOMPARE(now.treads.at({QStringLiteral("tyre-front-right")}), (Tread{60, 61, 62}));
    QVERIFY(!bench.house().open(car.id, "tyre-fit", "tyre-rear-right").isNull());
    QVERIFY(bench.house().open(car.id, "tyre-fit", "tyre-front-left").isNull());
    QCOMPARE(walk.tyres()->taken(), 12);
}

void tst_WalkRoundScreen::dateCode_isOptional_refusedInWords_andShowsTheAge()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open({1080, 1920}));
    QVERIFY(car.hands.view("wheels"));
    const TyrePad& pad = *car.hands.walk().tyres();
    // Week 62 there is none; what was typed stays, and one digit puts it right.
    QVERIFY(car.hands.digits(QStringLiteral("45")));
    QVERIFY(bench.tap(QStringLiteral("Date code")));
    QVERIFY(car.hands.digits(QStringLiteral("6229")));
    QVERIFY(bench.untilSays(pad.fault()));
    QVERIFY(pad.fault().contains(QStringLiteral("week 62")));
    QVERIFY(pad.window().contains(QStringLiteral("6229")));
    QVERIFY(!car.now().tyres.contains({QStringLiteral("tyre-front-left")}));
    bench.shoot(QStringLiteral("walkround-datecode-refused"));
    QQuickItem* back = bench.ofType("KeyCap", "symbol", QStringLiteral("6"));
    for (int digit = 0; digit < 4; ++digit)
        QVERIFY(bench.tap(back));
    QVERIFY(car.hands.digits(QStringLiteral("1229")));
    QVERIFY(bench.until(
        [&] {
            const CarState now = car.now();
            const auto tyre = now.tyres.find({QStringLiteral("tyre-front-left")});
            return tyre != now.tyres.end() && tyre->second.dateCode == QLatin1StringView("1229");
        },
        QStringLiteral("the date code")));
    QVERIFY(bench.untilSays(QStringLiteral("1229: 2 years")));
    // The reading that was there is still there; the tread goes on by itself.
    QVERIFY(car.hands.digits(QStringLiteral("4748")));
    QVERIFY(bench.until([&] { return car.now().treads.size() == 1; }, QStringLiteral("a tyre")));
    const CarState now = car.now();
    QCOMPARE(now.treads.at({QStringLiteral("tyre-front-left")}), (Tread{45, 47, 48}));
    QCOMPARE(now.tyres.at({QStringLiteral("tyre-front-left")}).dateCode, QStringLiteral("1229"));
    QCOMPARE(pad.placeId(), QStringLiteral("tyre-rear-left"));
    bench.shoot(QStringLiteral("walkround-datecode"));
}

void tst_WalkRoundScreen::sound_inOneTouch_placeSideAndView()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    QVERIFY(car.hands.place("bonnet"));
    QVERIFY(bench.tap(QStringLiteral("Sound")));
    QVERIFY(bench.until([&] { return car.now().seen.size() == 1; }, QStringLiteral("the bonnet")));
    QVERIFY(car.hands.finding("front-door-left", Condition::Dent, Severity::Light));
    WalkRound& walk = car.hands.walk();
    const int left = walk.leftOnLeft();
    const int right = walk.leftOnRight();
    QVERIFY(left > 0);
    QVERIFY(bench.tap(QStringLiteral("Near side sound: %1").arg(left)));
    QVERIFY(bench.until([&] { return walk.leftOnLeft() == 0; }, QStringLiteral("the near side")));
    QCOMPARE(walk.leftOnRight(), right);
    QVERIFY(!car.now().seen.value({QStringLiteral("front-door-left")}).sound);
    QVERIFY(car.now().seen.value({QStringLiteral("quarter-left")}).sound);
    QVERIFY(car.hands.restIsSound());
    QVERIFY(walk.left() > 0);
    bench.shoot(QStringLiteral("walkround-sound"));
}

void tst_WalkRoundScreen::lastFinding_isTakenBack_andThePlaceIsOpenAgain()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    QVERIFY(car.hands.view("glass"));
    // A safety place: its own finding, of an appraisal that goes on, needs no second person.
    QVERIFY(car.hands.finding("windscreen", Condition::Crack, Severity::Heavy));
    QVERIFY(!car.now().seen.empty());
    QVERIFY(bench.tap(QStringLiteral("Take it back")));
    QVERIFY(bench.until([&] { return !car.now().findings.begin()->second.stands(); },
                        QStringLiteral("the correction")));
    QVERIFY(!car.now().seen.contains({QStringLiteral("windscreen")}));
    QVERIFY(std::ranges::none_of(car.now().openOperations(), [](const Operation* operation) {
        return operation->place.text == QLatin1StringView("windscreen");
    }));
    // Not only the last one: two touches from any other.
    QVERIFY(car.hands.finding("windscreen", Condition::Chip, Severity::Light));
    QVERIFY(car.hands.finding("headlamp-left", Condition::Crack, Severity::Light));
    const int before = car.hands.touches();
    QVERIFY(car.hands.place("windscreen"));
    const QString words =
        QStringLiteral("Take back: %1")
            .arg(bench.shell()
                     .walkRound()
                     ->here()
                     ->data(bench.shell().walkRound()->here()->index(0), Qt::UserRole + 3)
                     .toString());
    QVERIFY(car.hands.tap(words));
    QCOMPARE(car.hands.touches() - before, 2);
    QVERIFY(bench.until([&] { return car.hands.walk().findingCount() == 1; },
                        QStringLiteral("the lamp alone")));
}

void tst_WalkRoundScreen::extras_countSizeAndNote_areOnThePanel()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    QVERIFY(car.hands.place("bonnet"));
    QVERIFY(car.hands.condition(Condition::Chip));
    QVERIFY(bench.tap(QStringLiteral("how many")));
    QVERIFY(bench.type(QStringLiteral("12")));
    bench.shoot(QStringLiteral("walkround-count"));
    // The pad goes from one figure to the other.
    QVERIFY(bench.tap(QStringLiteral("size, mm")));
    QVERIFY(bench.type(QStringLiteral("3")));
    QVERIFY(bench.tap(QStringLiteral("Done")));
    QVERIFY(bench.tap(QStringLiteral("note")));
    QVERIFY(bench.write(QStringLiteral("In your words"), QStringLiteral("leading edge")));
    bench.shoot(QStringLiteral("walkround-note"));
    QVERIFY(bench.tap(QStringLiteral("note")));
    QVERIFY(car.hands.severity(Severity::Light));
    QVERIFY(car.hands.advised());
    const FindingData found = car.now().findings.begin()->second.data();
    QCOMPARE(found.count, std::optional(12));
    QCOMPARE(found.sizeMm, std::optional(3));
    QCOMPARE(found.note, QStringLiteral("leading edge"));
}

void tst_WalkRoundScreen::paint_isMeasuredComparedAndConfirmed()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    BenchHouse& house = bench.house();
    for (const char* panel : {"roof", "wing-left", "wing-right", "tailgate"})
        house.must(house.person(QStringLiteral("Odo")), car.id,
                   {car::RecordPaintDepth{PlaceId{QString::fromLatin1(panel)}, {104, 108, 112}}});
    QVERIFY(car.open(size));
    // A wheel has no paint depth that could be compared.
    QVERIFY(car.hands.place("wheel-front-left"));
    QVERIFY(!bench.shell().walkRound()->paint()->possible());
    QVERIFY(car.hands.place("bonnet"));
    QVERIFY(bench.tap(QStringLiteral("Paint depth")));
    for (const char* depth : {"238", "251", "244"}) {
        QVERIFY(bench.type(QString::fromLatin1(depth)));
        if (QLatin1String(depth) == QLatin1String("244"))
            bench.shoot(QStringLiteral("paint-typing"));
        QVERIFY(bench.tap(QStringLiteral("Next")));
    }
    QVERIFY(bench.untilSays(QStringLiteral("238, 251, 244 µm")));
    QVERIFY(bench.tap(QStringLiteral("Record them")));
    QVERIFY(bench.until([&] { return car.now().paint.contains(PlaceId{QStringLiteral("bonnet")}); },
                        QStringLiteral("the paint")));
    QVERIFY(bench.until([&] { return bench.shell().walkRound()->paint()->canConfirm(); },
                        QStringLiteral("stands out")));
    QVERIFY(bench.untilSays(bench.shell().walkRound()->paint()->comparedWords()));
    bench.shoot(QStringLiteral("paint-compared"));
    QVERIFY(bench.tap(QStringLiteral("Repaired before")));
    QVERIFY(bench.until([&] { return !car.now().findings.empty(); }, QStringLiteral("a finding")));
    const FindingData found = car.now().findings.begin()->second.data();
    QCOMPARE(found.place.text, QStringLiteral("bonnet"));
    QCOMPARE(found.condition, Condition::PreviousRepair);
    QVERIFY(bench.until([&] { return !bench.shell().walkRound()->paint()->canConfirm(); },
                        QStringLiteral("confirmed")));
    bench.shoot(QStringLiteral("paint-confirmed"));
}

void tst_WalkRoundScreen::photo_isOfferedForTheLastFinding()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().drop(QStringLiteral("door.jpg"));
    Arrived car(bench);
    QVERIFY(car.open());
    QVERIFY(car.hands.finding("front-door-right", Condition::Dent, Severity::Light));
    QVERIFY(bench.tap(QStringLiteral("Photo of it")));
    QVERIFY(bench.until([&] { return !bench.ofType("PhotoTile").empty(); },
                        QStringLiteral("the dropped photo")));
    bench.shoot(QStringLiteral("walkround-photo"));
    QVERIFY(bench.tap(bench.ofType("PhotoTile").back()));
    QVERIFY(bench.tap(QStringLiteral("Use this photo")));
    QVERIFY(bench.until([&] { return car.now().photos.size() == 1; }, QStringLiteral("the photo")));
    QCOMPARE(car.now().photos.front().finding, car.now().findings.begin()->first);
}

void tst_WalkRoundScreen::whatAnotherRecords_isShown()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    // Half said here, while somebody else records at another kiosk.
    QVERIFY(car.hands.place("bonnet"));
    QVERIFY(car.hands.condition(Condition::Chip));
    bench.house().must(bench.house().person(QStringLiteral("Runa")), car.id,
                       {car::RecordFinding{finding("roof", Condition::Dent), {}}});
    WalkRound& walk = car.hands.walk();
    QVERIFY(bench.until([&] { return walk.newsWords().contains(QStringLiteral("Runa")); },
                        QStringLiteral("the news")));
    // Nothing of what was half said is lost.
    QCOMPARE(walk.place(), QStringLiteral("bonnet"));
    QCOMPARE(walk.conditions()->current(), nameOf(Condition::Chip));
    QVERIFY(bench.untilSays(walk.newsWords()));
    bench.shoot(QStringLiteral("walkround-news"));
    QVERIFY(car.hands.severity(Severity::Light));
    QVERIFY(car.hands.advised());
    QCOMPARE(car.now().findings.size(), std::size_t{2});
}

RAMPLIGHT_TEST(QGuiApplication, tst_WalkRoundScreen)
#include "tst_walkroundscreen.moc"
