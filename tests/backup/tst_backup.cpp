// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backedhouse.h"

#include "storage/migrator.h"
#include "storage/storecopy.h"
#include "support/testmain.h"

#include <QScopeGuard>
#include <QTest>

#include <atomic>
#include <thread>

using namespace ramplight;
using namespace ramplight::test;

// Backups of a whole workshop.
class TestBackup : public QObject
{
    Q_OBJECT

private slots:
    void backup_holdsAllAndSaysSo_data() { addKinds(); }

    void backup_holdsAllAndSaysSo()
    {
        QFETCH(StoreKind, kind);
        House house(kind);
        const auto backup = house.backUp();
        QVERIFY2(backup, backup ? "" : qPrintable(backup.error()));
        QCOMPARE(QFileInfo(backup->path).fileName(), QStringLiteral("20310308-120000"));
        QCOMPARE(backup->manifest.faults, QStringList());
        QCOMPARE(backup->manifest.entries,
                 house.database().ask("SELECT count(*) FROM ledger").toLongLong());
        QCOMPARE(backup->manifest.cars, 2);
        QCOMPARE(backup->manifest.photos.size(), 3U);
        QCOMPARE(backup->manifest.transcripts.size(), 1U);
        QCOMPARE(backup->manifest.site, house.ledger().siteId());
        QCOMPARE(faultsOf(*backup), QStringList());
        QCOMPARE(QDir(backup->path).entryList(QDir::Files | QDir::Hidden, QDir::Name),
                 (QStringList{QStringLiteral("corrections.jsonl"), QStringLiteral("ledger.sqlite"),
                              QStringLiteral("manifest.json")}));
        const auto listed = backupsIn(house.backups());
        QVERIFY(listed);
        QCOMPARE(listed->size(), 1U);
        QCOMPARE(listed->front().path, backup->path);

        StoreSettings copy;
        copy.file = backup->path + QStringLiteral("/ledger.sqlite");
        auto opened = SqlLedger::open(copy, keeper());
        QVERIFY(opened);
        QCOMPARE(differenceBetween(house.ledger(), **opened).value(), QString());
    }

    void backup_isMadeWhileOthersWrite_data() { addKinds(); }

    void backup_isMadeWhileOthersWrite()
    {
        QFETCH(StoreKind, kind);
        House house(kind);
        // Held open: a writer in the middle of its transaction keeps nobody waiting.
        auto writing = Transaction::write(house.ledger().connection(), house.ledger().siteId());
        QVERIFY(writing);
        Writer writer(house.ledger().connection());
        QVERIFY(writer.run(
            "INSERT INTO setting (site, name, value) VALUES (?, ?, ?)",
            {house.ledger().siteId().text, QStringLiteral("half"), QStringLiteral("done")}));
        const auto backup = house.backUp();
        QVERIFY2(backup, backup ? "" : qPrintable(backup.error()));
        QVERIFY(writing->commit());
        StoreSettings copy;
        copy.file = backup->path + QStringLiteral("/ledger.sqlite");
        auto opened = SqlLedger::open(copy, keeper());
        QVERIFY(opened);
        QVERIFY(differenceBetween(house.ledger(), **opened)
                    .value()
                    .startsWith(QStringLiteral("setting")));
    }

    void backup_isWholeWhileAKioskGoesOn_data() { addKinds(); }

