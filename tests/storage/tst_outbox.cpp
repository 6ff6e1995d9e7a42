// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptbench.h"

#include "storage/migrator.h"
#include "storage/outboxrescue.h"
#include "support/testmain.h"

#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a kiosk keeps while its server is away: each row carries a seal, and a file that is damaged
// is kept and told.
class TestOutbox : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        m_file = m_folder->filePath(QStringLiteral("outbox.sqlite"));
    }

    void rows_areThereAsTheyWereWritten()
    {
        fillOutbox(m_file, m_site, 28);
        const auto outbox = Outbox::open(m_file, m_site).value();
        const Told told(*outbox);
        QCOMPARE(told.waiting.size(), 24);
        QCOMPARE(told.refused.size(), 2);
        QCOMPARE(told.seen.size(), 2);
        QVERIFY(told.damaged.empty());
        QVERIFY(told.troubles.empty());
        // Of another site they are not.
        const Told others(*Outbox::open(m_file, SiteId{"elsewhere"}).value());
        QVERIFY(others.waiting.isEmpty() && others.refused.isEmpty() && others.damaged.empty());
        // Where the site is not known, they are all shown.
        QCOMPARE(Told(*Outbox::open(m_file, {}).value()).waiting.size(), 24);
    }

    void rowThatWasChanged_isNotSent_butShownUntilSomebodyReadIt_data()
    {
        QTest::addColumn<QString>("change");
        QTest::newRow("number") << "number = 900";
        QTest::newRow("site") << "site = 'elsewhere'";
        QTest::newRow("command") << "command = 'request-333'";
        QTest::newRow("time") << "at = at + 1";
        QTest::newRow("request") << "request = replace(request, 'torque 3', 'torque 7')";
        QTest::newRow("not to be read") << "request = substr(request, 3)";
        QTest::newRow("works") << "works = replace(works, 'K-3', 'K-7')";
        QTest::newRow("refusal") << "refusal = 'no'";
        QTest::newRow("time of the refusal") << "refused_at = 1";
        QTest::newRow("who saw it") << "seen_by = 4";
        QTest::newRow("when") << "seen_at = 4";
        QTest::newRow("seal") << "seal = replace(seal, substr(seal, 1, 1), 'x')";
        QTest::newRow("no seal") << "seal = ''";
    }

    void rowThatWasChanged_isNotSent_butShownUntilSomebodyReadIt()
    {
        QFETCH(QString, change);
        fillOutbox(m_file, m_site, 6);
        const QStringList before = Told(*Outbox::open(m_file, m_site).value()).waiting;
        QCOMPARE(sqlIn(m_file, {QStringLiteral("UPDATE kept SET %1 WHERE number = 3").arg(change)}),
                 QString());
        const auto outbox = Outbox::open(m_file, m_site).value();
        const Told told(*outbox);
        QCOMPARE(told.damaged.size(), std::size_t(1));
        QVERIFY(!told.damaged.front().waits());
        QStringList others = before;
        others.removeAt(2);
        QCOMPARE(told.waiting, others);
        QVERIFY(told.refused.isEmpty());
        // It cannot become one that waits again, nor one that the server refused.
        const qint64 number = told.damaged.front().number;
        QVERIFY(outbox->refuse(number, QStringLiteral("no"), Moment{5}));
        QCOMPARE(Told(*outbox).damaged.size(), std::size_t(1));

        QVERIFY(outbox->note(number, PersonId{1}, Moment{6}));
        const Told noted(*outbox);
        QVERIFY(noted.damaged.empty());
        QCOMPARE(noted.waiting, others);
        QCOMPARE(numberIn(m_file, "SELECT count(*) FROM kept"), qint64{6});
    }

    void whatWaits_cannotBeNoted()
    {
        fillOutbox(m_file, m_site, 3);
        const auto outbox = Outbox::open(m_file, m_site).value();
        QVERIFY(outbox->note(2, PersonId{1}, Moment{6}));
        QCOMPARE(Told(*outbox).waiting.size(), 3);
    }

    // Whose work it was may be away for weeks; what names people is not kept for ever.
    void whatSomebodyRead_staysForAYear_andNothingElseGoesWithIt()
    {
        constexpr int day = 24 * 60;
        fillOutbox(m_file, m_site, 28);
        const auto outbox = Outbox::open(m_file, m_site).value();
        const Told before(*outbox);
        QCOMPARE(before.seen.size(), 2);
        QCOMPARE(before.refused.size(), 2);
        const auto seen = outbox->seen().value();
        QVERIFY(seen.front().seenAt > seen.back().seenAt); // the latest first
        // A bit on the disk makes of what waits something that was read long ago.
        QCOMPARE(sqlIn(m_file, {QStringLiteral("UPDATE kept SET seen_by = 4, seen_at = 1"
                                               " WHERE number = 3")}),
                 QString());
        const qint64 first = outbox->kept()->at(6).number; // the first that was refused
        QVERIFY(!outbox->kept()->at(6).refusal.isEmpty());
        QVERIFY(outbox->note(first, PersonId{2}, seen.back().seenAt.plusMinutes(365 * day)));
        QCOMPARE(Told(*outbox).seen.size(), 3);
        const qint64 second = outbox->kept()->at(18).number;
        QVERIFY(outbox->note(second, PersonId{2}, seen.back().seenAt.plusMinutes(365 * day + 1)));
        const Told after(*outbox);
        QCOMPARE(after.seen.size(), 3);
        QVERIFY(!after.seen.contains(before.seen.back()));
        QVERIFY(after.seen.contains(before.seen.front()));
        QCOMPARE(after.damaged.size(), std::size_t(1));
        QCOMPARE(after.waiting.size(), before.waiting.size() - 1);
    }

    void trouble_isToldUntilSomebodyReadIt()
    {
        const auto outbox = Outbox::open(m_file, m_site).value();
        KeptTrouble trouble;
        trouble.kind = TroubleKind::ServerOlder;
        trouble.file = QStringLiteral("missing.jsonl");
        trouble.missing = {{CarId{"car-1"}, QStringLiteral("K-1"), 3, Moment{70}},
                           {{}, {}, 2, Moment{90}}};
        QVERIFY(outbox->tell(trouble, Moment{100}));
        QVERIFY(Told(*outbox).troubles == std::vector{trouble});
        QCOMPARE(trouble.entries(), 5);
        QCOMPARE(trouble.until(), Moment{90});
        const KeptRequest row = outbox->kept()->front();
        QCOMPARE(row.at, Moment{100});
        QVERIFY(outbox->note(row.number, PersonId{1}, Moment{110}));
        QVERIFY(outbox->kept()->empty());
    }

    // A file of the program before the seals.
    void rowsFromBefore_areSealed_data()
    {
        QTest::addColumn<bool>("brokeOff");
        QTest::newRow("at once") << false;
        QTest::newRow("the power went away in between") << true;
    }

    void rowsFromBefore_areSealed()
    {
        QFETCH(bool, brokeOff);
        const auto steps = migrationsIn(QStringLiteral(":/ramplight/migrations/outbox"));
        StoreSettings settings;
        settings.file = m_file;
        KeptRequest request;
        request.asked = CarRequest{
            CommandId{"old"}, PersonId{2}, CarId{"car"}, {car::StartWork{OperationId{4}}}, false};
        {
            const auto connection = Connection::open(settings).value();
            QCOMPARE(migrate(*connection, {steps.front()}).outcome, MigrationOutcome::Fresh);
            QVERIFY(connection->run(
                "INSERT INTO kept (site, command, at, request, works) VALUES (?, 'old', 7, ?, ?)",
                {m_site.text, QString::fromUtf8(written(request.asked)),
                 QString::fromUtf8(written(request.works))}));
            if (brokeOff)
                QCOMPARE(migrate(*connection, steps).outcome, MigrationOutcome::Upgraded);
        }
        for (int opened = 0; opened < 2; ++opened) {
            const Told told(*Outbox::open(m_file, m_site).value());
            QCOMPARE(told.waiting.size(), 1);
            QVERIFY(told.damaged.empty());
        }
        QCOMPARE(numberIn(m_file, "SELECT count(*) FROM kept WHERE length(seal) = 64"), qint64{1});
        QCOMPARE(sqlIn(m_file, {QStringLiteral("UPDATE kept SET at = 8")}), QString());
        QCOMPARE(Told(*Outbox::open(m_file, m_site).value()).damaged.size(), std::size_t(1));
    }

    void fileOfANewerProgram_isRefusedUnharmed()
    {
        fillOutbox(m_file, m_site, 5);
        QCOMPARE(sqlIn(m_file, {QStringLiteral("INSERT INTO schema_version SELECT"
                                               " max(version) + 1, 'later', 0 FROM schema_version"),
                                QStringLiteral("ALTER TABLE kept ADD COLUMN more TEXT")}),
                 QString());
        const QByteArray before = bytesIn(m_file);
        const auto opened = Outbox::open(m_file, m_site);
        QVERIFY(!opened);
        QCOMPARE(opened.error().kind, StoreErrorKind::TooNew);
        QVERIFY2(opened.error().words.contains(QStringLiteral("newer version")),
                 qPrintable(opened.error().words));
        QCOMPARE(bytesIn(m_file), before);
    }

    // Each page in turn: what can be read goes on, what is not what was written is shown, the rest
    // is counted, and the file is kept to the last byte.
    void tornFile_losesNothingWithoutAWord()
    {
        constexpr qsizetype page = 4096;
        const QString original = m_folder->filePath(QStringLiteral("original"));
        fillOutbox(m_file, m_site, 60);
        const Told before(*Outbox::open(m_file, m_site).value());
        QVERIFY(QFile::rename(m_file, original));
        const QByteArray bytes = bytesIn(original);
        QVERIFY(bytes.size() > 12 * page);
        int readOut = 0;
        int lost = 0;
        int changed = 0;
        for (qsizetype torn = 0; torn < bytes.size() / page; ++torn) {
            QByteArray damaged = bytes;
            damaged.replace(torn * page, page, QByteArray(page, '\x5a'));
            QVERIFY(putBytes(m_file, damaged));
            auto outbox = Outbox::open(m_file, m_site);
            if (!outbox) {
                QCOMPARE(outbox.error().kind, StoreErrorKind::Damaged);
                outbox = rescueOutbox(m_file, m_site, Moment{1'930'000'000'000});
            }
            QVERIFY2(outbox, outbox ? "" : qPrintable(outbox.error().words));
            const Told told(**outbox);
            const QStringList aside =
                QDir(m_folder->path()).entryList({QStringLiteral("outbox.damaged-*.sqlite")});
            if (told.troubles.empty()) {
                // The page held nothing.
                QVERIFY(aside.isEmpty());
                QCOMPARE(told.waiting, before.waiting);
                QCOMPARE(told.refused, before.refused);
                QCOMPARE(told.seen, before.seen);
            } else {
                QCOMPARE(aside.size(), 1);
                QCOMPARE(bytesIn(m_folder->filePath(aside.front())), damaged);
                QVERIFY(QFile::remove(m_folder->filePath(aside.front())));
                QCOMPARE(told.troubles.size(), std::size_t(1));
                const KeptTrouble& trouble = told.troubles.front();
                QCOMPARE(trouble.file, aside.front());
                QCOMPARE(trouble.readOut, static_cast<int>(told.waiting.size()));
                QCOMPARE(trouble.changed, static_cast<int>(told.damaged.size()));
                for (const QString& line : told.waiting)
                    QVERIFY(before.waiting.contains(line));
                const auto shown = told.waiting.size() + told.refused.size() + told.seen.size() +
                                   static_cast<qsizetype>(told.damaged.size());
                if (!trouble.perhapsMore)
                    QCOMPARE(shown + trouble.lost, qsizetype{60});
                readOut += trouble.readOut;
                lost += trouble.lost;
                changed += trouble.changed;
                // A fresh one goes on.
                KeptRequest next;
                next.asked = CarRequest{CommandId{"next"}, PersonId{2}, CarId{"car"}, {}, false};
                QVERIFY((*outbox)->keep(next));
            }
            outbox->reset();
            QVERIFY(QFile::remove(m_file));
        }
        qInfo("read out %d, changed %d, counted %d", readOut, changed, lost);
        QVERIFY(readOut > 60);
        QVERIFY(lost > 0);
        QVERIFY(changed > 0);
    }

    void fileThatIsNone_isKept_andTold_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("something else") << QByteArray("[storage]\nkind=sqlite\n");
        QTest::newRow("noise") << QByteArray(20'000, '\x5a');
    }

    void fileThatIsNone_isKept_andTold()
    {
        QFETCH(QByteArray, bytes);
        // Twice in one second.
        for (int i = 0; i < 2; ++i) {
            QVERIFY(putBytes(m_file, bytes));
            const auto outbox = rescueOutbox(m_file, m_site, Moment{1'930'000'000'000}).value();
            const Told told(*outbox);
            QCOMPARE(told.troubles.size(), std::size_t(1));
            QVERIFY(told.troubles.front().perhapsMore);
            QCOMPARE(bytesIn(m_folder->filePath(told.troubles.front().file)), bytes);
        }
        QCOMPARE(QDir(m_folder->path()).entryList({QStringLiteral("outbox.damaged-*")}).size(), 2);
    }

    void powerCutWhileItIsSetAside_endsWell()
    {
        // A log of the old file that would be taken for the new one's.
        const QString aside =
            m_folder->filePath(QStringLiteral("outbox.damaged-20310101-000000.sqlite"));
        const QString fresh = m_folder->filePath(QStringLiteral("outbox.new.sqlite"));
        QVERIFY(putBytes(aside, "torn"));
        QVERIFY(putBytes(m_file + QStringLiteral("-wal"), "torn, too"));
        fillOutbox(fresh, m_site, 5);
        finishRescue(m_file);
        QCOMPARE(Told(*Outbox::open(m_file, m_site).value()).waiting.size(), 5);
        QCOMPARE(bytesIn(aside + QStringLiteral("-wal")), QByteArray("torn, too"));
        QVERIFY(!QFile::exists(fresh));
        // A half one beside one that is whole means nothing.
        QVERIFY(putBytes(fresh, "half"));
        finishRescue(m_file);
        QVERIFY(!QFile::exists(fresh));
        QCOMPARE(Told(*Outbox::open(m_file, m_site).value()).waiting.size(), 5);
    }

private:
    const SiteId m_site{QStringLiteral("a-site")};
    std::unique_ptr<QTemporaryDir> m_folder;
    QString m_file;
};

RAMPLIGHT_TEST(QCoreApplication, TestOutbox)
#include "tst_outbox.moc"
