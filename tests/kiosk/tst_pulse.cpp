// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/pulse.h"
#include "support/testmain.h"

#include <QPromise>
#include <QTest>

#include <deque>

using namespace ramplight;

// The kiosk's sign of life: none without an answer of the store.
class TestPulse : public QObject
{
    Q_OBJECT

private slots:
    void alive_isSaidOncePerAnswer()
    {
        std::deque<QPromise<void>> asked;
        int alive = 0;
        Pulse pulse(
            [&] {
                asked.emplace_back();
                asked.back().start();
                return asked.back().future();
            },
            [] { return quint64{7}; }, [&] { ++alive; }, std::chrono::milliseconds(5));
        pulse.start();
        QCOMPARE(asked.size(), 1U);
        // As long as there is no answer nothing is said, and nothing more is asked.
        QTest::qWait(60);
        QCOMPARE(asked.size(), 1U);
        QCOMPARE(alive, 0);
        asked.back().finish();
        QVERIFY(QTest::qWaitFor([&] { return alive == 1; }));
        QVERIFY(QTest::qWaitFor([&] { return asked.size() == 2U; }));
        // A question that was dropped, because the store could not be opened, is an answer, too.
        asked.back().future().cancel();
        asked.back().finish();
        QVERIFY(QTest::qWaitFor([&] { return alive == 2; }));
    }

    // The question waits behind a long piece of work, which gets on.
    void longWork_isAliveAsLongAsItGetsOn()
    {
        QPromise<void> asked;
        asked.start();
        quint64 statements = 0;
        int alive = 0;
        Pulse pulse([&] { return asked.future(); }, [&] { return statements; }, [&] { ++alive; },
                    std::chrono::milliseconds(5));
        pulse.start();
        QTest::qWait(60);
        QCOMPARE(alive, 0);
        statements = 100;
        QVERIFY(QTest::qWaitFor([&] { return alive == 1; }));
        QTest::qWait(60);
        QCOMPARE(alive, 1);
        statements = 101;
        QVERIFY(QTest::qWaitFor([&] { return alive == 2; }));
        asked.finish();
        QVERIFY(QTest::qWaitFor([&] { return alive == 3; }));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPulse)
#include "tst_pulse.moc"
