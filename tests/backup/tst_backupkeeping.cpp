// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupkeeping.h"
#include "backup/backupmanifest.h"
#include "backup/backupnote.h"
#include "support/testmain.h"

#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>

using namespace ramplight;

namespace {

QDateTime at(const char* text)
{
    return QDateTime::fromString(QString::fromLatin1(text), Qt::ISODate);
}

QStringList told(const std::vector<QDateTime>& times)
{
    QStringList lines;
    for (const QDateTime& time : times)
        lines.append(time.toString(Qt::ISODate));
    return lines;
}

std::vector<QDateTime> daily(const QDate& from, const QDate& to)
{
    std::vector<QDateTime> times;
    for (QDate day = from; day <= to; day = day.addDays(1))
        times.emplace_back(day, QTime(20, 30));
    std::ranges::reverse(times);
    return times;
}

} // namespace

// Which backups stay, and what a backup says of itself.
class TestBackupKeeping : public QObject
{
    Q_OBJECT

private slots:
    void aYearOfEvenings_leavesDaysWeeksMonths()
    {
        // 2031-05-04 is a Sunday.
        std::vector<QDateTime> all = daily(QDate(2030, 1, 1), QDate(2031, 5, 4));
        const std::vector<QDateTime> gone = superfluous(all);
        std::erase_if(all, [&](const QDateTime& time) {
            return std::ranges::find(gone, time) != gone.end();
        });
        const QStringList expected{
            "2030-06-30T20:30:00", "2030-07-31T20:30:00", "2030-08-31T20:30:00",
            "2030-09-30T20:30:00", "2030-10-31T20:30:00", "2030-11-30T20:30:00",
            "2030-12-31T20:30:00", "2031-01-31T20:30:00", "2031-02-28T20:30:00",
            "2031-03-31T20:30:00",
            "2031-04-13T20:30:00", // the last of three weeks before this one
            "2031-04-20T20:30:00", "2031-04-27T20:30:00",
            "2031-04-28T20:30:00", // seven days; the 30th ends its month, too
            "2031-04-29T20:30:00", "2031-04-30T20:30:00", "2031-05-01T20:30:00",
            "2031-05-02T20:30:00", "2031-05-03T20:30:00", "2031-05-04T20:30:00"};
        std::ranges::reverse(all);
        QCOMPARE(told(all), expected);
    }

    void superfluous_isTold_data()
    {
        QTest::addColumn<QStringList>("made"); // one after the other
        QTest::addColumn<QStringList>("gone");
        QTest::addRow("nothing made") << QStringList() << QStringList();
        QTest::addRow("one alone") << QStringList{"2031-05-04T20:30:00"} << QStringList();
        QTest::addRow("of one day the last stays")
            << QStringList{"2031-05-04T09:00:00", "2031-05-04T12:00:00", "2031-05-04T20:30:00"}
            << QStringList{"2031-05-04T09:00:00", "2031-05-04T12:00:00"};
        QTest::addRow("the last of a day is the one made last, whatever the clock said")
            << QStringList{"2031-05-04T20:30:00", "2031-05-04T09:00:00"}
            << QStringList{"2031-05-04T20:30:00"};
        QTest::addRow("a day that is to come counts as one of seven")
            << QStringList{"2031-05-01T20:30:00", "2032-05-02T20:30:00", "2031-05-02T20:30:00",
                           "2031-05-02T20:31:00"}
            << QStringList{"2031-05-02T20:30:00"};
        QTest::addRow("a closed month costs none of the days before it")
            << QStringList{"2031-03-01T20:30:00", "2031-03-02T20:30:00", "2031-03-03T20:30:00",
                           "2031-05-04T20:30:00"}
            << QStringList();
        // 2030-12-30 and 2031-01-02 lie in ISO week 1 of 2031.
        QTest::addRow("a week over the turn of the year is one week")
            << QStringList{"2030-12-30T20:30:00", "2031-01-02T20:30:00", "2031-02-10T20:30:00",
                           "2031-02-11T20:30:00", "2031-02-12T20:30:00", "2031-02-13T20:30:00",
                           "2031-02-14T20:30:00", "2031-02-15T20:30:00", "2031-02-16T20:30:00"}
            << QStringList();
    }

