// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
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
    void work_takenOut_refusedForASafetyItem_andChanged();
    void work_addedByHand_withAReasonInOneTouch();
    void sound_inOneTouch_placeSideAndView();
    void lastFinding_isTakenBack_andThePlaceIsOpenAgain();
    void extras_countSizeAndNote_areOnThePanel();
    void photo_isOfferedForTheLastFinding();
    void whatAnotherRecords_isShown();
    void placesLeft_areNamed_andSafetyOnesHoldTheCar();
    void halfDone_isThereAfterARestart();
    void thirtyFiveFindings_takeAtMostFiveTouchesEach_data() { sizes(); }
    void thirtyFiveFindings_takeAtMostFiveTouchesEach();

private:
    static void sizes();
};

namespace {

const QString stock = QStringLiteral("K-7");

/// A car that has just come in, and Odo at its walk-round.
struct Arrived
{
    explicit Arrived(KioskBench& kiosk, BodyShape shape = BodyShape::Hatch,
                     std::vector<Fact> facts = {Fact::CombustionEngine})
        : bench(kiosk)
        , id(QStringLiteral("walked"))
        , hands(kiosk)
    {
        Identity identity;
        identity.stockNumber = stock;
        identity.registration = QStringLiteral("QX 417 K");
        identity.make = QStringLiteral("Orrel");
        identity.model = QStringLiteral("Tarn 1.2");
        identity.shape = shape;
        CarFacts known;
        known.has = std::move(facts);
        known.keys = 2;
        kiosk.house().must(kiosk.house().person(QStringLiteral("Odo")), id,
                           {car::BringIn{identity, known, QDate(2031, 5, 9), {}}});
    }

    bool open(QSize size = {1920, 1080})
    {
        bench.show(size);
        return bench.tap(QStringLiteral("Who are you?")) &&
               bench.signIn(QStringLiteral("Odo Farlane")) && bench.openCar(stock) &&
               bench.tap(QStringLiteral("Walk round it")) && hands.ready();
    }
    [[nodiscard]] CarState now() { return bench.house().car(id); }

    KioskBench& bench;
    CarId id;
    WalkHands hands;
};

} // namespace

void tst_WalkRoundScreen::sizes()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

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
    for (const auto& [view, name] : Names<WalkView>::table) {
        QVERIFY(car.hands.view(name));
        bench.shoot(QStringLiteral("walkround-%1-%2").arg(QString::fromLatin1(name), shape));
        for (const PlaceInfo* place : placesIn(view, state)) {
            QVERIFY2(car.hands.place(place->id.text.toLatin1().constData()),
                     qPrintable(place->id.text));
            bench.shell().walkRound()->touch({});
        }
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

void tst_WalkRoundScreen::work_takenOut_refusedForASafetyItem_andChanged()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    QVERIFY(car.hands.finding("bonnet", Condition::Dent, Severity::Light));
    QVERIFY(car.hands.view("wheels"));
    QVERIFY(car.hands.finding("wheel-front-left", Condition::Kerbed, Severity::Moderate));
    const auto titleOf = [&](OperationId id) {
        const WalkWork* work = car.hands.walk().work();
        for (int row = 0; row < work->rowCount(); ++row)
            if (work->data(work->index(row), Qt::UserRole + 1).toInt() == id.value)
                return work->data(work->index(row), Qt::UserRole + 2).toString();
        return QString();
    };
    const OperationId wheel = bench.house().open(car.id, "wheel-refurb", "wheel-front-left");
    QVERIFY(!wheel.isNull());
    QVERIFY(bench.tap(titleOf(wheel)));
    QVERIFY(bench.tap(QStringLiteral("not worth it on this car")));
    bench.shoot(QStringLiteral("walkround-takeout"));
    QVERIFY(bench.tap(QStringLiteral("Take it out")));
    QVERIFY(bench.until([&] { return !car.now().operation(wheel)->isOpen(); },
                        QStringLiteral("it is out")));
    QVERIFY(bench.untilGone(QStringLiteral("Leave it in")));
    const CarState out = car.now();
    QCOMPARE(out.operation(wheel)->withdrawnWhy, QStringLiteral("not worth it on this car"));
    const auto kerbed = std::ranges::find_if(out.findings, [](const auto& entry) {
        return entry.second.data().condition == Condition::Kerbed;
    });
    QVERIFY(kerbed != out.findings.end() && kerbed->second.disclosed);

    // A safety item: refused in words, and so no other work is asked for.
    QVERIFY(car.hands.finding("brakes-front", Condition::Worn, Severity::Heavy));
    OperationId brakes;
    for (const Operation* operation : car.now().openOperations())
        if (operation->place.text == QLatin1StringView("brakes-front") && operation->spec.safety &&
            operation->origin == Origin::Finding)
            brakes = operation->id;
    QVERIFY(!brakes.isNull());
    QVERIFY(bench.tap(titleOf(brakes)));
    QVERIFY(bench.tap(QStringLiteral("done already")));
    QVERIFY(bench.tap(QStringLiteral("Other work instead")));
    QVERIFY(bench.untilSays(
        QStringLiteral("This is a safety item. It is closed or corrected, never left.")));
    bench.shoot(QStringLiteral("walkround-takeout-refused"));
    QVERIFY(!bench.says(QStringLiteral("Add it")));
    QVERIFY(bench.says(QStringLiteral("Other work instead")));
    QVERIFY(car.now().operation(brakes)->isOpen());
    car.hands.walk().ask()->dismiss();
    QVERIFY(bench.tap(QStringLiteral("Leave it in")));

    // Changed: out with the reason, then the other work of the same place.
    OperationId dent;
    for (const Operation* operation : car.now().openOperations())
        if (operation->place.text == QLatin1StringView("bonnet") &&
            operation->origin == Origin::Finding)
            dent = operation->id;
    QVERIFY(!dent.isNull());
    QVERIFY(bench.tapListed([&] { return bench.find(titleOf(dent)); }, titleOf(dent)));
    QVERIFY(bench.tap(QStringLiteral("other work instead")));
    QVERIFY(bench.tap(QStringLiteral("Other work instead")));
    QVERIFY(bench.untilSays(QStringLiteral("Add it")));
    QVERIFY(!car.now().operation(dent)->isOpen());
    bench.shoot(QStringLiteral("walkround-addwork"));
}

