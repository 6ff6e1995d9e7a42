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

/// Somebody plugs a keyboard into the kiosk: no key leaves the program, opens what is not opened by
/// touch, or gets round the PIN and its delays.
class tst_KeyboardAttached : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }

    void keysOfADesktop_doNothing_data();
    void keysOfADesktop_doNothing();
    void typedPins_areDelayedAsTouchedOnes();
};

namespace {

/// What the keys could reach, in words that are compared.
QString stateOf(KioskBench& bench)
{
    const QQuickWindow& window = *bench.window();
    return QStringLiteral("%1, visibility %2, person %3, stage %4, note \"%5\"")
        .arg(window.isVisible() ? QStringLiteral("shown") : QStringLiteral("hidden"))
        .arg(static_cast<int>(window.visibility()))
        .arg(bench.shell().session()->personId())
        .arg(static_cast<int>(bench.shell().session()->stage()))
        .arg(bench.shell().note());
}

void typeKeys(KioskBench& bench, const QString& keys)
{
    for (const QChar c : keys) {
        QTest::keyClick(bench.window(), c.toLatin1());
        QTest::qWait(120); // slower than a reader
    }
}

} // namespace

void tst_KeyboardAttached::keysOfADesktop_doNothing_data()
{
    QTest::addColumn<int>("key");
    QTest::addColumn<int>("modifiers");
    const auto row = [](const char* name, Qt::Key key, Qt::KeyboardModifiers modifiers = {}) {
        QTest::newRow(name) << static_cast<int>(key) << static_cast<int>(modifiers);
    };
    row("quit", Qt::Key_Q, Qt::ControlModifier);
    row("close", Qt::Key_W, Qt::ControlModifier);
    row("close the window", Qt::Key_F4, Qt::AltModifier);
    row("break", Qt::Key_C, Qt::ControlModifier);
    row("suspend", Qt::Key_Z, Qt::ControlModifier);
    row("open", Qt::Key_O, Qt::ControlModifier);
    row("print", Qt::Key_P, Qt::ControlModifier);
    row("out of full screen", Qt::Key_F11);
    row("help", Qt::Key_F1);
    row("read again", Qt::Key_F5);
    row("tools", Qt::Key_F12);
    row("terminal", Qt::Key_T, Qt::ControlModifier | Qt::AltModifier);
    row("menu", Qt::Key_Menu);
    row("context menu", Qt::Key_F10, Qt::ShiftModifier);
    row("next window", Qt::Key_Tab, Qt::AltModifier);
    row("escape", Qt::Key_Escape);
    row("magic", Qt::Key_SysReq, Qt::AltModifier);
}

void tst_KeyboardAttached::keysOfADesktop_doNothing()
{
    QFETCH(const int, key);
    QFETCH(const int, modifiers);
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    const QSignalSpy closing(bench.window(), SIGNAL(closing(QQuickCloseEvent*)));
    const QSignalSpy quitting(qApp, &QCoreApplication::aboutToQuit);
    const QString before = stateOf(bench);
    QTest::keyClick(bench.window(), static_cast<Qt::Key>(key), Qt::KeyboardModifiers(modifiers));
    QTest::qWait(300); // a single key is held until it is no scan
    QCOMPARE(stateOf(bench), before);
    QCOMPARE(closing.count(), 0);
    QCOMPARE(quitting.count(), 0);
    QVERIFY(bench.says(QStringLiteral("Who are you?")));
}

void tst_KeyboardAttached::typedPins_areDelayedAsTouchedOnes()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Runa Talbeck")));
    const Session& session = *bench.shell().session();
    QVERIFY(
        bench.until([&] { return session.stage() == Session::Pin; }, QStringLiteral("the PIN")));
    for (int guess = 0; guess < 12 && session.waitSeconds() == 0 && !session.isLocked(); ++guess) {
        typeKeys(bench, QStringLiteral("000000"));
        QTest::keyClick(bench.window(), Qt::Key_Return);
        QVERIFY(bench.until([&] { return !session.busy() && !session.words().isEmpty(); },
                            QStringLiteral("an answer")));
    }
    QVERIFY(session.waitSeconds() > 0 || session.isLocked());
    // Nor does the right one get through meanwhile.
    typeKeys(bench, BenchHouse::pin());
    QTest::keyClick(bench.window(), Qt::Key_Return);
    QTest::qWait(300);
    QVERIFY(!session.signedIn());
}

RAMPLIGHT_TEST(QGuiApplication, tst_KeyboardAttached)
#include "tst_keyboardattached.moc"
