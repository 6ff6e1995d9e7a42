// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"
#include "support/testmain.h"
#include "walkhands.h"
#include "workhands.h"

#include "domain/holds.h"

#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// One car by touch: its drawing, its work, its findings, and everything that is done with it.
class tst_CarScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void everyPage_showsWhatTheLedgerHas_data();
    void everyPage_showsWhatTheLedgerHas();
    void placeOnTheDrawing_narrowsTheWork_data();
    void placeOnTheDrawing_narrowsTheWork();
    void car_movesToAFreeBay_only();
    void carOnItsStands_isNotMoved();
    void finding_isRecordedFromTheDrawing();
    void finding_isPhotographed();
    void safetyFinding_isCorrectedByASecondPerson_withAPhoto();
    void identity_isCorrectedWithAReason_data();
    void identity_isCorrectedWithAReason();
    void promise_isChangedWithAReason();
    void odometer_isRead_lessThanBeforeOnlyWithAReason_data();
    void odometer_isRead_lessThanBeforeOnlyWithAReason();
    void work_isAddedByHand_data();
    void work_isAddedByHand();
    void car_leavesUnreleased_signed();
    void entryMadeTwice_isJoined();
};

namespace {

const auto carStock = QStringLiteral("K-7");

bool goTo(KioskBench& bench, const QString& who)
{
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who) &&
           bench.openCar(carStock);
}

/// Touches a place on the drawing that lies on top.
bool touchPlace(KioskBench& bench, const QString& place)
{
    QQuickItem* outline = bench.ofType("CarOutline").back();
    QPointF middle;
    QMetaObject::invokeMethod(outline, "centreOf", Q_RETURN_ARG(QPointF, middle),
                              Q_ARG(QString, place));
    if (middle.x() < 0)
        return false;
    bench.tapAt(outline->mapToScene(middle));
    return true;
}

FindingId onlyFinding(const CarState& car)
{
    return car.findings.begin()->first;
}

} // namespace

void tst_CarScreen::everyPage_showsWhatTheLedgerHas_data()
{
    sizes();
}

void tst_CarScreen::everyPage_showsWhatTheLedgerHas()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(
        carStock, {finding("wheel-front-left", Condition::Kerbed, {Remedy::Refurbish}),
                   finding("front-door-left", Condition::Dent)});
    BenchCrew(house).finish(car, "arrival-check");
    bench.show(size);
    QVERIFY(bench.openCar(carStock));
    const CarState state = house.car(car);
    const auto all = holds(state, house.site().rules, house.clock.now());
    QVERIFY(bench.says(QStringLiteral("Holds the release: %1").arg(all.size())));
    QVERIFY(bench.says(all.front().words));
    QCOMPARE(bench.shell().car()->operations()->rowCount(),
             static_cast<int>(state.operations.size()));
    bench.shoot(QStringLiteral("car-work"));
    QVERIFY(bench.tap(QStringLiteral("Findings")));
    QVERIFY(bench.until([&] { return bench.ofType("FindingLine").size() == 2; },
                        QStringLiteral("findings")));
    bench.shoot(QStringLiteral("car-findings"));
    QVERIFY(bench.tap(QStringLiteral("Photos")));
    QVERIFY(bench.until([&] { return bench.ofType("PhotoTile").size() == state.photos.size(); },
                        QStringLiteral("photos")));
    bench.shoot(QStringLiteral("car-photos"));
    QVERIFY(bench.tap(QStringLiteral("History")));
    QVERIFY(bench.until([&] { return !bench.ofType("HistoryLine").empty(); },
                        QStringLiteral("history")));
    bench.shoot(QStringLiteral("car-history"));
}

void tst_CarScreen::placeOnTheDrawing_narrowsTheWork_data()
{
    sizes();
}

