// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/signinguard.h"

#include "pins.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;
using namespace std::chrono_literals;
using std::chrono::milliseconds;

namespace {

constexpr qint64 second = 1000;
constexpr qint64 hour = 3600 * second;
constexpr qint64 day = 24 * hour;

using Marks = std::vector<SignInMark>;
constexpr auto failure = SignInMark::Kind::WrongPin;
constexpr auto success = SignInMark::Kind::Success;
constexpr auto clockBack = SignInMark::Kind::ClockBack;
constexpr auto lock = SignInMark::Kind::Lock;
constexpr auto rowMark = SignInMark::Kind::Row;

Moment at(qint64 offsetMs)
{
    return {noon.ms + offsetMs};
}

/// count failures, the last of them at the given offset, a second apart.
Marks failures(int count, qint64 lastOffsetMs = 0)
{
    Marks marks;
    for (int i = count - 1; i >= 0; --i)
        marks.push_back({failure, at(lastOffsetMs - i * second)});
    return marks;
}

Marks operator+(Marks marks, const Marks& more)
{
    marks.insert(marks.end(), more.begin(), more.end());
    return marks;
}

} // namespace

class TestSignInGuard : public QObject
{
    Q_OBJECT

private slots:
    void delayAfter_data()
    {
        QTest::addColumn<int>("inARow");
        QTest::addColumn<int>("seconds");
        for (int n = 0; n <= 5; ++n)
            QTest::addRow("%d", n) << n << 0;
        QTest::newRow("6") << 6 << 30;
        QTest::newRow("7") << 7 << 60;
        QTest::newRow("8") << 8 << 120;
        QTest::newRow("9") << 9 << 240;
        QTest::newRow("10") << 10 << 480;
        QTest::newRow("11") << 11 << 900;
        QTest::newRow("99") << 99 << 900;
    }

    void delayAfter()
    {
        QFETCH(int, inARow);
        QFETCH(int, seconds);
        QCOMPARE(ramplight::delayAfter({}, inARow), milliseconds(std::chrono::seconds(seconds)));
    }

    void wait_data()
    {
        QTest::addColumn<Marks>("marks");
        QTest::addColumn<qint64>("now"); // offset from noon
        QTest::addColumn<qint64>("waitMs");
        const auto row = [](const char* name, const Marks& marks, qint64 now, qint64 waitMs) {
            QTest::newRow(name) << marks << now << waitMs;
        };
        row("nothing in the book", {}, 0, 0);
        row("five failures", failures(5), 0, 0);
        row("six, at once", failures(6), 0, 30 * second);
        row("six, ten seconds later", failures(6), 10 * second, 20 * second);
        row("six, one millisecond short", failures(6), 30 * second - 1, 1);
        row("six, waited", failures(6), 30 * second, 0);
        row("six and a success", failures(6) + Marks{{success, at(second)}}, 2 * second, 0);
        row("a success and six more",
            failures(9, -hour) + Marks{{success, at(-hour)}} + failures(6), 0, 30 * second);
        row("six a month ago", failures(6, -40 * day), 0, 0);
        row("seven, the first six a month ago", failures(6, -40 * day) + failures(1), 0,
            60 * second);
        // The clock was set backwards since the last failure.
        row("clock an hour back", failures(6), -hour, 30 * second);
        row("clock a millisecond back", failures(6), -1, 30 * second);
        row("clock forty days back", failures(6), -40 * day, 30 * second);
        row("clock back with five failures", failures(5), -hour, 0);
        row("noticed, then twenty seconds", failures(6) + Marks{{clockBack, at(-hour)}},
            -hour + 20 * second, 10 * second);
        row("noticed, then waited", failures(6) + Marks{{clockBack, at(-hour)}},
            -hour + 30 * second, 0);
        row("noticed, then back again", failures(6) + Marks{{clockBack, at(-hour)}}, -2 * hour,
            30 * second);
        // Back and forth again: only seconds have gone by since the failure.
        row("put right again after a second", failures(6) + Marks{{clockBack, at(-hour)}}, second,
            29 * second);
        row("failure after the clock went back",
            failures(6) + Marks{{clockBack, at(-hour)}, {failure, at(-hour + 40 * second)}},
            -hour + 50 * second, 50 * second);
    }

