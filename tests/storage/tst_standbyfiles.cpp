// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptbench.h"

#include "storage/standbyfiles.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The files of a kiosk that goes on without its server, when they are damaged or of another
// program. The server is a file here: what is asked of it is the same.
class TestStandbyFiles : public QObject
{
    Q_OBJECT

private slots:
    void emptyWorkshop_isKnownWhole()
    {
        const TestDatabase database(StoreKind::Sqlite);
        const auto server = database.open();
        const QTemporaryDir folder;
        Workbench bench;
        Standby kiosk(folder.path(), keeperWith(), bench.clock, bench.catalogue);
        QVERIFY(kiosk.open(*server));
        kiosk.want({});
        kiosk.wantSite();
        for (int i = 0; i < 5; ++i)
            QVERIFY(!kiosk.follow(*server));
        QVERIFY(kiosk.isInStep());
    }

    void tornMirror_isMadeAnew_orSaysThatItKnowsNoStaff_data()
    {
        QTest::addColumn<int>("from"); // in hundredths of the file
        QTest::addColumn<int>("to");
        QTest::newRow("from the beginning") << 0 << 50;
        QTest::newRow("the middle") << 40 << 60;
        QTest::newRow("to the end") << 50 << 100;
        QTest::newRow("emptied") << 0 << 0;
    }

