// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/timewords.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QTest>

namespace ramplight {

namespace {

// Wednesday, in a zone that is an hour ahead of UTC.
const QTimeZone zone("Europe/Paris");
Moment at(const char* local)
{
    const QDateTime when =
        QDateTime::fromString(QLatin1StringView(local), QStringLiteral("yyyy-MM-dd HH:mm"));
    return {QDateTime(when.date(), when.time(), zone).toMSecsSinceEpoch()};
}
const Moment now = at("2031-03-05 13:40");

} // namespace

class TestTimeWords : public QObject
{
    Q_OBJECT

private slots:
    void day_isSaidAsAWorkshopSaysIt_data();
    void day_isSaidAsAWorkshopSaysIt();
    void shortDay_isAWeekdayOfTheWeekToCome_otherwiseADate();
    void day_isOver_fromTheNextOn();
    void dayAndClock_usesTheSitesZone();
    void shortly_leavesTodayOut();
    void since_countsMinutesThenNamesTheDay_data();
    void since_countsMinutesThenNamesTheDay();
    void nothing_hasNoWords();
    void minutes_areSaid_data();
    void minutes_areSaid();
    void span_saysOneFigureOnce();
    void unknownZone_isUtc();
};

void TestTimeWords::day_isSaidAsAWorkshopSaysIt_data()
{
    QTest::addColumn<QDate>("date");
    QTest::addColumn<QString>("words");
    QTest::newRow("today") << QDate(2031, 3, 5) << "today";
    QTest::newRow("tomorrow") << QDate(2031, 3, 6) << "tomorrow";
    QTest::newRow("yesterday") << QDate(2031, 3, 4) << "yesterday";
    QTest::newRow("two days on") << QDate(2031, 3, 7) << "Fri";
    QTest::newRow("six days on") << QDate(2031, 3, 11) << "Tue";
    QTest::newRow("a week on is no weekday: it would be this one")
        << QDate(2031, 3, 12) << "12 Mar";
    QTest::newRow("two days ago is no weekday: it would be one to come")
        << QDate(2031, 3, 3) << "3 Mar";
    QTest::newRow("six days ago") << QDate(2031, 2, 27) << "27 Feb";
    QTest::newRow("a year ago") << QDate(2030, 12, 31) << "31 Dec 2030";
    QTest::newRow("another year") << QDate(2032, 1, 2) << "2 Jan 2032";
    QTest::newRow("no date") << QDate() << "";
}

void TestTimeWords::day_isSaidAsAWorkshopSaysIt()
{
    QFETCH(QDate, date);
    QFETCH(QString, words);
    QCOMPARE(TimeWords(zone).day(date, now), words);
}

void TestTimeWords::shortDay_isAWeekdayOfTheWeekToCome_otherwiseADate()
{
    const TimeWords times(zone);
    QCOMPARE(times.shortDay(QDate(2031, 3, 5), now), QStringLiteral("today"));
    QCOMPARE(times.shortDay(QDate(2031, 3, 6), now), QStringLiteral("Thu"));
    QCOMPARE(times.shortDay(QDate(2031, 3, 12), now), QStringLiteral("12 Mar"));
    QCOMPARE(times.shortDay(QDate(2031, 3, 4), now), QStringLiteral("4 Mar"));
}

void TestTimeWords::day_isOver_fromTheNextOn()
{
    const TimeWords times(zone);
    QVERIFY(times.isOver(QDate(2031, 3, 4), now));
    QVERIFY(!times.isOver(QDate(2031, 3, 5), now));
    QVERIFY(!times.isOver(QDate(), now));
}

void TestTimeWords::dayAndClock_usesTheSitesZone()
{
    // 23:30 UTC is half past midnight of the next day here.
    const Moment late{QDateTime(QDate(2031, 3, 5), QTime(23, 30), Qt::UTC).toMSecsSinceEpoch()};
    QCOMPARE(TimeWords(zone).dayAndClock(late, now), QStringLiteral("tomorrow 00:30"));
    QCOMPARE(TimeWords().dayAndClock(late, now), QStringLiteral("today 23:30"));
}

void TestTimeWords::shortly_leavesTodayOut()
{
    QCOMPARE(TimeWords(zone).shortly(at("2031-03-05 09:14"), now), QStringLiteral("09:14"));
    QCOMPARE(TimeWords(zone).shortly(at("2031-03-03 09:14"), now), QStringLiteral("3 Mar 09:14"));
}

void TestTimeWords::since_countsMinutesThenNamesTheDay_data()
{
    QTest::addColumn<QString>("start");
    QTest::addColumn<QString>("words");
    QTest::newRow("now") << "2031-03-05 13:40"
                         << "for 0 min";
    QTest::newRow("minutes") << "2031-03-05 13:00"
                             << "for 40 min";
    QTest::newRow("an hour and minutes") << "2031-03-05 12:35"
                                         << "for 1 h 05";
    QTest::newRow("just under half a day") << "2031-03-05 01:41"
                                           << "for 11 h 59";
    QTest::newRow("half a day") << "2031-03-05 01:40"
                                << "since today 01:40";
    QTest::newRow("days") << "2031-03-03 14:00"
                          << "since 3 Mar 14:00";
    QTest::newRow("ahead, by a clock that was set back") << "2031-03-05 15:00"
                                                         << "for 0 min";
}

void TestTimeWords::since_countsMinutesThenNamesTheDay()
{
    QFETCH(QString, start);
    QFETCH(QString, words);
    QCOMPARE(TimeWords(zone).since(at(qPrintable(start)), now), words);
}

void TestTimeWords::nothing_hasNoWords()
{
    QCOMPARE(TimeWords(zone).clock({}), QString());
    QCOMPARE(TimeWords(zone).dayAndClock({}, now), QString());
    QCOMPARE(TimeWords(zone).since({}, now), QString());
    QCOMPARE(TimeWords(zone).full({}), QString());
}

void TestTimeWords::minutes_areSaid_data()
{
    QTest::addColumn<int>("minutes");
    QTest::addColumn<QString>("words");
    QTest::addColumn<QString>("timer");
    QTest::newRow("none") << 0 << "0 min"
                          << "0:00";
    QTest::newRow("minutes") << 38 << "38 min"
                             << "0:38";
    QTest::newRow("under an hour") << 59 << "59 min"
                                   << "0:59";
    QTest::newRow("an hour") << 60 << "1 h"
                             << "1:00";
    QTest::newRow("an hour and five") << 65 << "1 h 05"
                                      << "1:05";
    QTest::newRow("hours") << 250 << "4 h 10"
                           << "4:10";
}

void TestTimeWords::minutes_areSaid()
{
    QFETCH(int, minutes);
    QFETCH(QString, words);
    QFETCH(QString, timer);
    QCOMPARE(minutesWords(minutes), words);
    QCOMPARE(timerWords(minutes), timer);
}

void TestTimeWords::span_saysOneFigureOnce()
{
    QCOMPARE(minutesSpan(70, 120), QStringLiteral("1 h 10 to 2 h"));
    QCOMPARE(minutesSpan(15, 15), QStringLiteral("15 min"));
}

void TestTimeWords::unknownZone_isUtc()
{
    QCOMPARE(TimeWords(QTimeZone("Nowhere/Atall")), TimeWords());
}

} // namespace ramplight

RAMPLIGHT_TEST(QCoreApplication, ramplight::TestTimeWords)
#include "tst_timewords.moc"
