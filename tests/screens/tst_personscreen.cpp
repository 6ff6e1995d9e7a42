// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QQuickWindow>
#include <QSignalSpy>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// Who are you? By touch, by badge, and with the wrong PIN.
class tst_PersonScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void nameAndPin_signIn_andChipSignsOut_data();
    void nameAndPin_signIn_andChipSignsOut();
    void wrongPin_isSaid_andTheRightOneStillWorks();
    void fifthWrongPin_makesThePadWait();
    void back_leavesNobodySignedIn();
    void badge_asksForThePinOfItsOwner();
    void keyboardPin_signsIn();
};

void tst_PersonScreen::nameAndPin_signIn_andChipSignsOut_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_PersonScreen::nameAndPin_signIn_andChipSignsOut()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.untilSays(QStringLiteral("Bram Holloway")));
    bench.shoot(QStringLiteral("signin-names"));
    QVERIFY(bench.tap(QStringLiteral("Bram Holloway")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); }, QStringLiteral("pad")));
    QVERIFY(bench.type(QStringLiteral("27")));
    bench.shoot(QStringLiteral("signin-pin"));
    QVERIFY(bench.type(QStringLiteral("1828")));
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
    QCOMPARE(bench.shell().session()->name(), QStringLiteral("Bram Holloway"));
    QVERIFY(bench.until([&] { return bench.ofType("PersonScreen").empty(); },
                        QStringLiteral("the wall")));
    // The same button as "Who are you?": a second tap within 300 ms does not count.
    QVERIFY(bench.until(
        [&] {
            QQuickItem* chip = bench.find(QStringLiteral("Bram Holloway"));
            if (chip != nullptr && bench.shell().session()->signedIn())
                bench.tapAt(chip->mapToScene({chip->width() / 2, chip->height() / 2}));
            return !bench.shell().session()->signedIn();
        },
        QStringLiteral("out")));
}

void tst_PersonScreen::wrongPin_isSaid_andTheRightOneStillWorks()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.enterPin(QStringLiteral("161803")));
    QVERIFY(bench.until([&] { return !bench.shell().session()->words().isEmpty(); },
                        QStringLiteral("words")));
    QVERIFY(bench.says(bench.shell().session()->words()));
    QVERIFY(!bench.shell().session()->signedIn());
    bench.shoot(QStringLiteral("signin-wrong"));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
}

void tst_PersonScreen::fifthWrongPin_makesThePadWait()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    for (int i = 0; i < 8 && bench.shell().session()->waitSeconds() == 0; ++i) {
        QSignalSpy answered(bench.shell().session(), &Session::answerChanged);
        QVERIFY(bench.enterPin(QStringLiteral("161803")));
        QVERIFY(bench.until([&] { return !bench.shell().session()->busy() && !answered.empty(); },
                            QStringLiteral("an answer")));
    }
    QVERIFY(bench.shell().session()->waitSeconds() > 0);
    bench.shoot(QStringLiteral("signin-wait"));
    // The pad takes nothing now.
    QVERIFY(bench.enterPin());
    QVERIFY(!bench.shell().session()->busy());
    QVERIFY(!bench.shell().session()->signedIn());
}

void tst_PersonScreen::back_leavesNobodySignedIn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return bench.shell().session()->stage() != Session::Pin; },
                        QStringLiteral("back")));
    QVERIFY(!bench.shell().session()->signedIn());
}

void tst_PersonScreen::badge_asksForThePinOfItsOwner()
{
    KioskBench bench(BenchHouse::Start::House);
    const PersonId dilys = bench.house().person(QStringLiteral("Dilys"));
    auto set = bench.house().desk().setBadge(dilys, QStringLiteral("4711"));
    set.waitForFinished();
    QVERIFY(set.result().has_value());
    bench.show();
    bench.shell().session()->badge(QStringLiteral("4711"));
    QVERIFY(bench.untilSays(QStringLiteral("Dilys Marne")));
    QVERIFY(bench.until([&] { return bench.shell().session()->askedId() == dilys.value; },
                        QStringLiteral("the pad")));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
    QCOMPARE(bench.shell().session()->personId(), dilys.value);
}

void tst_PersonScreen::keyboardPin_signsIn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); }, QStringLiteral("pad")));
    for (const QChar digit : BenchHouse::pin())
        QTest::keyClick(static_cast<QWindow*>(bench.window()), digit.toLatin1());
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_PersonScreen)
#include "tst_personscreen.moc"
