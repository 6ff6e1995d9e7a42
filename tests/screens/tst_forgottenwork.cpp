// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"
#include "planhands.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A timer that nobody stopped, by touch: the manager sees it on the bays, and puts it right.
class tst_ForgottenWork : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void manager_isAskedOnTheBays_andPutsItRight_data();
    void manager_isAskedOnTheBays_andPutsItRight();
};

void tst_ForgottenWork::manager_isAskedOnTheBays_andPutsItRight_data()
{
    sizes();
}

void tst_ForgottenWork::manager_isAskedOnTheBays_andPutsItRight()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).finish(car, "arrival-check");
    const OperationId work = house.open(car, "first-wash"); // usually 15 min
    const auto now = [&] { return *house.car(car).operation(work); };
    const PersonId dilys = house.person(QStringLiteral("Dilys"));
    house.must(
        dilys, car,
        {car::MoveCar{bayNumbered(bench, 6), {}}, car::ReadCautions{work}, car::StartWork{work}});
    const QString began = timesOf(bench).clock(house.clock.now());
    house.clock.goOn(200);
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Bays")));
    QQuickItem* tile = nullptr;
    QVERIFY(bench.until(
        [&] {
            tile = bench.ofType("BoardTile", "stockNumber", QStringLiteral("K-7"));
            return tile != nullptr;
        },
        QStringLiteral("the bay")));
    const QString asked = QStringLiteral("runs since %1: still working?").arg(began);
    QVERIFY(bench.until([&] { return wordsIn(tile, asked) != nullptr; }, asked));
    QVERIFY(!wordsIn(tile, asked)->property("truncated").toBool());
    bench.shoot(QStringLiteral("bays-forgotten"));

    // One touch leads to the work, another one pauses it.
    QVERIFY(bench.tap(tile));
    QVERIFY(bench.untilSays(
        QStringLiteral("Dilys Marne: the timer runs since %1, for 3 h 20; this usually takes "
                       "15 min. Still working?")
            .arg(began)));
    QCOMPARE(bench.shell().operation()->operationId(), work.value);
    bench.shoot(QStringLiteral("operation-forgotten"));
    QVERIFY(bench.tap(QStringLiteral("Pause it")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.until([&] { return !now().isRunning(); }, QStringLiteral("the pause")));
    QCOMPARE(now().minutes(), 200);

    // The stretch says what is to be done about it until it is done.
    const QString hint = QStringLiteral("far longer than usual: touch it if it was not all worked");
    QVERIFY(bench.untilSays(hint));
    QVERIFY(!bench.says(QStringLiteral("Pause it")));
    bench.shoot(QStringLiteral("operation-overlong"));
    QVERIFY(bench.tap(bench.ofType("SegmentLine").front()));
    QVERIFY(bench.tap(QStringLiteral("clear")));
    QVERIFY(bench.type(QStringLiteral("20")));
    QVERIFY(bench.write(QStringLiteral("Why; the measured minutes stay beside it"),
                        QStringLiteral("went to lunch")));
    QVERIFY(bench.tap(QStringLiteral("Correct")));
    QVERIFY(bench.until([&] { return now().minutes() == 20; }, QStringLiteral("the minutes")));
    QVERIFY(bench.untilGone(hint));
    const Segment segment = now().segments.back();
    QCOMPARE(segment.measuredMinutes(), 200);
    QCOMPARE(segment.correctedBy, house.person(QStringLiteral("Runa")));

    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return !bench.ofType("BoardTile").empty(); },
                        QStringLiteral("the bays")));
    QVERIFY(bench.untilGone(asked));
}

RAMPLIGHT_TEST(QGuiApplication, tst_ForgottenWork)
#include "tst_forgottenwork.moc"