    void wait()
    {
        QFETCH(Marks, marks);
        QFETCH(qint64, now);
        QFETCH(qint64, waitMs);
        const GuardVerdict verdict = judgeSignIns({}, marks, at(now));
        QCOMPARE(verdict.wait.count(), waitMs);
        QVERIFY(!verdict.locked);
    }

    void clockBack_isReportedOnlyWhenItMatters()
    {
        QVERIFY(judgeSignIns({}, failures(6), at(-1)).clockWentBack);
        QVERIFY(!judgeSignIns({}, failures(6), at(0)).clockWentBack);
        QVERIFY(!judgeSignIns({}, failures(5), at(-1)).clockWentBack);
        QVERIFY(!judgeSignIns({}, failures(6) + Marks{{clockBack, at(-hour)}}, at(-hour))
                     .clockWentBack);
    }

    void backwardsClock_neverShortensADelay()
    {
        for (int count = 6; count < 20; ++count)
            for (const qint64 back : {qint64{1}, second, hour, day, 400 * day}) {
                const milliseconds before = judgeSignIns({}, failures(count), at(0)).wait;
                const milliseconds after = judgeSignIns({}, failures(count), at(-back)).wait;
                QVERIFY2(after >= before, qPrintable(QStringLiteral("%1 %2").arg(count).arg(back)));
            }
    }

    void tooMany_data()
    {
        QTest::addColumn<Marks>("marks");
        QTest::addColumn<qint64>("now");
        QTest::addColumn<bool>("locked");
        QTest::newRow("99") << failures(99) << day << false;
        QTest::newRow("100") << failures(100) << day << true;
        QTest::newRow("100 on the window's edge")
            << failures(100) << 30 * day - 99 * second << true;
        QTest::newRow("the first just outside")
            << failures(100) << 30 * day - 99 * second + 1 << false;
        QTest::newRow("successes between do not help")
            << failures(60, -day) + Marks{{success, at(-hour)}} + failures(40) << day << true;
        QTest::newRow("a lock does not grow old")
            << failures(100) + Marks{{lock, at(0)}} << 400 * day << true;
        QTest::newRow("a lock with nothing else") << Marks{{lock, at(0)}} << day << true;
        QTest::newRow("clock set back behind the failures") << failures(100) << -90 * day << true;
    }

    void tooMany()
    {
        QFETCH(Marks, marks);
        QFETCH(qint64, now);
        QFETCH(bool, locked);
        QCOMPARE(judgeSignIns({}, marks, at(now)).locked, locked);
    }

    void ownRules()
    {
        const GuardRules rules{.freeFailures = 2,
                               .firstDelay = 5s,
                               .longestDelay = 12s,
                               .hardStop = 6,
                               .window = std::chrono::hours(1)};
        QCOMPARE(judgeSignIns(rules, failures(2), at(0)).wait, milliseconds(0));
        QCOMPARE(judgeSignIns(rules, failures(3), at(0)).wait, milliseconds(5s));
        QCOMPARE(judgeSignIns(rules, failures(5), at(0)).wait, milliseconds(12s));
        QVERIFY(judgeSignIns(rules, failures(6), at(0)).locked);
        QVERIFY(!judgeSignIns(rules, failures(6), at(hour)).locked);
    }