void tst_CarScreen::placeOnTheDrawing_narrowsTheWork()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    bench.house().bringIn(carStock,
                          {finding("wheel-front-left", Condition::Kerbed, {Remedy::Refurbish})});
    bench.show(size);
    QVERIFY(bench.openCar(carStock));
    const int all = bench.shell().car()->operations()->rowCount();
    QVERIFY(touchPlace(bench, QStringLiteral("wheel-front-left")));
    const auto onlyThere = [&] {
        const auto lines = bench.ofType("OperationLine");
        return !lines.empty() && std::ranges::all_of(lines, [](const QQuickItem* line) {
            return line->property("placeId").toString() == QLatin1StringView("wheel-front-left");
        });
    };
    QVERIFY(bench.until(onlyThere, QStringLiteral("the wheel's work alone")));
    bench.shoot(QStringLiteral("car-place"));
    const auto counts = [&](const char* tab, int count) {
        const QQuickItem* item = bench.ofType("FilterTab", "text", QString::fromLatin1(tab));
        return item != nullptr && item->property("count").toInt() == count;
    };
    const auto there = static_cast<int>(bench.ofType("OperationLine").size());
    QVERIFY(there < all);
    QVERIFY(counts("Work", there));
    QVERIFY(counts("Findings", 1));
    // Where nothing was found, the page says so.
    QVERIFY(bench.tap(QStringLiteral("Findings")));
    QVERIFY(touchPlace(bench, QStringLiteral("bonnet")));
    QVERIFY(bench.untilSays(QStringLiteral("Nothing was found here")));
    QVERIFY(counts("Findings", 0));
    bench.shoot(QStringLiteral("car-place-without-findings"));
    QVERIFY(bench.tap(QStringLiteral("All places")));
    QVERIFY(counts("Work", all));
    QVERIFY(counts("Findings", 1));
    QVERIFY(bench.tap(QStringLiteral("Work")));
    const auto allThere = [&] {
        return bench.shell().car()->operations()->rowCount() == all && !onlyThere();
    };
    QVERIFY(bench.until(allThere, QStringLiteral("all of it")));
}

void tst_CarScreen::car_movesToAFreeBay_only()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    const CarId other = house.bringIn(QStringLiteral("K-8"));
    const auto bayOf = [&](int number) {
        for (const auto& [id, bay] : house.site().bays)
            if (bay.number == number)
                return id;
        return BayId{};
    };
    house.must(house.person(QStringLiteral("Odo")), other, {car::MoveCar{bayOf(1), {}}});
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway")));
    QVERIFY(bench.tap(QStringLiteral("Move it")));
    bench.shoot(QStringLiteral("car-move"));
    QVERIFY(bench.tap(QStringLiteral("1 Wheels"))); // taken: nothing happens
    QVERIFY(bench.tap(QStringLiteral("2 Lift")));
    QVERIFY(bench.until([&] { return house.car(car).bay == bayOf(2); }, QStringLiteral("bay 2")));
    QCOMPARE(house.car(other).bay, bayOf(1));
    QVERIFY(bench.untilGone(QStringLiteral("2 Lift")));
    QVERIFY(bench.tap(QStringLiteral("Move it")));
    QVERIFY(bench.write(QStringLiteral("Or a parking place"), QStringLiteral("row 2")));
    QVERIFY(bench.tap(QStringLiteral("Park it there")));
    QVERIFY(bench.until([&] { return house.car(car).parking == QLatin1StringView("row 2"); },
                        QStringLiteral("parked")));
    QVERIFY(house.car(car).bay.isNull());
}

