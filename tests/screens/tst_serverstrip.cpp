// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "sharedhouse.h"
#include "support/testmain.h"
#include "walkhands.h"

#include <QDir>
#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// The server is away, and comes back: what every screen says of it.
class tst_ServerStrip : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }
    void init() { failOnQmlWarnings(); }

    void serverAway_isSaid_andWorkIsKept_data() { sizes(); }

    void serverAway_isSaid_andWorkIsKept()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(
            goTo(bench, QStringLiteral("Bram Holloway"), shared.wheel->car, shared.wheel->work));
        const int before = shared.entries("work-started");
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
        QVERIFY(bench.until([&] { return shared.now().isRunning(); }, QStringLiteral("timer")));
        QVERIFY(bench.untilSays(keptWords));
        bench.house().clock.goOn(25);
        bench.shoot(QStringLiteral("server-operation"));
        QVERIFY(bench.tap(QStringLiteral("Back")));
        bench.shoot(QStringLiteral("server-car"));
        QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
        QVERIFY(bench.untilSays(keptWords));
        bench.shoot(QStringLiteral("server-wall"));
        QVERIFY(bench.tap(QStringLiteral("What is kept here")));
        QVERIFY(bench.untilSays(QStringLiteral("Kept here, not yet on the wall")));
        bench.shoot(QStringLiteral("server-kept"));
        QVERIFY(bench.tap(QStringLiteral("Close")));
        QCOMPARE(shared.entries("work-started"), before);

        shared.wire.heal();
        QVERIFY(bench.untilGone(awayWords));
        QVERIFY(bench.untilGone(keptWords));
        QCOMPARE(shared.entries("work-started"), before + 1);
        QVERIFY(shared.now().isRunning());
        QVERIFY(bench.ofType("ServerStrip").empty());
    }

    void serverAway_whatIsFoundDuringWork_isKept_data() { sizes(); }

    void serverAway_whatIsFoundDuringWork_isKept()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        const CarId car = shared.wheel->car;
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), car, shared.wheel->work));
        const int before = shared.entries("finding-recorded");
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        QVERIFY(bench.tap(QStringLiteral("Found something else")));
        WalkHands hands(bench);
        QVERIFY(hands.ready());
        const std::size_t open = bench.house().car(car).openOperations().size();
        QVERIFY(hands.view("glass"));
        QVERIFY(hands.finding("windscreen", Condition::Crack, Severity::Heavy));
        QCOMPARE(bench.house().car(car).findings.size(), std::size_t{2});
        QVERIFY(bench.house().car(car).openOperations().size() > open);
        bench.shoot(QStringLiteral("server-found"));
        QVERIFY(bench.tap(QStringLiteral("Back")));
        QVERIFY(bench.untilSays(keptWords));
        QVERIFY(bench.tap(QStringLiteral("Back")));
        QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
        QVERIFY(bench.untilSays(keptWords));
        QVERIFY(bench.tap(QStringLiteral("What is kept here")));
        QVERIFY(bench.untilSays(QStringLiteral("K-7 · Windscreen: crack, heavy")));
        bench.shoot(QStringLiteral("server-found-kept"));
        QVERIFY(bench.tap(QStringLiteral("Close")));
        QCOMPARE(shared.entries("finding-recorded"), before);

        shared.wire.heal();
        QVERIFY(bench.untilGone(awayWords));
        QVERIFY(bench.untilGone(keptWords));
        QCOMPARE(shared.entries("finding-recorded"), before + 1);
        const CarState now = bench.house().car(car);
        QCOMPARE(now.findings.size(), std::size_t{2});
        QCOMPARE(now.findings.rbegin()->second.data().place, PlaceId{"windscreen"});
        QCOMPARE(now.findings.rbegin()->second.during, std::optional(shared.wheel->work));
        QVERIFY(now.openOperations().size() > open);
    }

    void serverAway_nobodyReleasesACar_andTheGateSaysSo_data() { sizes(); }

    void serverAway_nobodyReleasesACar_andTheGateSaysSo()
    {
        QFETCH(const QSize, size);
        const QString sign = QStringLiteral("Sign and release to sale");
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        const CarId car = bench.house().bringIn(QStringLiteral("K-70"));
        BenchCrew(bench.house()).finishAll(car);
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
        QVERIFY(bench.openCar(QStringLiteral("K-70")));
        QVERIFY(bench.tap(QStringLiteral("Release")));
        QVERIFY(bench.untilSays(QStringLiteral("Nothing holds this car")));
        shared.wire.cut();
        QVERIFY(bench.until([&] { return bench.shell().server()->away(); },
                            QStringLiteral("the server's absence")));
        // Another kiosk may have found something since.
        QVERIFY(bench.untilGone(QStringLiteral("Nothing holds this car")));
        QVERIFY(bench.says(QStringLiteral("Nobody can release a car until the server is back")));
        bench.shoot(QStringLiteral("server-gate"));
        QVERIFY(bench.tap(sign));
        QCOMPARE(bench.shell().session()->stage(), Session::Nobody); // no PIN is asked for
        shared.wire.heal();
        QVERIFY(bench.untilSays(QStringLiteral("Nothing holds this car")));
        QVERIFY(bench.tap(sign));
        QVERIFY(bench.until([&] { return bench.shell().session()->stage() != Session::Nobody; },
                            QStringLiteral("the PIN")));
    }

    void damagedFile_isToldOnEveryScreen_untilSomebodyWhoMayManageReadIt_data() { sizes(); }

    void damagedFile_isToldOnEveryScreen_untilSomebodyWhoMayManageReadIt()
    {
        QFETCH(const QSize, size);
        const QString words = QStringLiteral("The file of what is kept here was damaged");
        SharedHouse shared(QByteArray(20'000, '\x5a'));
        KioskBench& bench = shared.bench;
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(bench.untilSays(words));
        bench.shoot(QStringLiteral("server-damaged-wall"));
        QVERIFY(bench.openCar(bench.house().car(shared.wheel->car).identity.stockNumber));
        QVERIFY(bench.says(words));
        QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
        QVERIFY(bench.tap(QStringLiteral("What is kept here")));
        QVERIFY(bench.untilSays(QStringLiteral("To be read")));
        QVERIFY(bench.untilSays(QStringLiteral("What to do")));
        bench.shoot(QStringLiteral("server-damaged"));
        QVERIFY(bench.tap(QStringLiteral("I have read this")));
        QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.untilGone(words));
        QVERIFY(bench.house().desk().standing().kept.empty());
        // The file itself is kept.
        const QDir standby(bench.house().folder(QStringLiteral("standby")));
        QCOMPARE(standby.entryList({QStringLiteral("outbox.damaged-*.sqlite")}).size(), 1);
    }

    void whatIsNoWork_waits_andSignInSaysHowOldTheStaffAre_data() { sizes(); }
    void whatIsNoWork_waits_andSignInSaysHowOldTheStaffAre()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        bench.show(size);
        QVERIFY(shared.isKnown());
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.untilSays(
            QStringLiteral("The server is away: names, PINs and rights are those of 14:00.")));
        bench.shoot(QStringLiteral("server-person"));
        QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
        QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); },
                            QStringLiteral("sign-in")));
        // What is no work on the car is refused at the same door, in words.
        const auto asked = bench.house().desk().run(
            CarRequest{CommandId{QStringLiteral("promise")},
                       bench.house().person(QStringLiteral("Runa")),
                       shared.wheel->car,
                       {car::ChangePromise{QDate(2031, 7, 1), QStringLiteral("the buyer asked")}},
                       true});
        QVERIFY(bench.until([&] { return asked.isFinished(); }, QStringLiteral("an answer")));
        QVERIFY(!asked.result());
        QCOMPARE(words(asked.result().error()), notKeptWords());
    }

    void refusedAtSending_isShownWithBothStories_data() { sizes(); }

    void refusedAtSending_isShownWithBothStories()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        BenchHouse& house = bench.house();
        bench.show(size);
        QVERIFY(shared.isKnown());
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        house.must(house.person(QStringLiteral("Bram")), shared.wheel->car,
                   {car::ReadCautions{shared.wheel->work}, car::StartWork{shared.wheel->work}});
        house.clock.goOn(10);
        // Meanwhile, at another kiosk, the manager takes this work off the car.
        QCOMPARE(shared.elsewhere(
                     house.person(QStringLiteral("Runa")), shared.wheel->car,
                     {car::LeaveAsIs{shared.wheel->work, QStringLiteral("light kerbing, told")}}),
                 QString());
        shared.wire.heal();
        QVERIFY(bench.untilSays(
            QStringLiteral("1 thing that was done here was refused when it was sent")));
        QVERIFY(bench.tap(QStringLiteral("What is kept here")));
        QVERIFY(bench.untilSays(QStringLiteral("The workshop's ledger says no")));
        QVERIFY(bench.until(
            [&] {
                const auto lines = bench.ofType("KeptLine");
                return !lines.empty() && !lines.front()->property("there").toStringList().isEmpty();
            },
            QStringLiteral("the ledger's story")));
        bench.shoot(QStringLiteral("server-refused"));
        QVERIFY(bench.tap(QStringLiteral("I have read both")));
        QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.untilGone(
            QStringLiteral("1 thing that was done here was refused when it was sent")));
        QVERIFY(house.desk().standing().kept.empty());
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_ServerStrip)
#include "tst_serverstrip.moc"
