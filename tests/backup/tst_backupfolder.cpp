// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backedhouse.h"

#include "storage/backupnoted.h"
#include "support/testmain.h"

#include <QSysInfo>
#include <QTest>

#include <optional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

HeadKeeper nextDoor()
{
    return keeper("a key of next door");
}

/// Photos in a database that is away from the second one on.
class AwayVault : public PhotoVault
{
public:
    explicit AwayVault(PhotoVault& photos)
        : m_photos(photos)
    {
    }
    tl::expected<StoredPhoto, EvidenceError> keep(const QImage& image) override
    {
        return m_photos.keep(image);
    }
    [[nodiscard]] tl::expected<QByteArray, EvidenceError> open(const PhotoId& id) const override
    {
        if (isAway && ++m_opened > 1)
            return tl::unexpected(EvidenceError::DatabaseAway);
        return m_photos.open(id);
    }
    [[nodiscard]] tl::expected<QByteArray, EvidenceError>
    thumbnail(const PhotoId& id, ThumbnailSize size) const override
    {
        return m_photos.thumbnail(id, size);
    }
    [[nodiscard]] tl::expected<VaultReport, EvidenceError>
    verify(const std::set<PhotoId>& known) const override
    {
        return m_photos.verify(known);
    }

    bool isAway = true;

private:
    PhotoVault& m_photos;
    mutable int m_opened = 0;
};

QStringList entriesOf(const QString& folder)
{
    return QDir(folder).entryList(QDir::Dirs | QDir::Hidden | QDir::NoDotAndDotDot, QDir::Name);
}

} // namespace

// What the backups in one folder are to each other.
class TestBackupFolder : public QObject
{
    Q_OBJECT

private slots:
    void twoSitesInOneFolder_removeOnlyTheirOwn()
    {
        House house(StoreKind::Sqlite);
        House neighbour(StoreKind::Sqlite, nextDoor());
        const QString folder = house.backups();
        for (int day = 0; day < 3; ++day) {
            const auto theirs = makeBackup(neighbour.source(), folder, evenings(day));
            QVERIFY2(theirs, theirs ? "" : qPrintable(theirs.error()));
            const auto ours = makeBackup(house.source(), folder, evenings(day).plusMinutes(1));
            QVERIFY2(ours, ours ? "" : qPrintable(ours.error()));
        }
        // Of one day the last stays, for each of them.
        QVERIFY(makeBackup(house.source(), folder, evenings(2).plusMinutes(2)));
        QStringList left;
        for (const Backup& backup : house.kept()) {
            QCOMPARE(faultsOf(backup), QStringList());
            left.prepend(QFileInfo(backup.path).fileName());
        }
        left.sort();
        QCOMPARE(left, (QStringList{"20310308-120000", "20310308-120100", "20310309-120000",
                                    "20310309-120100", "20310310-120000", "20310310-120200"}));
    }

    void newestWhole_isOfTheSiteWhoseKeysAsk()
    {
        House house(StoreKind::Sqlite);
        House neighbour(StoreKind::Sqlite, nextDoor());
        const QString folder = house.backups();
        const auto ours = makeBackup(house.source(), folder, evening);
        QVERIFY(ours);
        const auto theirs = makeBackup(neighbour.source(), folder, evenings(1));
        QVERIFY(theirs);
        QCOMPARE(newestWhole(folder, keeper())->path, ours->path);
        QCOMPARE(newestWhole(folder, nextDoor())->path, theirs->path);
        HeadKeeper renewed = keeper("the key that came after");
        renewed.past.push_back({keeper().keyId, keeper().digest});
        QCOMPARE(newestWhole(folder, renewed)->path, ours->path);
        // Another site's is none in the place of it.
        QVERIFY(spoil(ours->path + QStringLiteral("/ledger.sqlite")));
        QVERIFY(!newestWhole(folder, keeper()));
    }

    void latestMade_isTheNewest_whateverTheClockSaid()
    {
        House house(StoreKind::Sqlite);
        const auto mistyped = house.backUp(evenings(365));
        QVERIFY(mistyped);
        const auto first = house.backUp(evenings(1));
        QVERIFY(first);
        QCOMPARE(newestWhole(house.backups(), keeper())->path, first->path);
        QCOMPARE(house.kept().front().path, first->path);
        // And the newest of which the check found nothing, which stays.
        const PhotoId lost = first->manifest.photos.front();
        house.takePhotoAway(lost);
        QVERIFY(
            QFile::remove(PhotoStore(house.backups() + QStringLiteral("/photos")).pathOf(lost)));
        for (int day = 2; day < 15; ++day)
            QVERIFY(!house.backUp(evenings(day)).value().manifest.faults.isEmpty());
        QVERIFY(QFile::exists(first->path));
    }