void tst_CarScreen::carOnItsStands_isNotMoved()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(
        carStock, {finding("wheel-front-left", Condition::Kerbed, {Remedy::Refurbish})});
    BenchCrew crew(house);
    crew.finish(car, "arrival-check");
    crew.finish(car, "wheels-off");
    const qint64 seq = house.car(car).seq;
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway")));
    QVERIFY(!bench.ofType("Strap").empty());
    bench.shoot(QStringLiteral("car-strapped"));
    QVERIFY(!bench.shell().car()->moveOffer().can);
    QVERIFY(bench.tap(QStringLiteral("Move it")));
    QVERIFY(bench.untilSays(bench.shell().car()->moveOffer().why));
    QVERIFY(bench.tap(QStringLiteral("2 Lift")));
    QVERIFY(bench.until([&] { return bench.shell().car()->ask()->refused(); },
                        QStringLiteral("the refusal")));
    QCOMPARE(bench.shell().car()->ask()->refusalId(), QStringLiteral("do-not-move"));
    QCOMPARE(house.car(car).seq, seq);
}

void tst_CarScreen::finding_isRecordedFromTheDrawing()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Found something")));
    WalkHands hands(bench);
    QVERIFY(hands.ready());
    QVERIFY(hands.view("wheels"));
    QVERIFY(hands.place("tyre-front-left"));
    QVERIFY(hands.condition(Condition::Cut));
    QVERIFY(hands.severity(Severity::Heavy));
    bench.shoot(QStringLiteral("car-found"));
    QVERIFY(hands.advised());
    QVERIFY(bench.until([&] { return house.car(car).findings.size() == 1; },
                        QStringLiteral("the finding")));
    const Finding found = house.car(car).findings.begin()->second;
    QCOMPARE(found.data().place.text, QStringLiteral("tyre-front-left"));
    QCOMPARE(found.data().condition, Condition::Cut);
    QCOMPARE(found.versions.front().by, house.person(QStringLiteral("Odo")));
    // Safety work, whoever found it.
    QVERIFY(!house.open(car, "tyre-fit", "tyre-front-left").isNull());
}

void tst_CarScreen::finding_isPhotographed()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock, {finding("front-door-left", Condition::Dent)});
    house.drop(QStringLiteral("door.jpg"));
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Findings")));
    QVERIFY(bench.tap(bench.ofType("FindingLine").front()));
    QVERIFY(bench.tap(QStringLiteral("Photograph it")));
    QVERIFY(WorkHands(bench).photo(QStringLiteral("door.jpg")));
    QVERIFY(bench.until([&] { return house.car(car).photos.size() == 1; },
                        QStringLiteral("the photo")));
    const AttachedPhoto photo = house.car(car).photos.front();
    QCOMPARE(photo.finding, onlyFinding(house.car(car)));
    QCOMPARE(photo.place.text, QStringLiteral("front-door-left"));
    QCOMPARE(photo.moment, PhotoMoment::Before);
    QVERIFY(house.photos().open(photo.photo).has_value());
}

void tst_CarScreen::safetyFinding_isCorrectedByASecondPerson_withAPhoto()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car =
        house.bringIn(carStock, {finding("tyre-front-left", Condition::Bulge, {Remedy::Replace})});
    const OperationId fit = house.open(car, "tyre-fit");
    QVERIFY(!fit.isNull());
    house.drop(QStringLiteral("tyre.jpg"));
    bench.show();
    // Who recorded it does not take it back.
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    const auto correct = [&](const char* shot) {
        if (!bench.tap(QStringLiteral("Findings")) ||
            !bench.tap(bench.ofType("FindingLine").front()) ||
            !bench.tap(QStringLiteral("It is not there")) ||
            !bench.write(QStringLiteral("Why"), QStringLiteral("a shadow")) ||
            !bench.tap(QStringLiteral("A photo that shows it")) ||
            !WorkHands(bench).photo(QStringLiteral("tyre.jpg")) ||
            !bench.untilSays(QStringLiteral("The photo is there")))
            return false;
        bench.shoot(QString::fromLatin1(shot));
        return bench.tap(QStringLiteral("Correct it"));
    };
    QVERIFY(correct("car-correct"));
    Ask& ask = *bench.shell().car()->ask();
    QVERIFY(bench.until([&] { return ask.refused(); }, QStringLiteral("the refusal")));
    QVERIFY(bench.untilSays(ask.words()));
    QVERIFY(house.car(car).findings.begin()->second.stands());
    QVERIFY(bench.tap(QStringLiteral("Cancel")));

    bench.shell().session()->signOut();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(correct("car-correct-second"));
    QVERIFY(bench.until([&] { return !house.car(car).findings.begin()->second.stands(); },
                        QStringLiteral("the correction")));
    const Finding corrected = house.car(car).findings.begin()->second;
    QCOMPARE(corrected.versions.size(), std::size_t{2}); // the first stays on record
    QCOMPARE(corrected.versions.back().by, house.person(QStringLiteral("Runa")));
    QCOMPARE(corrected.versions.back().reason, QStringLiteral("a shadow"));
    QVERIFY(house.photos().open(corrected.versions.back().evidence).has_value());
    QCOMPARE(house.car(car).operation(fit)->state, OperationState::Withdrawn);
}

