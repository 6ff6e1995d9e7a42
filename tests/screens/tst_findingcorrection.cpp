// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"
#include "workhands.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A finding whose figures were typed wrongly, put right by touch.
class tst_FindingCorrection : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void sizeAndCount_areCorrected_andTheWorkWithThem_data() { sizes(); }
    void sizeAndCount_areCorrected_andTheWorkWithThem();
};

void tst_FindingCorrection::sizeAndCount_areCorrected_andTheWorkWithThem()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    FindingData chip = finding("windscreen", Condition::Chip);
    chip.sizeMm = 45; // it was 5
    const CarId car = house.bringIn(QStringLiteral("K-7"), {chip});
    QVERIFY(!house.open(car, "windscreen-fit").isNull());
    house.drop(QStringLiteral("chip.jpg"));
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Runa Talbeck")) && bench.openCar(QStringLiteral("K-7")));
    QVERIFY(bench.tap(QStringLiteral("Findings")));
    QVERIFY(bench.tap(bench.ofType("FindingLine").front()));
    QVERIFY(bench.tap(QStringLiteral("It is something else")));
    QVERIFY(bench.untilSays(QStringLiteral("What it really is")));
    QVERIFY(bench.tap(QStringLiteral("how many")));
    QVERIFY(bench.type(QStringLiteral("2")));
    // Its own figure, also where the pad of the other one still stands there.
    QVERIFY(bench.tap(QStringLiteral("size, mm")));
    QQuickItem* pad = bench.ofType("FindingPad").back();
    QCOMPARE(pad->property("text").toString(), QStringLiteral("45"));
    bench.shoot(QStringLiteral("car-finding-size"));
    QVERIFY(QMetaObject::invokeMethod(pad, "clear"));
    QVERIFY(bench.type(QStringLiteral("5")));
    QVERIFY(bench.tap(QStringLiteral("Done")));
    bench.shoot(QStringLiteral("car-finding-really"));
    QVERIFY(bench.tap(QStringLiteral("That is it")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("a digit too many")));
    QVERIFY(bench.tap(QStringLiteral("A photo that shows it")));
    QVERIFY(WorkHands(bench).photo(QStringLiteral("chip.jpg")));
    QVERIFY(bench.untilSays(QStringLiteral("The photo is there")));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(bench.until([&] { return !house.open(car, "chip-fill").isNull(); },
                        QStringLiteral("the repair of a chip")));
    QVERIFY(house.open(car, "windscreen-fit").isNull());
    const FindingData now = house.car(car).findings.begin()->second.data();
    QCOMPARE(now.sizeMm, std::optional(5));
    QCOMPARE(now.count, std::optional(2));
}

RAMPLIGHT_TEST(QGuiApplication, tst_FindingCorrection)
#include "tst_findingcorrection.moc"