    void tornMirror_isMadeAnew_orSaysThatItKnowsNoStaff()
    {
        QFETCH(int, from);
        QFETCH(int, to);
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        {
            // Something waits, too.
            const auto kiosk = house.kiosk();
            QVERIFY(kiosk->open(SiteId{}));
            QVERIFY(kiosk->takeOver());
            QCOMPARE(house.run(kiosk->workshop(false)), done);
        }
        const QString mirror = house.file(standbyfiles::mirror);
        QVERIFY(QFile::remove(house.file(standbyfiles::working)));
        const qsizetype size = bytesIn(mirror).size();
        QVERIFY(to == 0 ? putBytes(mirror, {})
                        : tear(mirror, size * from / 100, size * (to - from) / 100));
        const QByteArray torn = bytesIn(mirror);

        // The server is away.
        {
            const auto kiosk = house.kiosk();
            const auto opened = kiosk->open(SiteId{});
            Q_UNUSED(opened)
            const auto working = kiosk->takeOver();
            QVERIFY(!working);
            QCOMPARE(working.error().kind, StoreErrorKind::Unavailable);
            QVERIFY2(working.error().words.contains(QStringLiteral("knows no staff")),
                     qPrintable(working.error().words));
            QVERIFY(!kiosk->fault().isEmpty());
            // What is kept is shown all the same, and the file is left to who may know more.
            QCOMPARE(kiosk->kept()->size(), std::size_t(1));
            QCOMPARE(bytesIn(mirror).size(), torn.size());
        }
        // It is there.
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        house.follow(*kiosk);
        QVERIFY(!kiosk->knownAt().isNull());
        QCOMPARE(kiosk->fault(), QString());
        QVERIFY(kiosk->kept()->empty());
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().wall().wall().value() == house.server->wall().wall().value());
        QVERIFY(kiosk->store().staffIsSealed());
        QVERIFY(kiosk->store().ledger().isKnown(CommandId{"kept"}).value());
    }

    // While the kiosk runs, no copy can be made; it is found out when the server is back.
    void mirrorTornWhileItRuns_isMadeAnewWhenTheServerIsBack()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        const QString mirror = house.file(standbyfiles::mirror);
        // What stands in its log is not in the file yet.
        QCOMPARE(sqlIn(mirror, {QStringLiteral("PRAGMA wal_checkpoint(TRUNCATE)")}), QString());
        QVERIFY(tear(mirror, 4096 * 3, bytesIn(mirror).size()));
        const auto working = kiosk->takeOver();
        QVERIFY(!working);
        QVERIFY(!kiosk->fault().isEmpty());
        QVERIFY(kiosk->open(*house.server));
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        house.follow(*kiosk);
        QVERIFY(!kiosk->knownAt().isNull());
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().wall().wall().value() == house.server->wall().wall().value());
    }

    void entryOfTheMirrorThatWasChanged_isFound_data()
    {
        QTest::addColumn<QString>("change");
        QTest::newRow("body") << "UPDATE ledger SET body = replace(body, 'K', 'L')"
                                 " WHERE stream LIKE 'car/%' AND seq = 1";
        QTest::newRow("hash of the last") << "UPDATE ledger SET hash = CASE substr(hash, 1, 1)"
                                             " WHEN 'a' THEN 'b' ELSE 'a' END ||"
                                             " substr(hash, 2) WHERE stream = 'site' AND seq ="
                                             " (SELECT max(seq) FROM ledger WHERE stream = 'site')";
        const char* of = " WHERE stream = (SELECT min(stream) FROM ledger WHERE stream LIKE"
                         " 'car/%') AND seq = ";
        QTest::newRow("stream") << QStringLiteral("UPDATE ledger SET stream = 'car/nobody'%1 2")
                                       .arg(QLatin1StringView(of));
        // A chain that ends too early is whole.
        QTest::newRow("site of the last")
            << QStringLiteral("UPDATE ledger SET site = 'elsewhere'%1"
                              " (SELECT max(seq) FROM ledger WHERE stream = (SELECT min(stream)"
                              " FROM ledger WHERE stream LIKE 'car/%'))")
                   .arg(QLatin1StringView(of));
        QTest::newRow("site of the site's last")
            << QStringLiteral("UPDATE ledger SET site = 'elsewhere' WHERE stream = 'site' AND seq ="
                              " (SELECT max(seq) FROM ledger WHERE stream = 'site')");
        QTest::newRow("stream of the last")
            << QStringLiteral("UPDATE ledger SET stream = 'car/nobody'%1"
                              " (SELECT max(seq) FROM ledger WHERE stream = (SELECT min(stream)"
                              " FROM ledger WHERE stream LIKE 'car/%'))")
                   .arg(QLatin1StringView(of));
    }

    void entryOfTheMirrorThatWasChanged_isFound()
    {
        QFETCH(QString, change);
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        QCOMPARE(sqlIn(house.file(standbyfiles::mirror),
                       {QStringLiteral("DROP TRIGGER ledger_no_update"),
                        QStringLiteral("PRAGMA foreign_keys=OFF"), change}),
                 QString());
        {
            const auto kiosk = house.kiosk();
            QVERIFY(kiosk->open(SiteId{}));
            QVERIFY(!kiosk->takeOver());
        }
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        // Damaged here says nothing of the server.
        house.follow(*kiosk);
        QVERIFY(kiosk->kept()->empty());
        QVERIFY(!kiosk->knownAt().isNull());
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().wall().wall().value() == house.server->wall().wall().value());
    }

    // The wall's cards have no hash of their own.
    void cardOfTheMirrorThatWasChanged_isMadeAgain()
    {
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        QCOMPARE(sqlIn(house.file(standbyfiles::mirror),
                       {QStringLiteral("UPDATE car SET stock_number = 'X' || stock_number,"
                                       " card = replace(card, 'stockNumber\":\"', "
                                       "'stockNumber\":\"X')"),
                        QStringLiteral("DELETE FROM work_segment")}),
                 QString());
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(SiteId{}));
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().wall().wall().value() == house.server->wall().wall().value());
    }

    void moment_ofTheMirrorThatWasChanged_isNone()
    {
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        QCOMPARE(sqlIn(house.file(standbyfiles::mirror),
                       {QStringLiteral("UPDATE mirror_known SET at = at + 3600000")}),
                 QString());
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(SiteId{}));
        QVERIFY(kiosk->knownAt().isNull());
        QVERIFY(!kiosk->takeOver());
    }

    // Somebody with the disk gives a person another PIN and takes the seal away.
    void copyOfTheStaffWithoutItsSeal_isNotSealedHere()
    {
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        QCOMPARE(sqlIn(house.file(standbyfiles::mirror),
                       {QStringLiteral("UPDATE credential SET pin_hash = 'forged'"),
                        QStringLiteral("DELETE FROM setting WHERE name = 'staff-seal'")}),
                 QString());
        {
            const auto kiosk = house.kiosk();
            const auto opened = kiosk->open(SiteId{});
            QVERIFY(!opened);
            QCOMPARE(opened.error().kind, StoreErrorKind::Damaged);
            QVERIFY(!kiosk->takeOver());
        }
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().staffIsSealed());
        QCOMPARE(kiosk->store().credentials().pinHash(house.who).value().value_or(QByteArray()),
                 QByteArray("a hash"));
    }

    void workingCopyThatAKillLeft_isCheckedOrMadeAnew_data()
    {
        QTest::addColumn<QString>("how");
        for (const char* how : {"torn", "without its seal", "another card"})
            QTest::newRow(how) << how;
    }

    void workingCopyThatAKillLeft_isCheckedOrMadeAnew()
    {
        QFETCH(QString, how);
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        {
            const auto kiosk = house.kiosk();
            QVERIFY(kiosk->open(SiteId{}));
            QVERIFY(kiosk->takeOver());
        }
        const QString working = house.file(standbyfiles::working);
        if (how == QLatin1StringView("torn"))
            QVERIFY(tear(working, 4096, bytesIn(working).size()));
        else if (how == QLatin1StringView("another card"))
            QCOMPARE(sqlIn(working, {QStringLiteral("UPDATE car SET stock_number = 'X',"
                                                    " card = replace(card, 'stockNumber\":\"',"
                                                    " 'stockNumber\":\"X')"
                                                    " WHERE car = '%1'")
                                         .arg(house.car.text)}),
                     QString());
        else
            QCOMPARE(
                sqlIn(working, {QStringLiteral("UPDATE credential SET pin_hash = 'forged'"),
                                QStringLiteral("DELETE FROM setting WHERE name = 'staff-seal'")}),
                QString());
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(SiteId{}));
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().staffIsSealed());
        QCOMPARE(kiosk->store().credentials().pinHash(house.who).value().value_or(QByteArray()),
                 QByteArray("a hash"));
        QVERIFY(kiosk->store().wall().wall().value() == house.server->wall().wall().value());
    }

    void newerProgramsFiles_areRefusedUnharmed_data()
    {
        QTest::addColumn<QString>("name");
        QTest::newRow("outbox") << standbyfiles::outbox;
        QTest::newRow("mirror") << standbyfiles::mirror;
    }

    void newerProgramsFiles_areRefusedUnharmed()
    {
        QFETCH(QString, name);
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        {
            const auto kiosk = house.kiosk();
            QVERIFY(kiosk->open(SiteId{}));
            QVERIFY(kiosk->takeOver());
            QCOMPARE(house.run(kiosk->workshop(false)), done);
        }
        const QString file = house.folder() + QLatin1Char('/') + name;
        QCOMPARE(sqlIn(file, {QStringLiteral("INSERT INTO schema_version SELECT max(version) + 1,"
                                             " 'later', 0 FROM schema_version")}),
                 QString());
        const QByteArray before = bytesIn(file);
        for (const bool isThere : {false, true}) {
            const auto kiosk = house.kiosk();
            const auto opened = isThere ? kiosk->open(*house.server) : kiosk->open(SiteId{});
            QVERIFY(!opened);
            QCOMPARE(opened.error().kind, StoreErrorKind::TooNew);
            QVERIFY2(kiosk->fault().contains(QStringLiteral("newer version")),
                     qPrintable(kiosk->fault()));
            const auto working = kiosk->takeOver();
            QVERIFY(!working);
            QVERIFY2(working.error().words.contains(QStringLiteral("newer version")),
                     qPrintable(working.error().words));
            QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
            // What waits in a file that can be read is shown.
            const bool isOutbox = name == QLatin1StringView(standbyfiles::outbox);
            QCOMPARE(kiosk->kept()->size(), std::size_t(isOutbox ? 0 : 1));
            QCOMPARE(bytesIn(file), before);
        }
        // The newer program is back.
        QCOMPARE(sqlIn(file, {QStringLiteral("DELETE FROM schema_version WHERE name = 'later'")}),
                 QString());
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        QVERIFY(house.server->ledger().isKnown(CommandId{"kept"}).value());
        QVERIFY(kiosk->kept()->empty());
    }

    void outboxThatIsGone_isTold_data()
    {
        QTest::addColumn<bool>("removed");
        QTest::newRow("removed") << true;
        QTest::newRow("emptied") << false;
    }

    void outboxThatIsGone_isTold()
    {
        QFETCH(bool, removed);
        StandbyHouse house;
        QVERIFY(house.leaveStandby());
        const QString file = house.file(standbyfiles::outbox);
        QVERIFY(removed ? QFile::remove(file) : putBytes(file, {}));
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(SiteId{}));
        const auto kept = kiosk->kept().value();
        QCOMPARE(kept.size(), std::size_t(1));
        QVERIFY(kept.front().trouble && kept.front().trouble->perhapsMore);
        QCOMPARE(kept.front().trouble->file.isEmpty(), removed);
        QVERIFY(kiosk->takeOver());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestStandbyFiles)
#include "tst_standbyfiles.moc"
