// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QQuickItem>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A car comes in by hand, by touch.
class tst_ArrivalScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void car_isEnteredWithIdentityAndFacts_andItsWalkRoundFollows_data();
    void car_isEnteredWithIdentityAndFacts_andItsWalkRoundFollows();
    void stockNumberTaken_isRefused_andWhatWasTypedStays();
    void emptyForm_bringsNothingIn();
    void appraisalFile_isTakenIn_onceOnly();
    void badFile_isRefusedWhole_faultsAreNamed();
};

namespace {

/// From the wall to the form, signed in.
bool goToForm(KioskBench& bench)
{
    return bench.tap(QStringLiteral("Who are you?")) &&
           bench.signIn(QStringLiteral("Odo Farlane")) &&
           bench.tap(QStringLiteral("Bring a car in")) &&
           bench.until([&] { return !bench.ofType("ArrivalScreen").empty(); },
                       QStringLiteral("the form"));
}

bool takeIn(KioskBench& bench, const QString& path)
{
    return bench.tap(QStringLiteral("From an appraisal file")) &&
           bench.write(QStringLiteral("Path of the file"), path) &&
           bench.tap(QStringLiteral("Take it in"));
}

} // namespace

void tst_ArrivalScreen::car_isEnteredWithIdentityAndFacts_andItsWalkRoundFollows_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_ArrivalScreen::car_isEnteredWithIdentityAndFacts_andItsWalkRoundFollows()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    QVERIFY(goToForm(bench));
    bench.shoot(QStringLiteral("arrival-empty"));
    QVERIFY(bench.write(QStringLiteral("Stock number"), QStringLiteral("K-7")));
    QVERIFY(bench.write(QStringLiteral("Registration"), QStringLiteral("qx 417")));
    QVERIFY(bench.write(QStringLiteral("Make"), QStringLiteral("Orrel")));
    QVERIFY(bench.write(QStringLiteral("Model"), QStringLiteral("Tarn")));
    QVERIFY(bench.write(QStringLiteral("Colour"), QStringLiteral("slate")));
    QVERIFY(bench.write(QStringLiteral("Odometer, miles"), QStringLiteral("41200")));
    QVERIFY(bench.write(QStringLiteral("Keys"), QStringLiteral("2")));
    ArrivalView& view = *bench.shell().arrival();
    QVERIFY(bench.tap(bench.titleOf(view.identity()->shapes(), QStringLiteral("estate"))));
    QVERIFY(bench.tap(bench.titleOf(view.identity()->facts(), QStringLiteral("traction-battery"))));
    QVERIFY(bench.tap(bench.titleOf(view.days(), QStringLiteral("2031-05-12"))));
    QVERIFY(bench.write(QStringLiteral("Where it stands"), QStringLiteral("yard")));

    QVERIFY(bench.write(QStringLiteral("Vehicle identification number"),
                        QStringLiteral("zz0zzz00500000456")));
    QVERIFY(bench.untilSays(view.identity()->property("vinNote").toString()));
    bench.shoot(QStringLiteral("arrival-filled"));
    QVERIFY(bench.tap(QStringLiteral("Bring it in and walk round")));
    QVERIFY(bench.until([&] { return !house.carByStock(QStringLiteral("K-7")).isEmpty(); },
                        QStringLiteral("the car")));

    const CarState car = house.car(house.carByStock(QStringLiteral("K-7")));
    QCOMPARE(car.identity.registration.toLower(), QStringLiteral("qx 417"));
    QCOMPARE(car.identity.make, QStringLiteral("Orrel"));
    QCOMPARE(car.identity.model, QStringLiteral("Tarn"));
    QCOMPARE(car.identity.colour, QStringLiteral("slate"));
    QCOMPARE(car.identity.shape, BodyShape::Estate);
    QCOMPARE(car.facts.odometer, 41200);
    QCOMPARE(car.facts.odometerUnit, DistanceUnit::Miles);
    QCOMPARE(car.facts.keys, 2);
    QVERIFY(car.facts.is(Fact::TractionBattery));
    QCOMPARE(car.promised, QDate(2031, 5, 12));
    QCOMPARE(car.parking, QStringLiteral("yard"));
    QCOMPARE(car.identity.vin, QStringLiteral("ZZ0ZZZ00500000456"));
    QVERIFY(!car.appraised);
    QCOMPARE(car.factsBy.arrival, house.person(QStringLiteral("Odo")));
    // The facts brought their work.
    QVERIFY(!house.open(car.id, "traction-battery-check").isNull());
    // The screen goes on to the walk-round.
    QVERIFY(bench.until(
        [&] {
            return bench.shell().car()->carId() == car.id.text &&
                   !bench.ofType("WalkRoundScreen").empty();
        },
        QStringLiteral("the walk-round")));
}