void tst_WalkRoundScreen::work_addedByHand_withAReasonInOneTouch()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open({1080, 1920}));
    QVERIFY(car.hands.place("bonnet"));
    QVERIFY(bench.tap(QStringLiteral("Add work")));
    const auto kind = [&]() -> QQuickItem* {
        for (QQuickItem* item : bench.ofType("Touchable"))
            if (item->property("choiceId").toString() == QLatin1StringView("panel-paint"))
                return item;
        return nullptr;
    };
    QVERIFY(bench.tapListed(kind, QStringLiteral("the kind")));
    QVERIFY(bench.tap(QStringLiteral("sales asks for it")));
    bench.shoot(QStringLiteral("walkround-addwork-reason"));
    QVERIFY(bench.tap(QStringLiteral("Add it")));
    QVERIFY(bench.untilGone(QStringLiteral("Add it")));
    const OperationId added = bench.house().open(car.id, "panel-paint", "bonnet");
    QVERIFY(!added.isNull());
    const CarState now = car.now();
    QCOMPARE(now.operation(added)->origin, Origin::ByHand);
    QCOMPARE(now.operation(added)->reason, QStringLiteral("sales asks for it"));
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
    QVERIFY(!car.now().seen.at({QStringLiteral("front-door-left")}).sound);
    QVERIFY(car.now().seen.at({QStringLiteral("quarter-left")}).sound);
    QVERIFY(bench.tap(QStringLiteral("All the rest here is sound: %1").arg(walk.leftHere())));
    QVERIFY(bench.until([&] { return walk.leftHere() == 0; }, QStringLiteral("the body")));
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
    QVERIFY(bench.tap(QStringLiteral("Done")));
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

void tst_WalkRoundScreen::placesLeft_areNamed_andSafetyOnesHoldTheCar()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    WalkRound& walk = car.hands.walk();
    QVERIFY(car.hands.view("inside"));
    QVERIFY(bench.tap(QStringLiteral("All the rest here is sound: %1").arg(walk.leftHere())));
    QVERIFY(bench.until([&] { return walk.leftHere() == 0; }, QStringLiteral("the inside")));
    QVERIFY(bench.tap(QStringLiteral("Finish the walk-round")));
    QVERIFY(bench.untilSays(QStringLiteral("%1 places were not looked at").arg(walk.left())));
    bench.shoot(QStringLiteral("walkround-finish"));
    QVERIFY(bench.tap(QStringLiteral("Go on looking")));
    QVERIFY(!car.now().appraised);
    QVERIFY(bench.tap(QStringLiteral("Finish the walk-round")));
    QVERIFY(bench.tap(QStringLiteral("Finish all the same")));
    QVERIFY(bench.until([&] { return car.now().appraised; }, QStringLiteral("the end")));
    QVERIFY(
        bench.until([&] { return !bench.ofType("CarScreen").empty(); }, QStringLiteral("the car")));
    const CarState now = car.now();
    const auto held = holds(now, bench.house().site().rules, bench.house().clock.now());
    QVERIFY(std::ranges::any_of(held, [](const Hold& hold) {
        return hold.kind == HoldKind::SafetyPlaceNotSeen &&
               hold.place.text == QLatin1StringView("windscreen");
    }));
    QVERIFY(std::ranges::none_of(held, [](const Hold& hold) {
        return hold.kind == HoldKind::SafetyPlaceNotSeen &&
               hold.place.text == QLatin1StringView("seat-belts");
    }));
}

