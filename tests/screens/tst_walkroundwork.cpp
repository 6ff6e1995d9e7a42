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

/// What comes of a walk-round by touch: the work, taken out or added, and the end of it.
class tst_WalkRoundWork : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void work_takenOut_refusedForASafetyItem_andChanged();
    void work_addedByHand_withAReasonInOneTouch();
    void placesLeft_areNamed_andSafetyOnesHoldTheCar();
    void halfDone_isThereAfterARestart();
    void thirtyFiveFindings_takeAtMostFiveTouchesEach_data() { sizes(); }
    void thirtyFiveFindings_takeAtMostFiveTouchesEach();
};

void tst_WalkRoundWork::work_takenOut_refusedForASafetyItem_andChanged()
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
        if (operation->place.text == QLatin1StringView("brakes-front") && operation->spec->safety &&
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

void tst_WalkRoundWork::work_addedByHand_withAReasonInOneTouch()
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

void tst_WalkRoundWork::placesLeft_areNamed_andSafetyOnesHoldTheCar()
{
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open());
    WalkRound& walk = car.hands.walk();
    QVERIFY(car.hands.view("inside"));
    QVERIFY(car.hands.restIsSound());
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

void tst_WalkRoundWork::halfDone_isThereAfterARestart()
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

void tst_WalkRoundWork::thirtyFiveFindings_takeAtMostFiveTouchesEach()
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
    QVERIFY(hands.restIsSound());
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
    QVERIFY(hands.restIsSound());
    QVERIFY(walkIn("glass", {
                                {"windscreen", Condition::Chip, Severity::Light},
                                {"headlamp-right", Condition::Fade, Severity::Moderate},
                                {"rear-lamp-left", Condition::Crack, Severity::Light},
                            }));
    QVERIFY(hands.restIsSound());
    QVERIFY(walkIn("inside", {
                                 {"driver-seat", Condition::Tear, Severity::Light},
                                 {"passenger-seat", Condition::Stain, Severity::Light},
                                 {"rear-seats", Condition::Dirty, Severity::Moderate},
                                 {"front-carpet", Condition::Stain, Severity::Moderate},
                                 {"headlining", Condition::Stain, Severity::Light},
                                 {"boot-interior", Condition::Dirty, Severity::Light},
                             }));
    QVERIFY(hands.restIsSound());
    QVERIFY(walkIn("systems", {
                                  {"battery", Condition::Flat, Severity::Moderate},
                                  {"air-conditioning", Condition::Inoperative, Severity::Moderate},
                                  {"keys", Condition::Missing, Severity::Heavy},
                              }));
    QVERIFY(hands.restIsSound());
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

RAMPLIGHT_TEST(QGuiApplication, tst_WalkRoundWork)
#include "tst_walkroundwork.moc"