    void superfluous_isTold()
    {
        QFETCH(QStringList, made);
        QFETCH(QStringList, gone);
        std::vector<QDateTime> times;
        for (const QString& text : made)
            times.push_back(QDateTime::fromString(text, Qt::ISODate));
        std::ranges::reverse(times);
        QCOMPARE(told(superfluous(times)), gone);
    }

    void theNewestStays_whateverTheCounts()
    {
        QCOMPARE(
            told(superfluous({at("2031-05-04T20:30:00"), at("2031-05-03T20:30:00")}, {0, 0, 0})),
            QStringList{"2031-05-03T20:30:00"});
    }

    void backup_isDue_data()
    {
        QTest::addColumn<BackupNote>("note");
        QTest::addColumn<QString>("now");
        QTest::addColumn<bool>("due");
        const auto row = [](const char* name, const char* goodAt, const char* triedAt,
                            const char* now, bool due) {
            BackupNote note;
            if (*goodAt != 0)
                note.goodAt = {at(goodAt).toMSecsSinceEpoch()};
            if (*triedAt != 0)
                note.triedAt = {at(triedAt).toMSecsSinceEpoch()};
            QTest::addRow("%s", name) << note << QString::fromLatin1(now) << due;
        };
        row("never made", "", "", "2031-05-04T09:00:00", true);
        row("yesterday's is there", "2031-05-03T20:30:00", "2031-05-03T20:30:00",
            "2031-05-04T20:29:00", false);
        row("its time has come", "2031-05-03T20:30:00", "2031-05-03T20:30:00",
            "2031-05-04T20:30:00", true);
        row("the kiosk was off in the evening", "2031-05-02T20:30:00", "2031-05-02T20:30:00",
            "2031-05-04T07:55:00", true);
        row("made by hand since then", "2031-05-04T07:55:00", "2031-05-04T07:55:00",
            "2031-05-04T20:29:00", false);
        row("just tried in vain", "2031-05-02T20:30:00", "2031-05-03T20:30:00",
            "2031-05-03T20:59:00", false);
        row("tried in vain half an hour ago", "2031-05-02T20:30:00", "2031-05-03T20:30:00",
            "2031-05-03T21:00:00", true);
        row("tried under a clock that was ahead", "2031-05-02T20:30:00", "2035-01-01T20:30:00",
            "2031-05-03T21:00:00", true);
        row("made under a clock that was ahead", "2035-01-01T20:30:00", "2035-01-01T20:30:00",
            "2031-05-03T21:00:00", true);
    }

    void backup_isDue()
    {
        QFETCH(BackupNote, note);
        QFETCH(QString, now);
        QFETCH(bool, due);
        const QDateTime time = QDateTime::fromString(now, Qt::ISODate);
        QCOMPARE(isDue(note, true, QTime(20, 30), time), due);
        QVERIFY(!isDue(note, false, QTime(20, 30), time));
    }

    void health_followsTheLastWholeOne()
    {
        const Moment now{at("2031-05-06T08:00:00").toMSecsSinceEpoch()}; // a Tuesday
        BackupNote note;
        QCOMPARE(healthOf(note, false, now), BackupHealth::NotSetUp);
        QCOMPARE(healthOf(note, true, now), BackupHealth::Waiting);
        // The first one has a day to come.
        note.since = note.triedAt = {at("2031-05-05T08:00:00").toMSecsSinceEpoch()};
        QCOMPARE(healthOf(note, true, now), BackupHealth::Waiting);
        QCOMPARE(healthOf(note, true, now.plusMinutes(1)), BackupHealth::Stale);
        QCOMPARE(healthOf(note, false, now.plusMinutes(1)), BackupHealth::NotSetUp);
        // Each further one half a day more.
        note.goodAt = {at("2031-05-04T20:00:00").toMSecsSinceEpoch()};
        QCOMPARE(healthOf(note, true, now), BackupHealth::Good);
        QCOMPARE(healthOf(note, true, now.plusMinutes(1)), BackupHealth::Stale);
        // One that found something wrong with the house is one all the same.
        note.faults = QStringLiteral("photo: missing");
        QCOMPARE(healthOf(note, true, now), BackupHealth::Faulty);
        QCOMPARE(healthOf(note, true, now.plusMinutes(1)), BackupHealth::Stale);
        note.words = QStringLiteral("no stick");
        QCOMPARE(healthOf(note, true, now), BackupHealth::Failed);
    }

