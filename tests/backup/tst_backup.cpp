// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../storage/storagebench.h"

#include "backup/backup.h"
#include "backup/houselock.h"
#include "backup/restore.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const Moment evening{
    QDateTime(QDate(2031, 3, 8), QTime(12, 0), Qt::UTC).toMSecsSinceEpoch()}; // a Saturday

Moment evenings(int later)
{
    return {evening.ms + later * qint64{24 * 60 * 60 * 1000}};
}

HeadKeeper keeper(const QByteArray& key = "a key of the bench")
{
    HeadKeeper made = keeperWith(key);
    made.keyId = QString::fromLatin1(key);
    return made;
}

bool write(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// Turns one bit in the middle.
bool spoil(const QString& path)
{
    QByteArray bytes = bytesOf(path);
    if (bytes.isEmpty())
        return false;
    const qsizetype middle = bytes.size() / 2;
    bytes[middle] = static_cast<char>(bytes[middle] ^ 4);
    QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
    return write(path, bytes);
}

QImage picture(int seed)
{
    QImage image(64, 48, QImage::Format_RGB32);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            image.setPixel(x, y, qRgb(x * 4, y * 5, (x * y * seed) & 255));
    return image;
}

/// A workshop's folder as the program lays it out, with photos and words that are really there.
class House
{
public:
    explicit House(StoreKind kind)
        : m_database(kind)
        , m_photos(root() + QStringLiteral("/photos"))
    {
        if (!QDir().mkpath(root()))
            qFatal("no folder");
        Workbench bench;
        const CarId first = bench.appraised();
        const FindingId worn = bench.found(first, "brakes-front", Condition::Worn);
        for (int i = 0; i < 3; ++i) {
            const auto photo = m_photos.keep(picture(i + 1));
            bench.must(bench.appraiser, first,
                       car::AttachPhoto{photo.value().id,
                                        PhotoMoment::Before,
                                        {QStringLiteral("brakes-front")},
                                        {},
                                        worn});
        }
        bench.appraised();
        m_store = m_database.open(keeper());
        if (!replay(bench.ledger.accepted(), m_store->ledger()))
            qFatal("the story cannot be written");
        const QByteArray said = "the near side front tyre is down to two millimetres";
        const TranscriptId id{QString::fromLatin1(
            QCryptographicHash::hash(said, QCryptographicHash::Sha256).toHex())};
        if (!TranscriptStore(transcripts()).keep(id, said) ||
            !write(corrections(), "{\"draft\":1}\n"))
            qFatal("no words");
    }

    [[nodiscard]] QString root() const { return m_folder.filePath(QStringLiteral("house")); }
    [[nodiscard]] QString transcripts() const { return root() + QStringLiteral("/transcripts"); }
    [[nodiscard]] QString corrections() const
    {
        return root() + QStringLiteral("/corrections.jsonl");
    }
    [[nodiscard]] QString backups() const { return m_folder.filePath(QStringLiteral("stick")); }
    [[nodiscard]] SqlLedger& ledger() { return m_store->ledger(); }
    [[nodiscard]] TestDatabase& database() { return m_database; }
    [[nodiscard]] PhotoStore& photos() { return m_photos; }
    [[nodiscard]] QString inFolder(const QString& name) const { return m_folder.filePath(name); }

    [[nodiscard]] tl::expected<Backup, QString> backUp(Moment now = evening)
    {
        return makeBackup({m_database.settings(), keeper(), m_photos, transcripts(), corrections(),
                           QStringLiteral("test")},
                          backups(), now);
    }
    [[nodiscard]] std::vector<Backup> kept() const { return backupsIn(backups()).value(); }
    void takePhotoAway(const PhotoId& id) { QFile::remove(m_photos.pathOf(id)); }

private:
    QTemporaryDir m_folder;
    TestDatabase m_database;
    PhotoStore m_photos;
    std::unique_ptr<Store> m_store;
};

HouseNames names()
{
    return {QStringLiteral("workshop.sqlite"),
            QStringLiteral("site.keys"),
            QStringLiteral("photos"),
            QStringLiteral("transcripts"),
            QStringLiteral("corrections.jsonl"),
            QStringLiteral("settings.ini")};
}

/// The backup brought back into a folder beside the house.
struct Target
{
    Target(const House& house, Backup backup)
        : request{std::move(backup), house.inFolder(QStringLiteral("target")),
                  names(),           house.inFolder(QStringLiteral("key")),
                  keeper(),          evenings(1)}
    {
        if (!write(request.keyFile, "the key file"))
            qFatal("no key file");
    }
    [[nodiscard]] QString path(const QString& name) const
    {
        return request.house + QLatin1Char('/') + name;
    }
    [[nodiscard]] QStringList beside() const
    {
        return QDir(QFileInfo(request.house).absolutePath())
            .entryList({QStringLiteral("target*")}, QDir::AllEntries | QDir::Hidden, QDir::Name);
    }
    RestoreRequest request;
};

} // namespace

