// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workhands.h"

#include "domain/words.h"

#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// What is done with a car besides its work: corrected in what it has, brought back after it left.
class tst_CarMoreSheet : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void whatItHas_isCorrectedWithAPhoto_data() { sizes(); }
    void whatItHas_isCorrectedWithAPhoto();
    void odometerUnit_isCorrected();
    void carThatLeft_isFoundAndBroughtBack_data() { sizes(); }
    void carThatLeft_isFoundAndBroughtBack();
    void carThatLeft_isNotBroughtBackByWhoMayNot();
    void carThatLeft_isNotPhotographedOrCorrected_data() { sizes(); }
    void carThatLeft_isNotPhotographedOrCorrected();
};

namespace {

const auto stock = QStringLiteral("K-7");

bool signInAt(KioskBench& bench, const QString& who)
{
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who);
}

/// To the trade, as a manager signs it.
CarId leftCar(BenchHouse& house)
{
    const CarId car = house.bringIn(stock, {finding("roof", Condition::Dent, {Remedy::Leave})});
    house.must(house.person(QStringLiteral("Runa")), car,
               {car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("too much rust")}});
    return car;
}

/// What the wall's search found that is no longer in prep; null: nothing.
QQuickItem* former(const KioskBench& bench)
{
    for (QQuickItem* tab : bench.ofType("FilterTab"))
        if (tab->property("text").toString().startsWith(stock))
            return tab;
    return nullptr;
}

/// Nothing else shows it any more.
bool openTheOneThatLeft(KioskBench& bench)
{
    return bench.tap(QStringLiteral("Search")) && bench.type(stock.toLower()) &&
           bench.until([&] { return former(bench) != nullptr; },
                       QStringLiteral("the car that left")) &&
           bench.tap(former(bench));
}

} // namespace

void tst_CarMoreSheet::whatItHas_isCorrectedWithAPhoto()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(stock);
    const CarFacts before = house.car(car).facts;
    QVERIFY(std::ranges::find(before.has, Fact::LeatherTrim) == before.has.end());
    house.drop(QStringLiteral("seats.jpg"));
    bench.show(size);
    QVERIFY(signInAt(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.openCar(stock));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Correct what it has")));
    bench.shoot(QStringLiteral("car-facts"));
    QVERIFY(bench.tap(
        bench.titleOf(bench.shell().car()->identity()->facts(), nameOf(Fact::LeatherTrim))));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QCOMPARE(house.car(car).facts, before); // why is not said yet
    QVERIFY(bench.write(QStringLiteral("Why it is corrected"), QStringLiteral("they are leather")));
    QVERIFY(bench.tap(QStringLiteral("A photo that shows it")));
    QVERIFY(WorkHands(bench).photo(QStringLiteral("seats.jpg")));
    QVERIFY(bench.untilSays(QStringLiteral("The photo is there")));
    bench.shoot(QStringLiteral("car-facts-corrected"));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(bench.until([&] { return house.car(car).facts != before; },
                        QStringLiteral("the correction")));
    const CarState now = house.car(car);
    QVERIFY(std::ranges::find(now.facts.has, Fact::LeatherTrim) != now.facts.has.end());
    const auto history = house.desk().history(car).result();
    const auto corrected = std::ranges::find_if(*history, [](const CarEnvelope& entry) {
        return std::holds_alternative<FactsCorrected>(entry.event);
    });
    QVERIFY(corrected != history->end());
    QCOMPARE(std::get<FactsCorrected>(corrected->event).reason, QStringLiteral("they are leather"));
    QVERIFY(house.photos().open(std::get<FactsCorrected>(corrected->event).evidence).has_value());
    QVERIFY(bench.untilGone(QStringLiteral("Why it is corrected")));
}