    void theOneJustMade_stays_howeverFarTheClockIsBehind()
    {
        House house(StoreKind::Sqlite);
        const KeepCounts few{2, 0, 0};
        const auto backUp = [&](int day) {
            const auto made = makeBackup(house.source(), house.backups(), evenings(day), few);
            return made ? QFileInfo(made->path).fileName().left(8) : made.error();
        };
        const auto left = [&] {
            QStringList names;
            for (const Backup& backup : house.kept())
                names.append(QFileInfo(backup.path).fileName().left(8));
            return names;
        };
        QCOMPARE(backUp(0), QStringLiteral("20310308"));
        QCOMPARE(backUp(1), QStringLiteral("20310309"));
        QCOMPARE(backUp(-400), QStringLiteral("20300201"));
        QCOMPARE(left(), (QStringList{"20300201", "20310309"}));
        QCOMPARE(backUp(-399), QStringLiteral("20300202"));
        QCOMPARE(left(), (QStringList{"20300202", "20300201"}));
    }

    void afterGoingBack_whatIsMadeThenIsTheNewest()
    {
        House house(StoreKind::Sqlite);
        const auto early = house.backUp();
        QVERIFY(early);
        house.bench.appraised();
        house.writeOn();
        const auto leftBehind = house.backUp(evenings(1));
        QVERIFY(leftBehind);
        QVERIFY(leftBehind->manifest.head.seq > early->manifest.head.seq);
        Target target(house, *early);
        QVERIFY(restore(target.request));
        BackupSource source = house.source();
        source.store.kind = StoreKind::Sqlite;
        source.store.file = target.path(QStringLiteral("workshop.sqlite"));
        const auto goneOn = makeBackup(source, house.backups(), evenings(2));
        QVERIFY2(goneOn, goneOn ? "" : qPrintable(goneOn.error()));
        QVERIFY(goneOn->manifest.head.seq < leftBehind->manifest.head.seq);
        QCOMPARE(newestWhole(house.backups(), keeper())->path, goneOn->path);
    }

    void listsWithoutANumber_goByTheLedger_andComeBeforeThoseWithOne()
    {
        House house(StoreKind::Sqlite);
        const auto mistyped = house.backUp(evenings(365));
        QVERIFY(mistyped);
        house.bench.appraised();
        house.writeOn();
        const auto real = house.backUp(evenings(1));
        QVERIFY(real);
        for (const Backup& backup : house.kept()) {
            BackupManifest older = backup.manifest;
            older.number = 0;
            QVERIFY(write(backup.path + QStringLiteral("/manifest.json"), toFile(older, keeper())));
        }
        QCOMPARE(newestWhole(house.backups(), keeper())->path, real->path);
        const auto now = house.backUp(evenings(-1));
        QVERIFY(now);
        QCOMPARE(newestWhole(house.backups(), keeper())->path, now->path);
    }

    void noteOfAWrongClock_isReplacedByTheNextBackup()
    {
        House house(StoreKind::Sqlite);
        const SiteBackup mistyped{evenings(365), QStringLiteral("wall-1")};
        const SiteBackup real{evenings(1), QStringLiteral("wall-2")};
        QVERIFY(noteBackup(house.store(), mistyped));
        QVERIFY(noteBackup(house.store(), real));
        QCOMPARE(notedBackup(house.store()).value(), real);
        // One that was begun before, and took longer, is no later word.
        QVERIFY(noteBackup(house.store(), {real.goodAt.plusMinutes(-10), mistyped.kiosk}));
        QCOMPARE(notedBackup(house.store()).value(), real);
    }

    void photosThatCannotBeAskedFor_costTheTry_andComeWithTheNext()
    {
        House house(StoreKind::Sqlite);
        AwayVault photos(house.photos());
        const BackupSource source{
            house.database().settings(), keeper(), photos, house.transcripts(), house.corrections(),
            QStringLiteral("test")};
        const QString path = house.inFolder(QStringLiteral("backup.json"));
        const BackupNote inVain = backUpAndNote(source, house.backups(), path, evening);
        QCOMPARE(inVain.words, words(EvidenceError::DatabaseAway));
        QVERIFY(inVain.goodAt.isNull());
        QCOMPARE(entriesOf(house.backups()), (QStringList{"photos", "transcripts"}));
        const Moment next = evening.plusMinutes(tryAgainAfterMinutes);
        QVERIFY(isDue(readNote(path), true, QTime(11, 0),
                      QDateTime::fromMSecsSinceEpoch(next.ms, Qt::UTC)));
        photos.isAway = false;
        const BackupNote made = backUpAndNote(source, house.backups(), path, next);
        QCOMPARE(made.words, QString());
        QCOMPARE(made.faults, QString());
        QCOMPARE(faultsOf(house.kept().front()), QStringList());
    }