void tst_WalkRoundScreen::halfDone_isThereAfterARestart()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    QVERIFY(car.hands.finding("bonnet", Condition::Chip, Severity::Light));
    QVERIFY(car.hands.view("wheels"));
    QVERIFY(car.hands.digits(QStringLiteral("454748")));
    QVERIFY(bench.until([&] { return car.now().treads.size() == 1; }, QStringLiteral("a tyre")));
    // The kiosk begins anew over the same store, as after a power cut.
    QVERIFY(car.open());
    WalkRound& walk = car.hands.walk();
    QCOMPARE(walk.findingCount(), 1);
    QVERIFY(car.hands.view("wheels"));
    QCOMPARE(walk.tyres()->taken(), 3);
    QCOMPARE(walk.tyres()->placeId(), QStringLiteral("tyre-rear-left"));
}

void tst_WalkRoundScreen::thirtyFiveFindings_takeAtMostFiveTouchesEach()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open(size));
    WalkHands& hands = car.hands;
    struct Seen
    {
        const char* place;
        Condition what;
        Severity much;
    };
    // What is left of a view is sound: one touch.
    const auto restIsSound = [&] {
        return hands.tap(
                   QStringLiteral("All the rest here is sound: %1").arg(hands.walk().leftHere())) &&
               bench.until([&] { return hands.walk().leftHere() == 0; }, hands.walk().view());
    };
    const auto walkIn = [&](const char* view, std::initializer_list<Seen> all) {
        if (!hands.view(view))
            return false;
        return std::ranges::all_of(
            all, [&](const Seen& seen) { return hands.finding(seen.place, seen.what, seen.much); });
    };
    QVERIFY(walkIn("body", {
                               {"front-bumper", Condition::Scuff, Severity::Moderate},
                               {"front-bumper", Condition::Chip, Severity::Light},
                               {"bonnet", Condition::Chip, Severity::Light},
                               {"roof", Condition::Scratch, Severity::Light},
                               {"wing-left", Condition::Dent, Severity::Light},
                               {"front-door-left", Condition::Scratch, Severity::Moderate},
                               {"rear-door-left", Condition::Dent, Severity::Light},
                               {"quarter-left", Condition::Scratch, Severity::Heavy},
                               {"sill-left", Condition::Chip, Severity::Moderate},
                               {"mirror-left", Condition::Scuff, Severity::Light},
                               {"tailgate", Condition::Scratch, Severity::Light},
                               {"rear-bumper", Condition::Scuff, Severity::Heavy},
                               {"rear-plate", Condition::Crack, Severity::Light},
                               {"wipers", Condition::Worn, Severity::Moderate},
                               {"quarter-right", Condition::Dent, Severity::Moderate},
                               {"front-door-right", Condition::Chip, Severity::Light},
                           }));
    QVERIFY(restIsSound());
    QVERIFY(walkIn("wheels", {
                                 {"wheel-front-left", Condition::Kerbed, Severity::Moderate},
                                 {"wheel-rear-left", Condition::Kerbed, Severity::Light},
                                 {"wheel-rear-right", Condition::Kerbed, Severity::Heavy},
                                 {"brakes-front", Condition::Worn, Severity::Moderate},
                                 {"brakes-rear", Condition::Corrosion, Severity::Moderate},
                             }));
    // The two tyres at the rear are low: their findings come out of the readings.
    QVERIFY(hands.digits(QStringLiteral("605958"
                                        "282726"
                                        "222120"
                                        "565452")));
    QVERIFY(restIsSound());
    QVERIFY(walkIn("glass", {
                                {"windscreen", Condition::Chip, Severity::Light},
                                {"headlamp-right", Condition::Fade, Severity::Moderate},
                                {"rear-lamp-left", Condition::Crack, Severity::Light},
                            }));
    QVERIFY(restIsSound());
    QVERIFY(walkIn("inside", {
                                 {"driver-seat", Condition::Tear, Severity::Light},
                                 {"passenger-seat", Condition::Stain, Severity::Light},
                                 {"rear-seats", Condition::Dirty, Severity::Moderate},
                                 {"front-carpet", Condition::Stain, Severity::Moderate},
                                 {"headlining", Condition::Stain, Severity::Light},
                                 {"boot-interior", Condition::Dirty, Severity::Light},
                             }));
    QVERIFY(restIsSound());
    QVERIFY(walkIn("systems", {
                                  {"battery", Condition::Flat, Severity::Moderate},
                                  {"air-conditioning", Condition::Inoperative, Severity::Moderate},
                                  {"keys", Condition::Missing, Severity::Heavy},
                              }));
    QVERIFY(restIsSound());
    bench.shoot(QStringLiteral("walkround-thirty-five"));
    QCOMPARE(hands.walk().findingCount(), 35);
    QVERIFY(hands.tap(QStringLiteral("Finish the walk-round")));
    QVERIFY(bench.until([&] { return car.now().appraised; }, QStringLiteral("the end")));
    const CarState now = car.now();
    QCOMPARE(now.findings.size(), std::size_t{35});
    QCOMPARE(now.treads.size(), std::size_t{4});
    QVERIFY(notLookedAt(now).empty());
    // All of it: the tabs, twelve tread readings, what is sound, and the end.
    qInfo("%d touches for 35 findings", hands.touches());
    QVERIFY2(hands.touches() <= 35 * 5, qPrintable(QString::number(hands.touches())));
}

QTEST_MAIN(tst_WalkRoundScreen)
#include "tst_walkroundscreen.moc"