    void toldAtSignIn_data()
    {
        QTest::addColumn<Marks>("marks");
        QTest::addColumn<qint64>("now");
        QTest::addColumn<int>("count");
        QTest::newRow("none") << Marks() << qint64{0} << 0;
        QTest::newRow("two just now") << failures(2) << second << 0;
        QTest::newRow("three just now") << failures(3) << second << 3;
        QTest::newRow("one, ten minutes ago") << failures(1) << 600 * second << 0;
        QTest::newRow("one, longer ago") << failures(1) << 600 * second + 1 << 1;
        QTest::newRow("one yesterday and a slip") << failures(1, -day) + failures(1) << second << 2;
        QTest::newRow("ended since")
            << failures(5, -day) + Marks{{success, at(-hour)}} << second << 0;
        QTest::newRow("ahead, as the clock was set back") << failures(1) << -hour << 1;
    }

    void toldAtSignIn()
    {
        QFETCH(Marks, marks);
        QFETCH(qint64, now);
        QFETCH(int, count);
        const auto told = ramplight::toldAtSignIn({}, judgeSignIns({}, marks, at(now)), at(now));
        QCOMPARE(told.has_value(), count > 0);
        if (told)
            QCOMPARE(*told, (WrongPins{count, marks.back().at}));
    }

    void row_isMarkedOnce_andItsMarkDelaysNobody()
    {
        QVERIFY(!judgeSignIns({}, failures(10), at(hour)).atLongest);
        QVERIFY(judgeSignIns({}, failures(11), at(hour)).atLongest);
        const Marks marked = failures(11) + Marks{{rowMark, at(hour)}};
        const GuardVerdict verdict = judgeSignIns({}, marked, at(hour + second));
        QVERIFY(verdict.rowMarked);
        QCOMPARE(verdict.wait, milliseconds(0));
        const Marks later = marked + Marks{{rowMark, at(hour)}, {success, at(2 * hour)}} +
                            failures(11, day) + Marks{{rowMark, at(day)}};
        QVERIFY(!judgeSignIns({}, marked + Marks{{success, at(2 * hour)}}, at(day)).rowMarked);
        QCOMPARE(guessesIn(anna, later), (std::vector{PinGuesses{anna, at(hour), 11, rowMark},
                                                      PinGuesses{anna, at(day), 11, rowMark}}));
    }

    void spread_countsWhatNoRightPinEnded_data()
    {
        using Books = std::map<PersonId, Marks>;
        const auto books = [](int people, int each, const Marks& then = {}) {
            Books all;
            for (int person = 1; person <= people; ++person)
                all[PersonId{person}] = failures(each) + then;
            return all;
        };
        QTest::addColumn<Books>("marks");
        QTest::addColumn<qint64>("now");
        QTest::addColumn<int>("failures");
        QTest::newRow("five, two each") << books(5, 2) << second << 10;
        QTest::newRow("twenty, five each") << books(20, 5) << second << 100;
        QTest::newRow("four, five each") << books(4, 5) << second << 0;
        QTest::newRow("nine, one each") << books(9, 1) << second << 0;
        QTest::newRow("a quarter of an hour ago") << books(5, 2) << 900 * second << 0;
        QTest::newRow("and they signed in") << books(9, 5, {{success, at(second)}}) << second << 0;
        QTest::newRow("ahead, as the clock was set back") << books(5, 2) << -hour << 10;
    }

    void spread_countsWhatNoRightPinEnded()
    {
        using Books = std::map<PersonId, Marks>;
        QFETCH(Books, marks);
        QFETCH(qint64, now);
        QFETCH(int, failures);
        const auto spread = spreadIn({}, marks, at(now));
        QCOMPARE(spread ? spread->failures : 0, failures);
        if (spread)
            QCOMPARE(spread->people, static_cast<int>(marks.size()));
    }

    void lockIn_isTheFirstMark()
    {
        QVERIFY(!lockIn(anna, failures(99)));
        // Two kiosks counted the hundredth at once.
        const Marks marks = failures(100) + Marks{{success, at(0)}, {lock, at(second)}} +
                            failures(1, hour) + Marks{{lock, at(hour)}};
        QVERIFY(lockIn(anna, marks) == (PinGuesses{anna, at(second), 100}));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSignInGuard)
#include "tst_signinguard.moc"
