// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// The first start: a workshop by touch, or the demo workshop.
class tst_SetupScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void newWorkshop_byTouch_data();
    void newWorkshop_byTouch();
    void differentSecondPin_isAskedAgain();
    void failedWrite_leavesNoWorkshopWithoutASignIn_data();
    void failedWrite_leavesNoWorkshopWithoutASignIn();
    void demoWorkshop_inOneTouch();
};

void tst_SetupScreen::newWorkshop_byTouch_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_SetupScreen::newWorkshop_byTouch()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Empty);
    bench.show(size);
    QVERIFY(bench.untilSays(QStringLiteral("Set up this workshop")));
    bench.shoot(QStringLiteral("setup-choose"));
    QVERIFY(bench.tap(QStringLiteral("Set up this workshop")));
    QVERIFY(bench.tap(bench.ofType("Field").front()));
    QVERIFY(bench.type(QStringLiteral("Quay")));
    bench.shoot(QStringLiteral("setup-house"));
    QVERIFY(bench.tap(QStringLiteral("enter"))); // puts the keyboard away
    QVERIFY(bench.tap(QStringLiteral("Next")));
    QVERIFY(bench.tap(bench.ofType("Field").front()));
    QVERIFY(bench.type(QStringLiteral("Runa")));
    QVERIFY(bench.tap(QStringLiteral("enter"))); // puts the keyboard away
    QVERIFY(bench.tap(QStringLiteral("Mechanical")));
    // What nobody could finish with her alone is said before the workshop is there.
    const QStringList alone = bench.shell().setup()->warnings();
    QVERIFY(alone.size() > 2);
    QVERIFY2(alone.front().startsWith(QStringLiteral("Nobody but Runa may do: ")),
             qPrintable(alone.front()));
    QVERIFY(bench.untilSays(alone.front()));
    QVERIFY(bench.untilSays(QStringLiteral("and %1 more").arg(alone.size() - 2)));
    bench.shoot(QStringLiteral("setup-you"));
    QVERIFY(bench.tap(QStringLiteral("Next")));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().setup()->newPin()->again(); },
                        QStringLiteral("the second time")));
    bench.shoot(QStringLiteral("setup-pin"));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.tap(QStringLiteral("Open the workshop")));
    QVERIFY(bench.untilSays(QStringLiteral("No car in prep")));
    QVERIFY(bench.untilSays(QStringLiteral("%1 kinds of work cannot be finished with the people "
                                           "here: see Staff and bays")
                                .arg(alone.size())));
    const SiteState site = bench.house().site();
    QCOMPARE(site.name, QStringLiteral("Quay"));
    QVERIFY(!site.demo);
    QCOMPARE(site.people.size(), std::size_t{1});
    QCOMPARE(site.people.begin()->second.name, QStringLiteral("Runa"));
    // The PIN is the one that was typed.
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa")));
}

void tst_SetupScreen::differentSecondPin_isAskedAgain()
{
    KioskBench bench(BenchHouse::Start::Empty);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Set up this workshop")));
    bench.shell().setup()->setSiteName(QStringLiteral("Quay"));
    QVERIFY(bench.tap(QStringLiteral("Next")));
    bench.shell().setup()->setPersonName(QStringLiteral("Runa"));
    QVERIFY(bench.tap(QStringLiteral("Next")));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().setup()->newPin()->again(); },
                        QStringLiteral("the second time")));
    QVERIFY(bench.enterPin(QStringLiteral("161803")));
    QVERIFY(bench.until([&] { return !bench.shell().setup()->newPin()->again(); },
                        QStringLiteral("from the start")));
    QVERIFY(!bench.shell().setup()->newPin()->isReady());
    QVERIFY(bench.says(bench.shell().setup()->newPin()->words()));
}

void tst_SetupScreen::failedWrite_leavesNoWorkshopWithoutASignIn_data()
{
    QTest::addColumn<WriteFault>("fault");
    QTest::newRow("nothing written") << WriteFault::NothingWritten;
    QTest::newRow("answer lost") << WriteFault::AnswerLost;
}

void tst_SetupScreen::failedWrite_leavesNoWorkshopWithoutASignIn()
{
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::Empty);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Set up this workshop")));
    SetupView& setup = *bench.shell().setup();
    setup.setSiteName(QStringLiteral("Quay"));
    setup.setPersonName(QStringLiteral("Runa"));
    const auto choose = [&](const QString& pin) {
        for (int i = 0; i < 2; ++i)
            setup.newPin()->pad()->enter(pin);
        return setup.newPin()->isReady();
    };
    QVERIFY(choose(QStringLiteral("161803")));
    bench.house().desk().failOnce(fault);
    setup.makeWorkshop();
    QVERIFY(bench.until([&] { return setup.ask()->canRetry(); }, QStringLiteral("the fault")));
    QVERIFY(bench.house().desk().hasFailed());
    // Whoever was there meanwhile signs in with what was typed; and so does who types another one.
    const auto opens = [&](const QString& pin) {
        auto tried = bench.house().desk().tryPin(firstPerson, Secret(pin.toLatin1()), {});
        tried.waitForFinished();
        return tried.result()->outcome == SignInAnswer::Outcome::SignedIn;
    };
    QCOMPARE(opens(QStringLiteral("161803")), fault == WriteFault::AnswerLost);
    setup.newPin()->reset();
    QVERIFY(choose(BenchHouse::pin()));
    setup.makeWorkshop();
    QVERIFY(bench.until([&] { return bench.shell().siteSetUp(); }, QStringLiteral("the wall")));
    QCOMPARE(bench.house().site().people.size(), std::size_t{1});
    QVERIFY(opens(BenchHouse::pin()));
    QVERIFY(!opens(QStringLiteral("161803")));
}

void tst_SetupScreen::demoWorkshop_inOneTouch()
{
    KioskBench bench(BenchHouse::Start::Empty);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Look at the demo workshop")));
    QVERIFY(bench.until([&] { return bench.shell().setup()->progress() > 0; },
                        QStringLiteral("progress")));
    bench.shoot(QStringLiteral("setup-demo"));
    QTRY_VERIFY_WITH_TIMEOUT(bench.shell().siteSetUp() && bench.shell().wall()->count() > 10,
                             120'000);
    QVERIFY(bench.shell().demo());
    QVERIFY(bench.untilSays(QStringLiteral("Demo workshop: nothing here is real")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_SetupScreen)
#include "tst_setupscreen.moc"