    void lockThatAnotherProgramLeft_keepsNobodyOut_data()
    {
        QTest::addColumn<QByteArray>("left");
        QTest::addRow("nothing in it") << QByteArray();
        QTest::addRow("of another machine") << QByteArray("4711\nramplight\nwall-2\n");
        QTest::addRow("of this very process, before the stick was pulled out")
            << QByteArray::number(QCoreApplication::applicationPid()) + "\n" +
                   QFileInfo(QCoreApplication::applicationFilePath()).fileName().toUtf8() + "\n" +
                   QSysInfo::machineHostName().toUtf8() + "\n";
    }

    void lockThatAnotherProgramLeft_keepsNobodyOut()
    {
        QFETCH(QByteArray, left);
        House house(StoreKind::Sqlite);
        QVERIFY(QDir().mkpath(house.backups()));
        for (const char* name : {".lock", ".in-use"})
            QVERIFY(write(house.backups() + QLatin1Char('/') + QLatin1String(name), left));
        const auto made = house.backUp();
        QVERIFY2(made, made ? "" : qPrintable(made.error()));
    }

    void twoAtOnce_areNotMade()
    {
        House house(StoreKind::Sqlite);
        House neighbour(StoreKind::Sqlite, nextDoor());
        std::optional<tl::expected<Backup, QString>> meanwhile;
        BackupSource source = house.source();
        source.known = [&] {
            meanwhile = makeBackup(neighbour.source(), house.backups(), evenings(1));
            return KnownCatalogues();
        };
        const auto made = makeBackup(source, house.backups(), evening);
        QVERIFY2(made, made ? "" : qPrintable(made.error()));
        QVERIFY(meanwhile && !*meanwhile);
        QVERIFY2(meanwhile->error().startsWith(QStringLiteral("Another backup into")),
                 qPrintable(meanwhile->error()));
        QVERIFY(makeBackup(neighbour.source(), house.backups(), evenings(1)));
    }

    // Whoever prepared the stick wants what is written and removed there to be the house's.
    void linkInTheFolder_leadsNowhere_data()
    {
        QTest::addColumn<QString>("name");
        QTest::addColumn<bool>("isMade");
        // What an earlier one left unfinished goes in any case.
        QTest::newRow("unfinished") << "/.unfinished" << true;
        QTest::newRow("photos") << "/photos" << false;
        QTest::newRow("words") << "/transcripts" << false;
        QTest::newRow("an older backup") << "/20010101-000000" << true;
        QTest::newRow("the lock") << "/.in-use" << false;
        QTest::newRow("all of it") << "" << false;
    }

    void linkInTheFolder_leadsNowhere()
    {
        QFETCH(QString, name);
        QFETCH(bool, isMade);
        House house(StoreKind::Sqlite);
        const auto earlier = house.backUp(evenings(-1));
        QVERIFY(earlier);
        // Looks like the house's, and like a backup of it that is too old to be kept.
        const QString mine = house.inFolder(QStringLiteral("mine"));
        QVERIFY(QDir().mkpath(mine + QStringLiteral("/ab")));
        const QStringList files{mine + QStringLiteral("/ab/cd.jpg"),
                                mine + QStringLiteral("/e.txt"),
                                mine + QStringLiteral("/manifest.json")};
        QVERIFY(write(files.at(0), "a picture") && write(files.at(1), "words"));
        QVERIFY(QFile::copy(earlier->path + QStringLiteral("/manifest.json"), files.at(2)));
        const QString link = house.backups() + name;
        if (QFileInfo(link).isDir())
            QVERIFY(QDir(link).removeRecursively());
        QFile::remove(link);
        QVERIFY(QFile::link(name == "/.in-use" ? mine + QStringLiteral("/made.txt") : mine, link));
        const auto made = makeBackup(house.source(), house.backups(), evening, {1, 0, 0});
        QVERIFY2(made.has_value() == isMade, made ? "it was made" : qPrintable(made.error()));
        if (!made)
            QVERIFY2(made.error().contains(QStringLiteral("is a link to somewhere else")),
                     qPrintable(made.error()));
        removeUnnamed(house.backups());
        QCOMPARE(QDir(mine).entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot,
                                      QDir::Name),
                 (QStringList{"ab", "e.txt", "manifest.json"}));
        for (const QString& file : files)
            QVERIFY(QFile::exists(file));
    }

    void folderThatCannotBeLocked_isNoOtherBackup()
    {
        House house(StoreKind::Sqlite);
        QVERIFY(QDir().mkpath(house.backups() + QStringLiteral("/.in-use")));
        const auto made = house.backUp();
        QVERIFY(!made);
        QVERIFY2(made.error().startsWith(house.backups() +
                                         QStringLiteral("/.in-use cannot be written.")),
                 qPrintable(made.error()));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBackupFolder)
#include "tst_backupfolder.moc"