void tst_CarScreen::identity_isCorrectedWithAReason_data()
{
    sizes();
}

void tst_CarScreen::identity_isCorrectedWithAReason()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("More")));
    bench.shoot(QStringLiteral("car-more"));
    QVERIFY(bench.tap(QStringLiteral("Correct who it is")));
    QVERIFY(bench.write(QStringLiteral("Colour"), QStringLiteral(" blue")));
    QVERIFY(bench.write(QStringLiteral("Why it is corrected"), QStringLiteral("misread")));
    bench.shoot(QStringLiteral("car-identity"));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(bench.until(
        [&] { return house.car(car).identity.colour == QLatin1StringView("slate blue"); },
        QStringLiteral("the colour")));
    QCOMPARE(house.car(car).identity.stockNumber, carStock);
}

void tst_CarScreen::promise_isChangedWithAReason()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Change the promise")));
    QVERIFY(bench.tap(QStringLiteral("Mon 12 May")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("buyer asks")));
    QVERIFY(bench.tap(QStringLiteral("Change the promise")));
    QVERIFY(bench.until([&] { return house.car(car).promised == QDate(2031, 5, 12); },
                        QStringLiteral("the day")));
    QCOMPARE(house.car(car).importance, PromiseImportance::Usual);
    QVERIFY(bench.untilGone(QStringLiteral("When not every promise can be kept, this one")));
    // What it counts for, with the day as it is.
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Change the promise")));
    QVERIFY(bench.tap(QStringLiteral("Must be kept")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("sold")));
    bench.shoot(QStringLiteral("car-promise"));
    QVERIFY(bench.tap(QStringLiteral("Change the promise")));
    QVERIFY(bench.until([&] { return house.car(car).importance == PromiseImportance::MustBeKept; },
                        QStringLiteral("what it counts for")));
    QCOMPARE(house.car(car).promised, QDate(2031, 5, 12));
    QVERIFY(bench.until([&] { return bench.shell().car()->importanceWord().contains("kept"); },
                        QStringLiteral("the word")));
}

void tst_CarScreen::odometer_isRead_lessThanBeforeOnlyWithAReason_data()
{
    sizes();
}

