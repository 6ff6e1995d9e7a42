// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "operationscene.h"
#include "support/testmain.h"

#include <QTest>

namespace ramplight::test {

/// A timer that somebody forgot: the manager is asked on the bays, whoever opens the work on the
/// operation, and there it is put right.
class TestForgottenTimer : public QObject
{
    Q_OBJECT

private slots:
    void operation_asks_andItsOwnerOrAManagerPausesIt_data();
    void operation_asks_andItsOwnerOrAManagerPausesIt();
    void bays_ask_andLeadToTheWork();
    void peopleOutsideTheBays_areAskedAbout();
};

void TestForgottenTimer::operation_asks_andItsOwnerOrAManagerPausesIt_data()
{
    QTest::addColumn<QString>("who");
    QTest::addColumn<bool>("may");
    QTest::newRow("whose it is") << "Noor" << true;
    QTest::newRow("a manager") << "Wanda" << true;
    QTest::newRow("a colleague") << "Caspar" << false;
}

void TestForgottenTimer::operation_asks_andItsOwnerOrAManagerPausesIt()
{
    QFETCH(const QString, who);
    QFETCH(const bool, may);
    OperationScene scene("valet");
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    bench.clock.pass(10 * 60); // the next morning
    bench.start(scene.car, scene.id, bench.painter);
    const TimeWords times(zoneOf(HouseRules{}));
    const QString asked =
        QStringLiteral("Noor: the timer runs since %1, for 2 h 01; this usually takes 20 min. "
                       "Still working?")
            .arg(times.clock(bench.clock.now()));
    bench.clock.pass(120);
    scene.kiosk.settle();
    QTRY_VERIFY(view->running());
    QCOMPARE(view->forgottenWords(), QString());
    QVERIFY(!view->pauseForgottenOffer().shown);
    view->pauseForgotten(); // there is nothing to be paused
    QVERIFY(!view->ask()->busy());
    bench.clock.pass(1);
    QCOMPARE(view->forgottenWords(), asked);
    // Whoever is not signed in is asked who it is.
    QVERIFY(view->pauseForgottenOffer().can);

    const SiteState site = bench.ledger.site().value();
    PersonId person;
    for (const auto& [id, one] : site.people)
        if (one.name == who)
            person = id;
    scene.kiosk.signIn(person);
    scene.kiosk.settle();
    QVERIFY(view->pauseForgottenOffer().shown);
    QCOMPARE(view->pauseForgottenOffer().can, may);
    view->pauseForgotten();
    QCOMPARE(scene.answer(), may ? done : no(RefusalId::NotAllowed));
    scene.kiosk.settle();
    QCOMPARE(scene.operation().isRunning(), !may);
    QCOMPARE(view->forgottenWords(), may ? QString() : asked);
    if (!may)
        return;
    // What was measured stays, and is marked until somebody says how long it really was.
    QCOMPARE(at(*view->segments(), 0, "minutes").toInt(), 121);
    QVERIFY(at(*view->segments(), 0, "overlong").toBool());
    view->correctMinutes(at(*view->segments(), 0, "segmentId").toInt(), 25,
                         QStringLiteral("forgot to stop"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QVERIFY(!at(*view->segments(), 0, "overlong").toBool());
    QCOMPARE(scene.operation().minutes(), 25);
}

void TestForgottenTimer::bays_ask_andLeadToTheWork()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    bench.clock.pass(10 * 60); // the next morning
    const CarId car = bench.appraised();
    bench.must(bench.manager, car, car::MoveCar{bench.lift, {}});
    const OperationId work = bench.open(car, "inspection"); // usually 20 min
    bench.start(car, work, bench.mechanic);
    const QString began = TimeWords(zoneOf(HouseRules{})).clock(bench.clock.now());
    const BoardList& board = *kiosk.shell.board()->bays();
    const BaysModel& strip = *kiosk.shell.bays();
    bench.clock.pass(120);
    kiosk.settle();
    kiosk.shell.ticker().pulse();
    QTRY_COMPARE(at(board, 0, "elapsedWords").toString(), QStringLiteral("2 h of 20 min"));
    QVERIFY(at(board, 0, "over").toBool());
    QCOMPARE(at(board, 0, "forgottenWords").toString(), QString());
    QCOMPARE(at(board, 0, "forgottenWork").toInt(), 0);
    QVERIFY(!at(strip, 0, "forgotten").toBool());
    QCOMPARE(at(strip, 0, "stateWords").toString(), QStringLiteral("2 h"));
    bench.clock.pass(1);
    kiosk.shell.ticker().pulse();
    QCOMPARE(at(board, 0, "forgottenWords").toString(),
             QStringLiteral("runs since %1: still working?").arg(began));
    QCOMPARE(at(board, 0, "forgottenWork").toInt(), work.value);
    QCOMPARE(at(board, 0, "who").toString(), QStringLiteral("Bram"));
    QVERIFY(at(strip, 0, "forgotten").toBool());
    QCOMPARE(at(strip, 0, "stateWords").toString(), QStringLiteral("since %1?").arg(began));

    // Once it is paused nobody is asked any more.
    bench.must(bench.mechanic, car, car::PauseWork{work, {}, StopKind::Paused});
    kiosk.settle();
    QTRY_COMPARE(at(board, 0, "forgottenWords").toString(), QString());
    QCOMPARE(at(board, 0, "forgottenWork").toInt(), 0);
    QVERIFY(!at(strip, 0, "forgotten").toBool());
}

void TestForgottenTimer::peopleOutsideTheBays_areAskedAbout()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    bench.clock.pass(10 * 60);
    const CarId car = bench.appraised();
    bench.start(car, bench.open(car, "valet"), bench.painter);
    const QString began = TimeWords(zoneOf(HouseRules{})).clock(bench.clock.now());
    bench.clock.pass(121);
    kiosk.settle();
    kiosk.shell.ticker().pulse();
    const BoardList& outside = *kiosk.shell.board()->outside();
    // Whoever is on a car comes first.
    QTRY_COMPARE(at(outside, 0, "name").toString(), QStringLiteral("Noor"));
    QVERIFY(at(outside, 0, "forgotten").toBool());
    QCOMPARE(at(outside, 0, "words").toString(),
             QStringLiteral("runs since %1: still working?").arg(began));
    QCOMPARE(at(outside, 0, "stockNumber").toString(), bench.car(car).identity.stockNumber);
    for (int row = 1; row < outside.rowCount(); ++row)
        QVERIFY(!at(outside, row, "forgotten").toBool());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestForgottenTimer)
#include "tst_forgottentimer.moc"
