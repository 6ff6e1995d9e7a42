// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QQuickItem>
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
    void appraisalFile_isTakenIn_onceOnly_data();
    void appraisalFile_isTakenIn_onceOnly();
    void noFile_isSaid_untilOneComes();
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

bool takeIn(KioskBench& bench, const QString& name)
{
    return bench.tap(QStringLiteral("From an appraisal file")) && bench.untilSays(name) &&
           bench.tap(name);
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

void tst_ArrivalScreen::appraisalFile_isTakenIn_onceOnly_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<bool>("onStick");
    QTest::newRow("wide, drop folder") << QSize(1920, 1080) << false;
    QTest::newRow("tall, stick") << QSize(1080, 1920) << true;
}

void tst_ArrivalScreen::appraisalFile_isTakenIn_onceOnly()
{
    QFETCH(const QSize, size);
    QFETCH(const bool, onStick);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const QDir appraisals(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/appraisals"));
    const QString name = appraisals.entryList({QStringLiteral("*.json")}).front();
    const QString other = QStringLiteral("older.json");
    QFile file(appraisals.filePath(name));
    QVERIFY(file.open(QIODevice::ReadOnly));
    house.put((onStick ? house.stickFolder() : house.dropFolder()) + QLatin1Char('/') + name,
              file.readAll(), 5);
    // No appraisals: what the house wrote of itself, and a photo.
    for (const char* of : {"house.json", "catalogue.json"})
        house.put(house.dropFolder() + QLatin1Char('/') + QLatin1StringView(of), "{}", 1);
    house.put(house.dropFolder() + QLatin1Char('/') + other, "{}", 90);
    house.drop(QStringLiteral("wheel.jpg"));
    bench.show(size);
    QVERIFY(goToForm(bench));
    QVERIFY(bench.tap(QStringLiteral("From an appraisal file")));
    QVERIFY(bench.untilSays(name));
    FilesModel& files = *bench.shell().arrival()->files();
    QCOMPARE(files.rowCount(), 2);
    QCOMPARE(files.rows().front().name, name); // the newest first
    QCOMPARE(files.rows().back().name, other);
    bench.shoot(QStringLiteral("arrival-files"));
    QVERIFY(bench.tap(name));
    QVERIFY(bench.until([&] { return house.cards().size() == 1; }, QStringLiteral("the car")));
    const CarCard card = house.cards().front();
    const QString told = QStringLiteral("Taken in: %1").arg(card.identity.stockNumber);
    QVERIFY(bench.untilSays(told));
    QVERIFY(bench.until([&] { return isInSight(bench.find(told)); }, told));
    bench.shoot(QStringLiteral("arrival-taken-in"));
    QVERIFY(bench.says(QStringLiteral("Open %1").arg(card.identity.stockNumber)));
    const qint64 seq = house.car(house.carByStock(card.identity.stockNumber)).seq;
    QVERIFY(takeIn(bench, name));
    QVERIFY(bench.untilSays(
        QStringLiteral("%1 was taken in before; nothing changed.").arg(card.identity.stockNumber)));
    QCOMPARE(house.cards().size(), std::size_t{1});
    QCOMPARE(house.car(house.carByStock(card.identity.stockNumber)).seq, seq);
    QVERIFY(bench.tap(QStringLiteral("Open %1").arg(card.identity.stockNumber)));
    QVERIFY(bench.until([&] { return bench.shell().car()->carId() == card.car.text; },
                        QStringLiteral("the car's screen")));
}

void tst_ArrivalScreen::noFile_isSaid_untilOneComes()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show();
    QVERIFY(goToForm(bench));
    QVERIFY(bench.tap(QStringLiteral("From an appraisal file")));
    QVERIFY(
        bench.untilSays(QStringLiteral("No appraisal file is in the drop folder or on a stick.")));
    bench.shoot(QStringLiteral("arrival-no-files"));
    house.put(house.dropFolder() + QStringLiteral("/new.json"), "{}", 1);
    QVERIFY(bench.tap(QStringLiteral("Look again")));
    QVERIFY(bench.untilSays(QStringLiteral("new.json")));
}

void tst_ArrivalScreen::badFile_isRefusedWhole_faultsAreNamed()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.put(house.dropFolder() + QStringLiteral("/bad.json"), "{\n  \"format\": 3\n}\n", 1);
    bench.show();
    QVERIFY(goToForm(bench));
    QVERIFY(takeIn(bench, QStringLiteral("bad.json")));
    QVERIFY(bench.until([&] { return !bench.shell().arrival()->importFaults().isEmpty(); },
                        QStringLiteral("faults")));
    const QString fault = bench.shell().arrival()->importFaults().join(QLatin1Char('\n'));
    QVERIFY(bench.untilSays(fault));
    QVERIFY(bench.until([&] { return isInSight(bench.find(fault)); }, fault));
    bench.shoot(QStringLiteral("arrival-bad-file"));
    QVERIFY(house.cards().empty());
}

RAMPLIGHT_TEST(QGuiApplication, tst_ArrivalScreen)
#include "tst_arrivalscreen.moc"