    void backup_isWholeWhileAKioskGoesOn()
    {
        QFETCH(StoreKind, kind);
        House house(kind);
        std::atomic<int> written = 0;
        std::atomic<bool> isOver = false;
        const PersonId manager = house.bench.manager;
        std::thread kiosk([&] {
            const auto store = house.database().open(keeper());
            const StillClock clock;
            const Catalogue catalogue;
            Workshop workshop(store->ledger(), clock, catalogue);
            while (!isOver) {
                const QString name = QStringLiteral("Newcomer %1").arg(written + 1);
                if (workshop.run(SiteRequest{CommandId{name}, manager,
                                             site::AddPerson{{}, {Right::Work}}, name}) &&
                    store->failures().add(manager, {SignInMark::Kind::WrongPin, clock.now()}))
                    ++written;
            }
        });
        const auto ended = qScopeGuard([&] {
            isOver = true;
            kiosk.join();
        });
        for (int day = 0; day < 5; ++day) {
            const int before = written;
            QTRY_VERIFY(written > before);
            const auto backup = house.backUp(evenings(day));
            QVERIFY2(backup, backup ? "" : qPrintable(backup.error()));
            QCOMPARE(backup->manifest.faults, QStringList());
            // Something of each was there, and nothing by half.
            QVERIFY(backup->manifest.entries > 2 * before);
        }
        const auto restored = restore(Target(house, house.kept().front()).request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
    }

    void damage_isNamed_data()
    {
        QTest::addColumn<QString>("what");
        QTest::addColumn<QString>("words");
        QTest::addRow("the ledger") << "ledger.sqlite"
                                    << "ledger.sqlite is not what was written";
        QTest::addRow("the corrections") << "corrections.jsonl"
                                         << "corrections.jsonl is not";
        QTest::addRow("a photo") << "photo"
                                 << "photo ";
        QTest::addRow("the words") << "words"
                                   << "transcript ";
    }

    void damage_isNamed()
    {
        QFETCH(QString, what);
        QFETCH(QString, words);
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        QString path = backup->path + QLatin1Char('/') + what;
        if (what == QLatin1String("photo"))
            path = PhotoStore(house.backups() + QStringLiteral("/photos"))
                       .pathOf(backup->manifest.photos.at(1));
        if (what == QLatin1String("words"))
            path = QStringLiteral("%1/transcripts/%2.txt")
                       .arg(house.backups(), backup->manifest.transcripts.front());
        QVERIFY(spoil(path));
        const QStringList faults = faultsOf(*backup);
        QCOMPARE(faults.size(), 1);
        QVERIFY2(faults.front().startsWith(words), qPrintable(faults.front()));

        // What is the backup's own decides whether it comes back.
        const bool isShared = !QFile::exists(backup->path + QLatin1Char('/') + what);
        Target target(house, *backup);
        const auto restored = restore(target.request);
        QCOMPARE(restored.has_value(), isShared);
        if (!isShared) {
            QVERIFY2(
                restored.error().startsWith(QStringLiteral("The backup is damaged. Nothing was")),
                qPrintable(restored.error()));
            QCOMPARE(target.beside(), QStringList());
        }
        QVERIFY(QFile::remove(path));
        QCOMPARE(faultsOf(*backup).size(), 1);
    }

    void photosOfTheFolder_areReadAgainWithinAWeek()
    {
        House house(StoreKind::Sqlite);
        const auto first = house.backUp();
        QVERIFY(first);
        const PhotoStore pool(house.backups() + QStringLiteral("/photos"));
        for (const PhotoId& id : first->manifest.photos)
            QVERIFY(spoil(pool.pathOf(id)));
        for (int day = 1; day <= 7; ++day)
            QVERIFY(house.backUp(evenings(day)));
        for (const Backup& backup : house.kept())
            QCOMPARE(faultsOf(backup), QStringList());
    }

    void oldOnes_goWithWhatOnlyTheyNamed()
    {
        House house(StoreKind::Sqlite);
        const PhotoStore pool(house.backups() + QStringLiteral("/photos"));
        for (int day = 0; day < 10; ++day)
            QVERIFY(house.backUp(evenings(day)));
        // 8 to 17 March: seven days, and Sunday the 9th as the last of its week.
        QStringList left;
        for (const Backup& backup : house.kept())
            left.prepend(QFileInfo(backup.path).fileName().left(8));
        QCOMPARE(left, (QStringList{QStringLiteral("20310309"), QStringLiteral("20310311"),
                                    QStringLiteral("20310312"), QStringLiteral("20310313"),
                                    QStringLiteral("20310314"), QStringLiteral("20310315"),
                                    QStringLiteral("20310316"), QStringLiteral("20310317")}));

        // A photo that no backup names goes, unless one of them cannot be read.
        const PhotoId stray{QString(64, QLatin1Char('e'))};
        const QString path = pool.pathOf(stray);
        QVERIFY(QDir().mkpath(QFileInfo(path).absolutePath()));
        QVERIFY(write(path, "nobody's"));
        const QString manifest = house.backups() + QStringLiteral("/20310314-120000/manifest.json");
        const QByteArray whole = bytesOf(manifest);
        QVERIFY(write(manifest, "{"));
        removeUnnamed(house.backups());
        QVERIFY(QFile::exists(path));
        QVERIFY(write(manifest, whole));
        removeUnnamed(house.backups());
        QVERIFY(!QFile::exists(path));
        for (const Backup& backup : house.kept())
            QCOMPARE(faultsOf(backup), QStringList());
    }

    void faultOfTheHouse_thatStays_costsNoBackup()
    {
        House house(StoreKind::Sqlite);
        const BackupSource source{house.database().settings(),
                                  keeper(),
                                  house.photos(),
                                  house.transcripts(),
                                  house.corrections(),
                                  QStringLiteral("test"),
                                  [] { return KnownCatalogues(); }};
        const QString notePath = house.inFolder(QStringLiteral("backup.json"));
        const auto backUp = [&](int day) {
            return backUpAndNote(source, house.backups(), notePath, evenings(day));
        };
        const auto isDueAt = [&](Moment now) {
            return isDue(readNote(notePath), true, QTime(11, 0),
                         QDateTime::fromMSecsSinceEpoch(now.ms, Qt::UTC));
        };
        QCOMPARE(backUp(0).faults, QString());
        // A photo lies on another kiosk, and nobody brings it here.
        const PhotoId lost =
            *keptPhotos(house.ledger().connection(), house.ledger().siteId())->begin();
        house.takePhotoAway(lost);
        QVERIFY(
            QFile::remove(PhotoStore(house.backups() + QStringLiteral("/photos")).pathOf(lost)));
        const BackupNote note = backUp(1);
        QCOMPARE(note.words, QString());
        QVERIFY2(note.faults.startsWith("photo " + lost.text.left(8) + "...: "),
                 qPrintable(note.faults));
        QCOMPARE(note.goodAt, evenings(1));
        QVERIFY(note.since.isNull());
        // It was made, and is not made again before its time.
        QVERIFY(!isDueAt(evenings(1).plusMinutes(tryAgainAfterMinutes + 1)));
        QVERIFY(!isDueAt(evenings(1).plusMinutes(22 * 60)));
        QVERIFY(isDueAt(evenings(2)));
        // It is the one that is offered, and it comes back.
        QCOMPARE(newestWhole(house.backups(), keeper())->manifest.madeAt, evenings(1));
        Target target(house, house.kept().front());
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));