void tst_CarScreen::odometer_isRead_lessThanBeforeOnlyWithAReason()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    const auto read = [&](const QString& digits) {
        return bench.tap(QStringLiteral("More")) &&
               bench.tap(QStringLiteral("Read the odometer")) && bench.type(digits);
    };
    const auto shows = [&](int value) {
        return bench.until(
            [&] {
                const auto last = house.car(car).lastOdometer();
                return last && last->value == value;
            },
            QStringLiteral("the odometer"));
    };
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(read(QStringLiteral("61234")));
    QVERIFY(!bench.says(QStringLiteral("Why it shows less than before")));
    QVERIFY(bench.tap(QStringLiteral("Done")));
    QVERIFY(shows(61'234));

    QVERIFY(read(QStringLiteral("12")));
    QVERIFY(bench.untilSays(QStringLiteral("Why it shows less than before")));
    bench.shoot(QStringLiteral("car-odometer"));
    QVERIFY(bench.tap(QStringLiteral("Keep it")));
    QVERIFY(bench.says(QStringLiteral("Why it shows less than before")));
    QVERIFY(bench.write(QStringLiteral("Why it shows less than before"),
                        QStringLiteral("new instrument cluster")));
    QVERIFY(bench.tap(QStringLiteral("Keep it")));
    QVERIFY(shows(12));
    QCOMPARE(house.car(car).odometer.back().lowerWhy, QStringLiteral("new instrument cluster"));

    // Its unit is asked beside it; the new one counts km.
    QVERIFY(read(QStringLiteral("20")));
    QVERIFY(bench.tap(QStringLiteral("km")));
    QVERIFY(!bench.says(QStringLiteral("Why it shows less than before")));
    bench.shoot(QStringLiteral("car-odometer-km"));
    QVERIFY(bench.tap(QStringLiteral("Keep it")));
    QVERIFY(shows(20));
    QCOMPARE(house.car(car).lastOdometer()->unit, DistanceUnit::Kilometres);
}

void tst_CarScreen::work_isAddedByHand_data()
{
    sizes();
}

void tst_CarScreen::work_isAddedByHand()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(touchPlace(bench, QStringLiteral("front-door-left")));
    QVERIFY(bench.untilSays(QStringLiteral("All places")));
    QVERIFY(bench.tap(QStringLiteral("Add work")));
    const QString title = bench.titleOf(bench.shell().car()->kinds(), QStringLiteral("dent-push"));
    QVERIFY(bench.tapListed([&] { return bench.find(title); }, title));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("seen late")));
    bench.shoot(QStringLiteral("car-add-work"));
    QVERIFY(bench.tap(QStringLiteral("Add it")));
    QVERIFY(bench.until([&] { return !house.open(car, "dent-push", "front-door-left").isNull(); },
                        QStringLiteral("the work")));
    const Operation added = *house.car(car).operation(house.open(car, "dent-push"));
    QCOMPARE(added.origin, Origin::ByHand);
    QCOMPARE(added.reason, QStringLiteral("seen late"));
}

void tst_CarScreen::car_leavesUnreleased_signed()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Leaves unreleased")));
    QVERIFY(bench.tap(QStringLiteral("To the trade")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("rust")));
    bench.shoot(QStringLiteral("car-leaves"));
    QVERIFY(bench.tap(QStringLiteral("Sign it out")));
    if (bench.shell().session()->again())
        QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return house.car(car).left.has_value(); }, QStringLiteral("gone")));
    QCOMPARE(*house.car(car).left, LeavingHow::Trade);
    QCOMPARE(house.car(car).leftWhy, QStringLiteral("rust"));
    QVERIFY(bench.untilSays(QStringLiteral("No car in prep")));
}

void tst_CarScreen::entryMadeTwice_isJoined()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(carStock);
    const CarId second =
        house.bringIn(QStringLiteral("K-8"), {finding("front-door-left", Condition::Dent)});
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Entered twice")));
    QVERIFY(bench.write(QStringLiteral("Stock number of the other entry"), QStringLiteral("K-8")));
    QVERIFY(bench.write(QStringLiteral("How it came about"), QStringLiteral("two papers")));
    bench.shoot(QStringLiteral("car-twice"));
    QVERIFY(bench.tap(QStringLiteral("Join the two")));
    QVERIFY(
        bench.until([&] { return house.car(second).left.has_value(); }, QStringLiteral("joined")));
    QCOMPARE(*house.car(second).left, LeavingHow::EnteredTwice);
    QCOMPARE(house.car(second).sameAs, car);
    QCOMPARE(house.car(car).findings.size(), std::size_t{1});
    QCOMPARE(house.cards().size(), std::size_t{1});
}

RAMPLIGHT_TEST(QGuiApplication, tst_CarScreen)
#include "tst_carscreen.moc"