    void note_isKeptAndReadAgain()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(QStringLiteral("backup.json"));
        QCOMPARE(readNote(path), BackupNote());
        const BackupNote note{{5},
                              {4},
                              QStringLiteral("/stick/b"),
                              QStringLiteral("no \"room\""),
                              {3},
                              QStringLiteral("a photo")};
        QVERIFY(keepNote(path, note));
        QCOMPARE(readNote(path), note);
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        QVERIFY(file.write("{\"triedAt\":\"soon\"") > 0);
        file.close();
        QCOMPARE(readNote(path), BackupNote());
    }

    void manifest_comesBackAsItWas()
    {
        BackupManifest manifest;
        manifest.program = QStringLiteral("1.2");
        manifest.madeAt = {1'930'000'000'000};
        manifest.site = {QStringLiteral("site-1")};
        manifest.keyId = QStringLiteral("0011223344556677");
        manifest.entries = 12;
        manifest.cars = 3;
        manifest.head = {QStringLiteral("heads"), 5, QString(64, QLatin1Char('a'))};
        manifest.files = {{QStringLiteral("ledger.sqlite"), 4096, QString(64, QLatin1Char('b'))}};
        manifest.photos = {{QString(64, QLatin1Char('c'))}};
        manifest.transcripts = {QString(64, QLatin1Char('d'))};
        manifest.faults = {QStringLiteral("photo: missing")};
        const auto again = manifestFrom(toFile(manifest));
        QVERIFY2(again, again ? "" : qPrintable(again.error()));
        QCOMPARE(toFile(*again), toFile(manifest));
        QCOMPARE(again->files, manifest.files);
        QCOMPARE(again->faults, manifest.faults);
    }

    // What goes by its time, and what comes back, is decided by it.
    void bitOfTheManifest_isFound()
    {
        BackupManifest manifest;
        manifest.madeAt = {1'930'000'000'000};
        manifest.site = {QStringLiteral("site-1")};
        manifest.files = {{QStringLiteral("ledger.sqlite"), 4096, QString(64, QLatin1Char('b'))}};
        const QByteArray whole = toFile(manifest);
        for (qsizetype bit = 0; bit < whole.size() * 8; ++bit) {
            QByteArray turned = whole;
            turned[bit / 8] = static_cast<char>(turned[bit / 8] ^ (1 << (bit % 8)));
            const auto read = manifestFrom(turned);
            // What is between the values may be another blank.
            QVERIFY2(!read || toFile(*read) == whole, qPrintable(QString::number(bit)));
        }
    }

    void manifestThatIsNone_saysWhy_data()
    {
        QTest::addColumn<QByteArray>("file");
        QTest::addColumn<QString>("words");
        QTest::addRow("empty") << QByteArray() << "illegal value";
        QTest::addRow("a list") << QByteArray("[1]") << "a list of what is in it was expected";
        QTest::addRow("cut off") << QByteArray("{\"site\":\"s\",\"fil") << "unterminated";
        QTest::addRow("a wrong type") << QByteArray("{\"entries\":\"many\"}") << "entries";
        QTest::addRow("nothing in it") << QByteArray("{}") << "it names no site";
        QTest::addRow("newer") << QByteArray("{\"version\":2}") << "a newer version";
    }

    void manifestThatIsNone_saysWhy()
    {
        QFETCH(QByteArray, file);
        QFETCH(QString, words);
        const auto manifest = manifestFrom(file);
        QVERIFY(!manifest);
        QVERIFY2(manifest.error().contains(words), qPrintable(manifest.error()));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBackupKeeping)
#include "tst_backupkeeping.moc"
