// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const QString theVin = QStringLiteral("ZZ0ZZZ00500000456");

} // namespace

/// One car that stands on the wall twice: its VIN says so, before and after it was entered.
class tst_SameVin : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void arrival_isTold_whileTheVinIsTyped_data() { sizes(); }
    void arrival_isTold_whileTheVinIsTyped();
    void vinTypedInGroups_isTheSame();
    void carOnTheWallTwice_saysSo_andLeadsToTheJoining_data() { sizes(); }
    void carOnTheWallTwice_saysSo_andLeadsToTheJoining();
    void otherVin_orNone_saysNothing();
};

void tst_SameVin::arrival_isTold_whileTheVinIsTyped()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    bench.house().arrive(QStringLiteral("K-7"), theVin);
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Bring a car in")));
    const QString said =
        QStringLiteral("K-7 (Orrel Tarn 1.2) has this number and is in prep. Is it this car?");
    QVERIFY(!bench.says(said));
    QVERIFY(bench.write(QStringLiteral("Vehicle identification number"), theVin));
    QVERIFY(bench.untilSays(said));
    bench.shoot(QStringLiteral("arrival-same-vin"));
    QVERIFY(bench.write(QStringLiteral("Vehicle identification number"),
                        QStringLiteral("ZZ0ZZZ00500000457")));
    QVERIFY(bench.untilGone(said));
}

void tst_SameVin::vinTypedInGroups_isTheSame()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.arrive(QStringLiteral("K-7"), QStringLiteral("ZZ0ZZZ005-00000456"));
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Runa Talbeck")));
    // Its label has the number as the maker writes it.
    emit bench.shell().scans()->vinScanned(theVin);
    QVERIFY(bench.until([&] { return bench.shell().car()->carId() == car.text; },
                        QStringLiteral("the car of the scan")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.tap(QStringLiteral("Bring a car in")));
    QVERIFY(bench.write(QStringLiteral("Vehicle identification number"),
                        QStringLiteral("ZZ0-ZZZ00500000456")));
    QVERIFY(bench.untilSays(
        QStringLiteral("K-7 (Orrel Tarn 1.2) has this number and is in prep. Is it this car?")));
}

void tst_SameVin::carOnTheWallTwice_saysSo_andLeadsToTheJoining()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.arrive(QStringLiteral("K-7"), theVin);
    const CarId second = house.arrive(QStringLiteral("K-8"), theVin);
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Odo Farlane")) && bench.openCar(QStringLiteral("K-7")));
    const QString said =
        QStringLiteral("K-8 has the same VIN. Is this one car, entered twice? Join them.");
    QVERIFY(bench.untilSays(said));
    bench.shoot(QStringLiteral("car-same-vin"));
    QVERIFY(bench.tap(said));
    // The other one's number stands there already.
    QVERIFY(bench.untilSays(QStringLiteral("K-8")));
    QVERIFY(bench.write(QStringLiteral("How it came about"), QStringLiteral("two papers")));
    QVERIFY(bench.tap(QStringLiteral("Join the two")));
    QVERIFY(
        bench.until([&] { return house.car(second).left.has_value(); }, QStringLiteral("joined")));
    QCOMPARE(house.car(second).sameAs, car);
    QVERIFY(bench.untilGone(said));
}

void tst_SameVin::otherVin_orNone_saysNothing()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().arrive(QStringLiteral("K-7"), theVin);
    bench.house().arrive(QStringLiteral("K-8"), QStringLiteral("ZZ0ZZZ00500000457"));
    bench.house().arrive(QStringLiteral("K-9"), {});
    bench.house().arrive(QStringLiteral("K-10"), {});
    bench.show();
    for (const char* stock : {"K-7", "K-8", "K-9"}) {
        QVERIFY(bench.openCar(QString::fromLatin1(stock)));
        QVERIFY(bench.until([&] { return bench.shell().car()->loaded(); }, QStringLiteral("it")));
        QCOMPARE(bench.shell().car()->sameVinStock(), QString());
        QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    }
}

RAMPLIGHT_TEST(QGuiApplication, tst_SameVin)
#include "tst_samevin.moc"