void tst_CarMoreSheet::odometerUnit_isCorrected()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(stock);
    const CarId other = house.bringIn(QStringLiteral("K-8"));
    const CarFacts before = house.car(car).facts;
    QVERIFY(before.odometer > 0);
    QCOMPARE(before.odometerUnit, DistanceUnit::Miles);
    house.drop(QStringLiteral("dial.jpg"));
    bench.show();
    QVERIFY(signInAt(bench, QStringLiteral("Odo Farlane")));
    QVERIFY(bench.openCar(stock));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Correct what it has")));
    QVERIFY(bench.untilSays(QStringLiteral("Odometer, miles")));
    QVERIFY(bench.tap(QStringLiteral("km")));
    QVERIFY(bench.untilSays(QStringLiteral("Odometer, km")));
    QVERIFY(bench.write(QStringLiteral("Why it is corrected"), QStringLiteral("it counts km")));
    QVERIFY(bench.tap(QStringLiteral("A photo that shows it")));
    QVERIFY(WorkHands(bench).photo(QStringLiteral("dial.jpg")));
    QVERIFY(bench.untilSays(QStringLiteral("The photo is there")));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(
        bench.until([&] { return house.car(car).facts.odometerUnit == DistanceUnit::Kilometres; },
                    QStringLiteral("the unit")));
    QCOMPARE(house.car(car).facts.odometer, before.odometer);
    // The next car is asked by its own unit.
    QVERIFY(bench.untilGone(QStringLiteral("Why it is corrected")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.openCar(QStringLiteral("K-8")));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.tap(QStringLiteral("Correct what it has")));
    QVERIFY(bench.untilSays(QStringLiteral("Odometer, miles")));
    QQuickItem* miles = bench.ofType("ChoiceChip", "text", QStringLiteral("miles"));
    QVERIFY(miles != nullptr);
    QVERIFY(miles->property("selected").toBool());
    QCOMPARE(house.car(other).facts.odometerUnit, DistanceUnit::Miles);
}

void tst_CarMoreSheet::carThatLeft_isFoundAndBroughtBack()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = leftCar(house);
    bench.show(size);
    QVERIFY(signInAt(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.ofType("CarCard").empty());
    QVERIFY(openTheOneThatLeft(bench));
    QVERIFY(bench.tap(QStringLiteral("More")));
    bench.shoot(QStringLiteral("car-that-left"));
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("the trade gave it back")));
    bench.shoot(QStringLiteral("car-brought-back"));
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(bench.until([&] { return !house.car(car).left; }, QStringLiteral("back")));
    QVERIFY(bench.untilGone(QStringLiteral("Why")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.until([&] { return bench.ofType("CarCard").size() == 1; },
                        QStringLiteral("its card")));
}

void tst_CarMoreSheet::carThatLeft_isNotBroughtBackByWhoMayNot()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = leftCar(house);
    bench.show();
    QVERIFY(signInAt(bench, QStringLiteral("Bram Holloway")));
    QVERIFY(openTheOneThatLeft(bench));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.untilSays(QStringLiteral("Bring it back")));
    QVERIFY(!bench.shell().car()->bringBackOffer().can);
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(!bench.says(QStringLiteral("Why")));
    QVERIFY(house.car(car).left);
}

void tst_CarMoreSheet::carThatLeft_isNotPhotographedOrCorrected()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    leftCar(bench.house());
    bench.show(size);
    QVERIFY(signInAt(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(openTheOneThatLeft(bench));
    const auto offersNone = [&](const QStringList& ways) {
        return std::ranges::none_of(ways, [&](const QString& way) { return bench.says(way); });
    };
    const QStringList ofTheCar{
        QStringLiteral("Photograph the car"), QStringLiteral("Read the odometer"),
        QStringLiteral("Correct who it is"), QStringLiteral("Correct what it has")};
    const QStringList ofTheFinding{QStringLiteral("Photograph it"),
                                   QStringLiteral("It is something else"),
                                   QStringLiteral("It is not there")};
    const auto touchFinding = [&] {
        return bench.tap(QStringLiteral("Findings")) &&
               bench.until([&] { return !bench.ofType("FindingLine").empty(); },
                           QStringLiteral("the finding")) &&
               bench.tap(bench.ofType("FindingLine").front()) &&
               bench.untilSays(QStringLiteral("Close"));
    };
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.untilSays(QStringLiteral("Bring it back")));
    QVERIFY(offersNone(ofTheCar));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilGone(QStringLiteral("Bring it back")));
    QVERIFY(touchFinding());
    QVERIFY(offersNone(ofTheFinding));
    bench.shoot(QStringLiteral("finding-of-a-car-that-left"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilGone(QStringLiteral("Close")));
    // All of them are there again with the car.
    bench.shell().car()->bringBack(QStringLiteral("the trade gave it back"));
    QVERIFY(bench.until([&] { return bench.shell().car()->leaveOffer().shown; },
                        QStringLiteral("back")));
    QVERIFY(touchFinding());
    for (const QString& way : ofTheFinding)
        QVERIFY2(bench.says(way), qPrintable(way));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.untilSays(QStringLiteral("Correct who it is")));
    for (const QString& way : ofTheCar)
        QVERIFY2(bench.says(way), qPrintable(way));
}

RAMPLIGHT_TEST(QGuiApplication, tst_CarMoreSheet)
#include "tst_carmoresheet.moc"