void tst_ArrivalScreen::stockNumberTaken_isRefused_andWhatWasTypedStays()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.bringIn(QStringLiteral("K-7"));
    bench.show();
    QVERIFY(goToForm(bench));
    QVERIFY(bench.write(QStringLiteral("Stock number"), QStringLiteral("K-7")));
    QVERIFY(bench.write(QStringLiteral("Registration"), QStringLiteral("qx 5")));
    QVERIFY(bench.write(QStringLiteral("Make"), QStringLiteral("Orrel")));
    QVERIFY(bench.write(QStringLiteral("Model"), QStringLiteral("Tarn")));
    ArrivalView& view = *bench.shell().arrival();
    QVERIFY(bench.tap(bench.titleOf(view.identity()->shapes(), QStringLiteral("hatch"))));
    QVERIFY(bench.tap(bench.titleOf(view.days(), QStringLiteral("2031-05-12"))));
    QVERIFY(bench.tap(QStringLiteral("Bring it in and walk round")));
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("the refusal")));
    QCOMPARE(view.ask()->refusalId(), QStringLiteral("stock-number-taken"));
    QVERIFY(bench.untilSays(view.ask()->words()));
    bench.shoot(QStringLiteral("arrival-refused"));
    QCOMPARE(house.cards().size(), std::size_t{1});
    QCOMPARE(bench.ofType("Field", "label", QStringLiteral("Make"))->property("text").toString(),
             QStringLiteral("Orrel"));
}

void tst_ArrivalScreen::emptyForm_bringsNothingIn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(goToForm(bench));
    QVERIFY(!bench.find(QStringLiteral("Bring it in and walk round")) ||
            !bench.shell().arrival()->canSave());
    QVERIFY(bench.says(bench.shell().arrival()->identity()->fault())); // the button says why
    QVERIFY(bench.tap(QStringLiteral("Bring it in and walk round")));
    QVERIFY(!bench.shell().arrival()->ask()->busy());
    QVERIFY(bench.house().cards().empty());
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.untilSays(QStringLiteral("No car in prep")));
}

void tst_ArrivalScreen::appraisalFile_isTakenIn_onceOnly()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    QDir::setCurrent(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/appraisals"));
    const QString path = QDir::current().entryList({QStringLiteral("*.json")}).front();
    bench.show();
    QVERIFY(goToForm(bench));
    QVERIFY(takeIn(bench, path));
    QVERIFY(bench.until([&] { return house.cards().size() == 1; }, QStringLiteral("the car")));
    const CarCard card = house.cards().front();
    QVERIFY(bench.untilSays(QStringLiteral("Taken in: %1").arg(card.identity.stockNumber)));
    const qint64 seq = house.car(house.carByStock(card.identity.stockNumber)).seq;
    QVERIFY(takeIn(bench, path));
    QVERIFY(bench.untilSays(
        QStringLiteral("%1 was taken in before; nothing changed.").arg(card.identity.stockNumber)));
    QCOMPARE(house.cards().size(), std::size_t{1});
    QCOMPARE(house.car(house.carByStock(card.identity.stockNumber)).seq, seq);
}

void tst_ArrivalScreen::badFile_isRefusedWhole_faultsAreNamed()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QTemporaryDir folder;
    QDir::setCurrent(folder.path());
    QFile file(QStringLiteral("bad.json"));
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write("{\n  \"format\": 3\n}\n");
    file.close();
    QVERIFY(goToForm(bench));
    QVERIFY(takeIn(bench, file.fileName()));
    QVERIFY(bench.until([&] { return !bench.shell().arrival()->importFaults().isEmpty(); },
                        QStringLiteral("faults")));
    QVERIFY(bench.untilSays(bench.shell().arrival()->importFaults().front()));
    QVERIFY(bench.house().cards().empty());
    QDir::setCurrent(QDir::rootPath());
}

RAMPLIGHT_TEST(QGuiApplication, tst_ArrivalScreen)
#include "tst_arrivalscreen.moc"
