// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// Somebody who never signed in looks for something and walks off: after the lock time the wall is
/// there again, with all its cars, for whoever looks from across the shop.
class tst_Unattended : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void car_isLeft_andTheWallIsBack();
    void search_isEnded();
    void filters_areLifted_data();
    void filters_areLifted();
    void halfAForm_isKept();
};

namespace {

/// What the session says when the lock time is over.
void walkOff(KioskBench& bench)
{
    emit bench.shell().session()->timedOut();
}

bool showsStrip(KioskBench& bench)
{
    return !bench.ofType("BayTile").empty() && !bench.ofType("CountFigure").empty() &&
           bench.ofType("KeyCap").empty();
}

} // namespace

void tst_Unattended::car_isLeft_andTheWallIsBack()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().bringIn(QStringLiteral("K-7"));
    bench.show();
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(!showsStrip(bench));
    walkOff(bench);
    QVERIFY(bench.until([&] { return showsStrip(bench); }, QStringLiteral("the wall")));
    QVERIFY(bench.ofType("CarScreen").empty());
}

void tst_Unattended::search_isEnded()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().fill(12);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Search")));
    QVERIFY(bench.type(QStringLiteral("k-103")));
    WallModel& wall = *bench.shell().wall();
    QVERIFY(bench.until([&] { return wall.count() == 1; }, QStringLiteral("the one car")));
    QVERIFY(!showsStrip(bench));
    walkOff(bench);
    QVERIFY(bench.until([&] { return showsStrip(bench); }, QStringLiteral("counts and bays")));
    QCOMPARE(wall.count(), 12);
    // The next search begins empty.
    QVERIFY(bench.tap(QStringLiteral("Search")));
    QVERIFY(bench.untilSays(QStringLiteral("End search")));
    QCOMPARE(bench.ofType("Field").back()->property("text").toString(), QString());
    QCOMPARE(wall.count(), 12);
}

void tst_Unattended::filters_areLifted_data()
{
    QTest::addColumn<bool>("person");
    QTest::newRow("skill") << false;
    QTest::newRow("person, while the list of people is open") << true;
}

void tst_Unattended::filters_areLifted()
{
    QFETCH(const bool, person);
    KioskBench bench(BenchHouse::Start::House);
    bench.house().fill(3);
    bench.show();
    WallModel& wall = *bench.shell().wall();
    if (person) {
        QVERIFY(bench.tap(QStringLiteral("Person")));
        QVERIFY(bench.tap(QStringLiteral("Sefton Ayre")));
        QVERIFY(bench.until([&] { return wall.person() != 0; }, QStringLiteral("the filter")));
        QVERIFY(bench.tap(QStringLiteral("Sefton Ayre 0")));
        QVERIFY(bench.untilSays(QStringLiteral("Whose work?")));
    } else {
        QVERIFY(bench.tap(bench.ofType("FilterTab", "skill", QStringLiteral("trim"))));
        QVERIFY(bench.until([&] { return !wall.skill().isEmpty(); }, QStringLiteral("the filter")));
    }
    QVERIFY(wall.count() < 3);
    walkOff(bench);
    QVERIFY(bench.until([&] { return wall.count() == 3; }, QStringLiteral("all cars")));
    QVERIFY(wall.filterWords().isEmpty());
    QVERIFY(bench.untilGone(QStringLiteral("Whose work?")));
}

void tst_Unattended::halfAForm_isKept()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().fill(3);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Bring a car in")));
    QVERIFY(bench.write(QStringLiteral("Make"), QStringLiteral("Orrel")));
    walkOff(bench);
    QVERIFY(bench.until([&] { return showsStrip(bench); }, QStringLiteral("the wall")));
    QVERIFY(bench.tap(QStringLiteral("Bring a car in")));
    QVERIFY(bench.untilSays(QStringLiteral("Orrel")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_Unattended)
#include "tst_unattended.moc"
