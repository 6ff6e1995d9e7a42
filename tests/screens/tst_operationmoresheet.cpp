// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"
#include "workhands.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// What gets in the way of an operation: a part, an outside firm, somebody else's turn.
class tst_OperationMoreSheet : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void missingPart_blocks_untilItIsHere_data() { sizes(); }
    void missingPart_blocks_untilItIsHere();
    void outsideWork_goesOut_andComesBackForOurSignature_data() { sizes(); }
    void outsideWork_goesOut_andComesBackForOurSignature();
    void car_whoseWheelsAreOff_goesToNoFirm();
    void handedOver_waitsForTheColleague();
};

void tst_OperationMoreSheet::missingPart_blocks_untilItIsHere()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Waiting for a part")));
    QVERIFY(bench.write(QStringLiteral("Which part"), QStringLiteral("lacquer")));
    QVERIFY(bench.write(QStringLiteral("Ordered with"), QStringLiteral("harbour paints")));
    QVERIFY(bench.tap(QStringLiteral("tomorrow")));
    bench.shoot(QStringLiteral("operation-part"));
    QVERIFY(bench.tap(QStringLiteral("It waits for this")));
    QVERIFY(bench.until([&] { return wheel.now(house).state == OperationState::Blocked; },
                        QStringLiteral("blocked")));
    const Operation blocked = wheel.now(house);
    QVERIFY(blocked.part.has_value());
    QCOMPARE(blocked.part->part, QStringLiteral("lacquer"));
    QCOMPARE(blocked.part->supplier, QStringLiteral("harbour paints"));
    QCOMPARE(blocked.part->due, QDate(2031, 5, 9));
    QVERIFY(!blocked.isRunning());
    QVERIFY(bench.untilSays(bench.shell().operation()->situationWords()));
    // It was begun, though no minute passed.
    QVERIFY(bench.untilSays(QStringLiteral("paused")));
    QVERIFY(!bench.says(QStringLiteral("not begun")));
    QVERIFY(bench.tap(QStringLiteral("Another day")));
    QVERIFY(bench.tap(QStringLiteral("Mon 12 May")));
    QVERIFY(bench.tap(QStringLiteral("the supplier says so")));
    bench.shoot(QStringLiteral("operation-part-later"));
    QVERIFY(bench.tap(QStringLiteral("It comes then")));
    QVERIFY(bench.until([&] { return wheel.now(house).part->due == QDate(2031, 5, 12); },
                        QStringLiteral("another day")));
    QVERIFY(bench.untilSays(bench.shell().operation()->situationWords()));
    bench.shoot(QStringLiteral("operation-part-waits"));
    QVERIFY(bench.tap(QStringLiteral("The part is here")));
    QVERIFY(bench.until([&] { return wheel.now(house).state == OperationState::Paused; },
                        QStringLiteral("unblocked")));
}

void tst_OperationMoreSheet::outsideWork_goesOut_andComesBackForOurSignature()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house, false);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Send it out")));
    QVERIFY(bench.write(QStringLiteral("Firm"), QStringLiteral("north rims")));
    QVERIFY(bench.write(QStringLiteral("Order or delivery note"), QStringLiteral("44")));
    QVERIFY(bench.tap(QStringLiteral("1")));
    QVERIFY(bench.tap(QStringLiteral("tomorrow")));
    bench.shoot(QStringLiteral("operation-out"));
    QVERIFY(bench.tap(QStringLiteral("It is out")));
    QVERIFY(bench.until([&] { return wheel.now(house).outside.has_value(); },
                        QStringLiteral("outside")));
    QCOMPARE(wheel.now(house).state, OperationState::Blocked);
    QCOMPARE(wheel.now(house).outside->firm, QStringLiteral("north rims"));
    QCOMPARE(wheel.now(house).outside->document, QStringLiteral("44"));
    QCOMPARE(wheel.now(house).outside->keys, 1);
    QCOMPARE(wheel.now(house).outside->dueBack, QDate(2031, 5, 9));

    QVERIFY(bench.tap(QStringLiteral("Another day")));
    QVERIFY(bench.tap(QStringLiteral("Mon 12 May")));
    bench.shoot(QStringLiteral("operation-back-later"));
    QVERIFY(bench.tap(QStringLiteral("It comes then")));
    QVERIFY(bench.until([&] { return wheel.now(house).outside->dueBack == QDate(2031, 5, 12); },
                        QStringLiteral("another day")));

    QVERIFY(bench.tap(QStringLiteral("It is back")));
    QVERIFY(bench.write(QStringLiteral("Document that came with it"), QStringLiteral("45")));
    QVERIFY(bench.untilSays(QStringLiteral("count the keys")));
    QVERIFY(bench.tap(QStringLiteral("1")));
    bench.shoot(QStringLiteral("operation-back-counted"));
    QVERIFY(bench.tap(QStringLiteral("It is back")));
    QVERIFY(bench.until([&] { return wheel.now(house).outside->received; },
                        QStringLiteral("received")));
    QCOMPARE(wheel.now(house).outside->receivedDocument, QStringLiteral("45"));
    QCOMPARE(wheel.now(house).outside->keysBack.value_or(-1), 1);
    // Our own person still owes evidence and signature.
    QCOMPARE(wheel.now(house).state, OperationState::AwaitingCheck);
    QVERIFY(wheel.now(house).signatures.empty());
    // It is measured without a timer, and led as with one.
    bench.shoot(QStringLiteral("operation-back"));
    QVERIFY(bench.tap(QStringLiteral("Next reading")));
    WorkHands hands(bench);
    QVERIFY(hands.answer(QStringLiteral("no crack, no weld, nothing missing")));
    QVERIFY(!wheel.now(house).readings.empty());
    QVERIFY(!wheel.now(house).isRunning());
}

void tst_OperationMoreSheet::car_whoseWheelsAreOff_goesToNoFirm()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Send it out")));
    QVERIFY(bench.write(QStringLiteral("Firm"), QStringLiteral("north rims")));
    QVERIFY(bench.tap(QStringLiteral("1")));
    QVERIFY(bench.tap(QStringLiteral("tomorrow")));
    QVERIFY(bench.tap(QStringLiteral("It is out")));
    QVERIFY(bench.untilSays(
        QStringLiteral("Do not move this car: wheels are off or not yet tightened.")));
    bench.shoot(QStringLiteral("operation-out-refused"));
    QVERIFY(!wheel.now(house).outside);
}

void tst_OperationMoreSheet::handedOver_waitsForTheColleague()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    house.clock.goOn(15);
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Hand it over")));
    QVERIFY(bench.tap(QStringLiteral("Ivo Kesteven")));
    QVERIFY(bench.until([&] { return !wheel.now(house).isRunning(); }, QStringLiteral("stopped")));
    QCOMPARE(wheel.now(house).assigned, house.person(QStringLiteral("Ivo")));
    QCOMPARE(wheel.now(house).segments.back().stop, StopKind::HandedOver);
    QCOMPARE(wheel.now(house).minutes(), 15);
}

RAMPLIGHT_TEST(QGuiApplication, tst_OperationMoreSheet)
#include "tst_operationmoresheet.moc"