        for (int day = 2; day < 30; ++day)
            QVERIFY(!backUp(day).faults.isEmpty());
        QStringList left;
        for (const Backup& backup : house.kept())
            left.prepend(QFileInfo(backup.path).fileName().left(8));
        // Of 8 March to 6 April: seven days, the last of three weeks before them and of March; and
        // the newest that found nothing.
        QCOMPARE(left, (QStringList{"20310308", "20310316", "20310323", "20310330", "20310331",
                                    "20310401", "20310402", "20310403", "20310404", "20310405",
                                    "20310406"}));
    }

    void whatABreakLeft_isNoBackupAndGoes()
    {
        House house(StoreKind::Sqlite);
        QVERIFY(QDir().mkpath(house.backups() + QStringLiteral("/.unfinished")));
        QVERIFY(write(house.backups() + QStringLiteral("/.unfinished/ledger.sqlite"), "half"));
        QVERIFY(QDir().mkpath(house.backups() + QStringLiteral("/20310101-000000")));
        QVERIFY(backupsIn(house.backups()).value().empty());
        QVERIFY(house.backUp());
        QVERIFY(!QFile::exists(house.backups() + QStringLiteral("/.unfinished")));
        QCOMPARE(backupsIn(house.backups()).value().size(), 1U);
    }

    void databaseThatWasMadeAnew_isRefused_andGetsNoSite_data() { addKinds(); }

    void databaseThatWasMadeAnew_isRefused_andGetsNoSite()
    {
        QFETCH(StoreKind, kind);
        House house(StoreKind::Sqlite);
        TestDatabase anew(kind);
        {
            const auto connection = Connection::open(anew.settings());
            QVERIFY(connection);
            QCOMPARE(
                migrate(**connection, migrationsIn((*connection)->dialect().migrations())).outcome,
                MigrationOutcome::Fresh);
        }
        BackupSource source = house.source();
        source.store = anew.settings();
        const QString notePath = house.inFolder(QStringLiteral("backup.json"));
        const BackupNote note = backUpAndNote(source, house.backups(), notePath, evening);
        QVERIFY2(note.words.contains(
                     QStringLiteral("There is no site in this database. Nothing was changed.")),
                 qPrintable(note.words));
        QVERIFY(note.goodAt.isNull());
        QVERIFY(house.kept().empty());
        QCOMPARE(anew.ask("SELECT count(*) FROM site").toInt(), 0);
    }

    void whatCannotBeMade_saysWhyAndLeavesNothing()
    {
        House house(StoreKind::Sqlite);
        const auto nowhere = makeBackup({house.database().settings(),
                                         keeper(),
                                         house.photos(),
                                         house.transcripts(),
                                         house.corrections(),
                                         {}},
                                        house.inFolder(QStringLiteral("no/such/stick")), evening);
        QVERIFY(!nowhere);
        QVERIFY2(nowhere.error().contains(QStringLiteral("no/such/stick cannot be written")),
                 qPrintable(nowhere.error()));
        StoreSettings none;
        none.file = house.inFolder(QStringLiteral("none.sqlite"));
        const auto nothing = makeBackup(
            {none, keeper(), house.photos(), house.transcripts(), house.corrections(), {}},
            house.backups(), evening);
        QVERIFY(!nothing);
        QCOMPARE(nothing.error(), QStringLiteral("There is no workshop to keep a backup of."));
        QVERIFY(!QFile::exists(none.file));
        QVERIFY(house.backUp());
        const auto twice = house.backUp();
        QVERIFY(!twice);
        QVERIFY2(twice.error().startsWith(QStringLiteral("There is a backup of this second")),
                 qPrintable(twice.error()));
        QVERIFY(!QFile::exists(house.backups() + QStringLiteral("/.unfinished")));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBackup)
#include "tst_backup.moc"
