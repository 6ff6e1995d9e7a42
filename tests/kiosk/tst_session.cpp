// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

class TestSession : public QObject
{
    Q_OBJECT

private slots:
    void fullPad_signsIn();
    void wrongPin_saysSoAndSignsNobodyIn();
    void wait_closesThePadUntilItIsOver();
    void lock_needsAManager();
    void standing_isToldBeforeAPinIsTyped();
    void noTouch_signsOutAfterTheHousesTime();
    void noTouch_onThePad_goesBackToTheWall();
    void noTouch_withNobodySignedIn_isTold_onceAfterEachTouch();
    void waitingAction_goesOnAfterSignIn();
    void waitingAction_isDroppedByCancel();
    void pinAgain_isAskedOfWhoIsSignedIn();
    void pinAgain_wrong_doesNotGoOn();
    void badge_namesThePersonAndAsksForThePin();
    void badge_ofNobody_isANote();
    void badge_ofSomebodyElse_takesOver();
    void answerThatCameTooLate_isDropped();
    void deactivated_isSignedOut();
    void storeAway_isSaid();
};

void TestSession::fullPad_signsIn()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    session->ask();
    QCOMPARE(session->stage(), Session::Person);
    session->choose(kiosk.bench.wheels.value);
    QCOMPARE(session->stage(), Session::Pin);
    QCOMPARE(session->askedName(), QStringLiteral("Caspar"));
    kiosk.typePin(kiosk.bench.wheels);
    QTRY_VERIFY(session->signedIn());
    QCOMPARE(session->stage(), Session::Nobody);
    QCOMPARE(session->name(), QStringLiteral("Caspar"));
    QCOMPARE(session->skills(), QStringList{QStringLiteral("wheels")});
    QVERIFY(session->mayWork());
    QVERIFY(!session->mayCheck() && !session->mayManage() && !session->mayRelease());
    QCOMPARE(session->pad()->length(), 0);
}

void TestSession::wrongPin_saysSoAndSignsNobodyIn()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    session->choose(kiosk.bench.wheels.value);
    kiosk.typePin(kiosk.bench.painter);
    QTRY_VERIFY(!session->words().isEmpty());
    QVERIFY(!session->signedIn());
    QCOMPARE(session->stage(), Session::Pin);
    QCOMPARE(session->pad()->length(), 0);
    kiosk.typePin(kiosk.bench.wheels);
    QTRY_VERIFY(session->signedIn());
    QVERIFY(session->words().isEmpty());
}

void TestSession::wait_closesThePadUntilItIsOver()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.desk.wrongPin = {SignInAnswer::Outcome::Waiting, std::chrono::seconds(30), 6};
    session->choose(kiosk.bench.wheels.value);
    kiosk.typePin(kiosk.bench.painter);
    QTRY_COMPARE(session->waitSeconds(), 30);
    kiosk.typePin(kiosk.bench.wheels);
    QVERIFY(!session->busy());
    kiosk.steadyMs += 12'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(session->waitSeconds(), 18);
    kiosk.steadyMs += 18'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(session->waitSeconds(), 0);
    session->pad()->clear();
    kiosk.typePin(kiosk.bench.wheels);
    QTRY_VERIFY(session->signedIn());
}

void TestSession::lock_needsAManager()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.desk.wrongPin = {SignInAnswer::Outcome::Locked, {}, 100};
    session->choose(kiosk.bench.wheels.value);
    kiosk.typePin(kiosk.bench.painter);
    QTRY_VERIFY(session->isLocked());
    kiosk.typePin(kiosk.bench.wheels);
    QVERIFY(!session->busy());
    QVERIFY(!session->signedIn());
}

void TestSession::standing_isToldBeforeAPinIsTyped()
{
    ViewBench kiosk;
    kiosk.desk.standing = SignInAnswer{SignInAnswer::Outcome::Waiting, std::chrono::minutes(2), 8};
    kiosk.shell.session()->choose(kiosk.bench.wheels.value);
    QTRY_COMPARE(kiosk.shell.session()->waitSeconds(), 120);
    QVERIFY(!kiosk.shell.session()->words().isEmpty());
}

void TestSession::noTouch_signsOutAfterTheHousesTime()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.signIn(kiosk.bench.wheels);
    const CarId car = kiosk.bench.appraised();
    kiosk.bench.start(car, kiosk.bench.open(car, "tyre-survey"), kiosk.bench.wheels);
    const QSignalSpy timedOut(session, &Session::timedOut);
    kiosk.steadyMs += 100'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(session->secondsLeft(), 20);
    session->touch();
    QCOMPARE(session->secondsLeft(), 120);
    kiosk.steadyMs += 119'999;
    kiosk.shell.ticker().pulse();
    QVERIFY(session->signedIn());
    kiosk.steadyMs += 1;
    kiosk.shell.ticker().pulse();
    QVERIFY(!session->signedIn());
    QCOMPARE(timedOut.count(), 1);
    // The timer of the work runs on.
    QCOMPARE(kiosk.bench.ledger.allRunningWork()->size(), std::size_t{1});
}

void TestSession::noTouch_onThePad_goesBackToTheWall()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    session->choose(kiosk.bench.wheels.value);
    session->pad()->press(1);
    const QSignalSpy timedOut(session, &Session::timedOut);
    kiosk.steadyMs += 120'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(timedOut.count(), 1);
    QCOMPARE(session->stage(), Session::Nobody);
    QCOMPARE(session->pad()->length(), 0);
}

