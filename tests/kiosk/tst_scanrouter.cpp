// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/scanrouter.h"
#include "support/testmain.h"

#include <QKeyEvent>
#include <QSignalSpy>
#include <QTest>
#include <QWindow>

namespace ramplight {

namespace {

/// A window that notes what keys reach it.
class Desktop : public QWindow
{
public:
    QString typed;
    int releases = 0;

protected:
    void keyPressEvent(QKeyEvent* event) override
    {
        typed += event->key() == Qt::Key_Return ? QStringLiteral("<") : event->text();
    }
    void keyReleaseEvent(QKeyEvent*) override { ++releases; }
};

struct Bench
{
    Bench() { QCoreApplication::instance()->installEventFilter(&router); }
    ~Bench() { QCoreApplication::instance()->removeEventFilter(&router); }

    void press(int key, const QString& text, bool repeat = false)
    {
        QKeyEvent down(QEvent::KeyPress, key, Qt::NoModifier, text, repeat);
        QCoreApplication::sendEvent(&window, &down);
        QKeyEvent up(QEvent::KeyRelease, key, Qt::NoModifier, text, repeat);
        QCoreApplication::sendEvent(&window, &up);
    }
    void scan(const QString& text)
    {
        for (const QChar c : text) {
            press(c.toUpper().unicode(), c);
            now += 4;
        }
        press(Qt::Key_Return, QStringLiteral("\r"));
    }

    qint64 now = 1'000;
    Desktop window;
    ScanRouter router{{}, [this] { return now; }};
};

} // namespace

class TestScanRouter : public QObject
{
    Q_OBJECT

private slots:
    void badge_neverReachesTheWindow();
    void kinds_areToldApart_data();
    void kinds_areToldApart();
    void typing_reachesTheWindowAfterAMoment();
    void typing_keepsItsOrder();
    void enter_reachesTheWindow();
    void arrowsAndRepeats_reachTheWindow();
    void keys_ofItemsInTheWindow_areLeftAlone();
    void touchAndKeys_countAsPresence();
};

void TestScanRouter::badge_neverReachesTheWindow()
{
    Bench bench;
    const QSignalSpy badge(&bench.router, &ScanRouter::badgeScanned);
    bench.scan(QStringLiteral("RLB-77"));
    QCOMPARE(badge.count(), 1);
    QCOMPARE(badge.first().first().toString(), QStringLiteral("77"));
    QCOMPARE(bench.window.typed, QString());
}

void TestScanRouter::kinds_areToldApart_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<QString>("kind");
    QTest::addColumn<QString>("payload");
    QTest::newRow("badge") << "RLB-9A"
                           << "badge"
                           << "9A";
    QTest::newRow("car label") << "RLC-R-208"
                               << "car"
                               << "R-208";
    QTest::newRow("VIN") << "WZZZZZZZZZZ000042"
                         << "vin"
                         << "WZZZZZZZZZZ000042";
    QTest::newRow("something else") << "5901234"
                                    << "unknown"
                                    << "5901234";
}

void TestScanRouter::kinds_areToldApart()
{
    QFETCH(QString, text);
    Bench bench;
    QStringList heard;
    const auto hear = [&](const char* kind) {
        return [&heard, kind](const QString& payload) {
            heard.append(QString::fromLatin1(kind));
            heard.append(payload);
        };
    };
    connect(&bench.router, &ScanRouter::badgeScanned, this, hear("badge"));
    connect(&bench.router, &ScanRouter::carScanned, this, hear("car"));
    connect(&bench.router, &ScanRouter::vinScanned, this, hear("vin"));
    connect(&bench.router, &ScanRouter::unknownScanned, this, hear("unknown"));
    bench.scan(text);
    QFETCH(QString, kind);
    QFETCH(QString, payload);
    QCOMPARE(heard, (QStringList{kind, payload}));
    QCOMPARE(bench.window.typed, QString());
}

void TestScanRouter::typing_reachesTheWindowAfterAMoment()
{
    Bench bench;
    bench.press(Qt::Key_A, QStringLiteral("a"));
    QCOMPARE(bench.window.typed, QString());
    QTRY_COMPARE(bench.window.typed, QStringLiteral("a"));
    QCOMPARE(bench.window.releases, 1);
}

void TestScanRouter::typing_keepsItsOrder()
{
    Bench bench;
    for (const QChar c : QStringLiteral("kerbed")) {
        bench.press(c.toUpper().unicode(), c);
        bench.now += 120;
    }
    QTRY_COMPARE(bench.window.typed, QStringLiteral("kerbed"));
    QCOMPARE(bench.window.releases, 6);
}

void TestScanRouter::enter_reachesTheWindow()
{
    Bench bench;
    bench.press(Qt::Key_1, QStringLiteral("1"));
    bench.now += 200;
    bench.press(Qt::Key_Return, QStringLiteral("\r"));
    QCOMPARE(bench.window.typed, QStringLiteral("1<"));
}

void TestScanRouter::arrowsAndRepeats_reachTheWindow()
{
    Bench bench;
    bench.press(Qt::Key_A, QStringLiteral("a"));
    bench.press(Qt::Key_A, QStringLiteral("a"), true);
    QCOMPARE(bench.window.typed, QStringLiteral("aa"));
    bench.now += 200;
    bench.press(Qt::Key_B, QStringLiteral("b"));
    bench.press(Qt::Key_Left, QString());
    QCOMPARE(bench.window.typed, QStringLiteral("aab"));
}

void TestScanRouter::keys_ofItemsInTheWindow_areLeftAlone()
{
    Bench bench;
    struct Item : QObject
    {
        int keys = 0;
        bool event(QEvent* event) override
        {
            keys += event->type() == QEvent::KeyPress ? 1 : 0;
            return true;
        }
    } item;
    QKeyEvent down(QEvent::KeyPress, Qt::Key_A, Qt::NoModifier, QStringLiteral("a"));
    QCoreApplication::sendEvent(&item, &down);
    QCOMPARE(item.keys, 1);
}

void TestScanRouter::touchAndKeys_countAsPresence()
{
    Bench bench;
    const QSignalSpy touched(&bench.router, &ScanRouter::touched);
    bench.press(Qt::Key_A, QStringLiteral("a"));
    QCOMPARE(touched.count(), 1);
    QMouseEvent tap(QEvent::MouseButtonPress, QPointF(1, 1), QPointF(1, 1), Qt::LeftButton,
                    Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(&bench.window, &tap);
    QCOMPARE(touched.count(), 2);
}

} // namespace ramplight

RAMPLIGHT_TEST(QGuiApplication, ramplight::TestScanRouter)
#include "tst_scanrouter.moc"