// Backups of a whole workshop, and the workshop brought back from them.
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

    void backup_isMadeWhileOthersWrite()
    {
        House house(StoreKind::Sqlite);
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

        Target target(house, *backup);
        const auto restored = restore(target.request);
        QVERIFY(!restored);
        QVERIFY2(restored.error().startsWith(QStringLiteral("The backup is damaged. Nothing was")),
                 qPrintable(restored.error()));
        QCOMPARE(target.beside(), QStringList());
        QVERIFY(QFile::remove(path));
        QCOMPARE(faultsOf(*backup).size(), 1);
    }

    void restored_isWholeAndTheSame_data() { addKinds(); }

    void restored_isWholeAndTheSame()
    {
        QFETCH(StoreKind, kind);
        House house(kind);
        const auto backup = house.backUp();
        QVERIFY(backup);
        Target target(house, *backup);
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->setAside, QString());
        QCOMPARE(restored->cars, 2);
        QCOMPARE(restored->photos, 3);
        QCOMPARE(target.beside(), QStringList{QStringLiteral("target")});
        QCOMPARE(bytesOf(target.path(QStringLiteral("site.keys"))), QByteArray("the key file"));
        QCOMPARE(bytesOf(target.path(QStringLiteral("corrections.jsonl"))),
                 bytesOf(house.corrections()));
        QVERIFY(TranscriptStore(target.path(QStringLiteral("transcripts")))
                    .open({backup->manifest.transcripts.front()}));
        StoreSettings settings;
        settings.file = target.path(QStringLiteral("workshop.sqlite"));
        auto opened = SqlLedger::open(settings, keeper());
        QVERIFY(opened);
        QCOMPARE(differenceBetween(house.ledger(), **opened).value(), QString());
        const PhotoStore photos(target.path(QStringLiteral("photos")));
        QCOMPARE(told(Verifier(**opened, photoCheck(photos)).run()), QString());
    }

    void whatWasThere_isSetAsideAndSettingsStay()
    {
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        Target target(house, *backup);
        QVERIFY(QDir().mkpath(target.request.house));
        QVERIFY(write(target.path(QStringLiteral("workshop.sqlite")), "torn to pieces"));
        QVERIFY(write(target.path(QStringLiteral("settings.ini")), "[screen]\nlight=true\n"));
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->setAside,
                 target.request.house + QStringLiteral(".before-20310309-120000"));
        QCOMPARE(bytesOf(restored->setAside + QStringLiteral("/workshop.sqlite")),
                 QByteArray("torn to pieces"));
        QCOMPARE(bytesOf(target.path(QStringLiteral("settings.ini"))),
                 QByteArray("[screen]\nlight=true\n"));
        QVERIFY(
            bytesOf(target.path(QStringLiteral("workshop.sqlite"))).startsWith("SQLite format 3"));
    }

    void anotherWorkshopsKey_isRefused()
    {
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        Target target(house, *backup);
        target.request.keeper = keeper("a key of next door");
        const auto restored = restore(target.request);
        QVERIFY(!restored);
        QVERIFY2(restored.error().contains(QStringLiteral("is of another workshop")),
                 qPrintable(restored.error()));
        // And one that only says that it is the right one.
        target.request.keeper.keyId = backup->manifest.keyId;
        const auto forged = restore(target.request);
        QVERIFY(!forged);
        QVERIFY2(forged.error().contains(QStringLiteral("is not whole")),
                 qPrintable(forged.error()));
        QCOMPARE(target.beside(), QStringList());
    }

    void houseInUse_isLeftAlone()
    {
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        Target target(house, *backup);
        QVERIFY(QDir().mkpath(target.request.house));
        QVERIFY(write(target.path(QStringLiteral("workshop.sqlite")), "as it was"));
        {
            const auto kiosk = HouseLock::inCommon(target.request.house);
            const auto another = HouseLock::inCommon(target.request.house);
            QVERIFY(kiosk);
            QVERIFY(another);
            const auto restored = restore(target.request);
            QVERIFY(!restored);
            QVERIFY2(
                restored.error().startsWith(QStringLiteral("A kiosk or another command is at")),
                qPrintable(restored.error()));
            QCOMPARE(bytesOf(target.path(QStringLiteral("workshop.sqlite"))),
                     QByteArray("as it was"));
            QCOMPARE(target.beside(), QStringList{QStringLiteral("target")});
        }
        const auto alone = HouseLock::alone(target.request.house);
        QVERIFY(alone);
        QVERIFY(!HouseLock::inCommon(target.request.house));
    }

    void faultsOfTheHouse_areToldAndBroughtBackAsTheyWere()
    {
        House house(StoreKind::Sqlite);
        const PhotoId lost =
            *keptPhotos(house.ledger().connection(), house.ledger().siteId())->begin();
        house.takePhotoAway(lost);
        const auto backup = house.backUp();
        QVERIFY2(backup, backup ? "" : qPrintable(backup.error()));
        QCOMPARE(backup->manifest.faults.size(), 1);
        QVERIFY2(backup->manifest.faults.front().contains(lost.text),
                 qPrintable(backup->manifest.faults.front()));
        Target target(house, *backup);
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->photos, 2);
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

QTEST_GUILESS_MAIN(TestBackup)
#include "tst_backup.moc"