void TestSession::noTouch_withNobodySignedIn_isTold_onceAfterEachTouch()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    const QSignalSpy timedOut(session, &Session::timedOut);
    const auto pass = [&kiosk](qint64 ms) {
        kiosk.steadyMs += ms;
        kiosk.shell.ticker().pulse();
    };
    // A kiosk that nobody has touched yet may show where somebody was when it froze.
    pass(119'999);
    QCOMPARE(timedOut.count(), 0);
    pass(1);
    QCOMPARE(timedOut.count(), 1);
    // It is at the wall now, and stays there.
    pass(120'000);
    pass(120'000);
    QCOMPARE(timedOut.count(), 1);
    session->touch();
    pass(119'999);
    QCOMPARE(timedOut.count(), 1);
    pass(1);
    QCOMPARE(timedOut.count(), 2);
    QCOMPARE(session->stage(), Session::Nobody);
}

void TestSession::waitingAction_goesOnAfterSignIn()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    QList<int> went;
    session->whenSignedIn(QStringLiteral("to do it"),
                          [&](PersonId person) { went.append(person.value); });
    QCOMPARE(session->stage(), Session::Person);
    QCOMPARE(session->waitingFor(), QStringLiteral("to do it"));
    QVERIFY(went.isEmpty());
    kiosk.signIn(kiosk.bench.painter);
    QCOMPARE(went, QList<int>{kiosk.bench.painter.value});
    QVERIFY(session->waitingFor().isEmpty());
    // Whoever is signed in goes on at once.
    session->whenSignedIn(QStringLiteral("again"),
                          [&](PersonId person) { went.append(person.value); });
    QCOMPARE(went.size(), 2);
    QCOMPARE(session->stage(), Session::Nobody);
}

void TestSession::waitingAction_isDroppedByCancel()
{
    ViewBench kiosk;
    bool went = false;
    kiosk.shell.session()->whenSignedIn({}, [&](PersonId) { went = true; });
    kiosk.shell.session()->cancel();
    kiosk.signIn(kiosk.bench.painter);
    QVERIFY(!went);
}

void TestSession::pinAgain_isAskedOfWhoIsSignedIn()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.signIn(kiosk.bench.seller);
    int went = 0;
    session->whenPinAgain(QStringLiteral("to release K1"), [&](PersonId) { ++went; });
    QCOMPARE(went, 0);
    QCOMPARE(session->stage(), Session::Pin);
    QVERIFY(session->again());
    QCOMPARE(session->askedId(), kiosk.bench.seller.value);
    QCOMPARE(session->waitingFor(), QStringLiteral("to release K1"));
    const QSignalSpy changed(session, &Session::personChanged);
    kiosk.typePin(kiosk.bench.seller);
    QTRY_COMPARE(went, 1);
    QCOMPARE(changed.count(), 0);
}

void TestSession::pinAgain_wrong_doesNotGoOn()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.signIn(kiosk.bench.seller);
    int went = 0;
    session->whenPinAgain({}, [&](PersonId) { ++went; });
    kiosk.typePin(kiosk.bench.wheels);
    QTRY_VERIFY(!session->words().isEmpty());
    QCOMPARE(went, 0);
    session->cancel();
    QCOMPARE(session->personId(), kiosk.bench.seller.value);
}

void TestSession::badge_namesThePersonAndAsksForThePin()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.desk.badges[QStringLiteral("77")] = kiosk.bench.wheels;
    session->badge(QStringLiteral("77"));
    QTRY_COMPARE(session->stage(), Session::Pin);
    QCOMPARE(session->askedId(), kiosk.bench.wheels.value);
    QVERIFY(!session->signedIn());
}

void TestSession::badge_ofNobody_isANote()
{
    ViewBench kiosk;
    kiosk.shell.session()->badge(QStringLiteral("13"));
    QTRY_VERIFY(!kiosk.shell.note().isEmpty());
    QCOMPARE(kiosk.shell.session()->stage(), Session::Nobody);
    kiosk.shell.dismissNote();
    QVERIFY(kiosk.shell.note().isEmpty());
}

void TestSession::badge_ofSomebodyElse_takesOver()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    kiosk.desk.badges[QStringLiteral("77")] = kiosk.bench.wheels;
    kiosk.signIn(kiosk.bench.painter);
    session->badge(QStringLiteral("77"));
    QTRY_COMPARE(session->askedId(), kiosk.bench.wheels.value);
    QVERIFY(!session->signedIn());
}

void TestSession::answerThatCameTooLate_isDropped()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    session->choose(kiosk.bench.wheels.value);
    kiosk.typePin(kiosk.bench.wheels);
    QVERIFY(session->busy());
    session->choose(kiosk.bench.painter.value);
    kiosk.typePin(kiosk.bench.painter);
    QTRY_VERIFY(session->signedIn());
    QCOMPARE(session->personId(), kiosk.bench.painter.value);
}

void TestSession::deactivated_isSignedOut()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.painter);
    QCOMPARE(kiosk.bench.ask(kiosk.bench.manager,
                             site::ChangePerson{
                                 kiosk.bench.painter, {Skill::SmartRepair}, {Right::Work}, false},
                             QStringLiteral("Noor")),
             done);
    emit kiosk.desk.siteChanged();
    QTRY_VERIFY(!kiosk.shell.session()->signedIn());
}

void TestSession::storeAway_isSaid()
{
    ViewBench kiosk;
    Session* session = kiosk.shell.session();
    session->choose(kiosk.bench.wheels.value);
    kiosk.desk.accessFault = AccessError::StoreAway;
    kiosk.typePin(kiosk.bench.wheels);
    QTRY_COMPARE(session->words(), words(AccessError::StoreAway));
    QVERIFY(!session->signedIn());
    QVERIFY(!session->busy());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestSession)
#include "tst_session.moc"
