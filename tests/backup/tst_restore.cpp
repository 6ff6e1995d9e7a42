// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backedhouse.h"

#include "backup/houselock.h"
#include "backup/summedjson.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A workshop brought back from a backup.
class TestRestore : public QObject
{
    Q_OBJECT

private slots:
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

    void ruleThatAnOlderProgramDidNotKnow_isTold_andKeepsNothingBack()
    {
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        QCOMPARE(backup->manifest.faults, QStringList());
        Target target(house, *backup);
        const Catalogue newer;
        LeastCatalogue least;
        least.operations = {{QStringLiteral("tow-eye"), false, SecondPerson::None, {}, true, {}}};
        target.request.known = KnownCatalogues(newer, least);
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->cars, 2);
        QCOMPARE(restored->againstRules.size(), 2);
        for (const QString& words : restored->againstRules)
            QVERIFY2(words.contains(QStringLiteral("tow-eye")), qPrintable(words));
        // A backup that names it then has nothing new to say.
        const auto knowing = house.backUp(evenings(1), target.request.known);
        QVERIFY(knowing);
        QCOMPARE(knowing->manifest.faults.size(), 2);
        Target again(house, *knowing);
        again.request.known = target.request.known;
        const auto restoredAgain = restore(again.request);
        QVERIFY2(restoredAgain, restoredAgain ? "" : qPrintable(restoredAgain.error()));
        QCOMPARE(restoredAgain->againstRules, QStringList());
    }

    // Also where the house had it when the backup was made, and its list of faults says so.
    void schemaThatIsNotTheProgramsOwn_isRefused()
    {
        House house(StoreKind::Sqlite);
        QCOMPARE(house.database().sql("CREATE TRIGGER forgets AFTER INSERT ON pin_failure BEGIN"
                                      " DELETE FROM pin_failure; END"),
                 QString());
        const auto backup = house.backUp();
        QVERIFY(backup);
        Target target(house, *backup);
        const auto restored = restore(target.request);
        QVERIFY(!restored);
        QVERIFY2(restored.error().contains(
                     QStringLiteral("is not whole. Nothing was changed; try an older backup. "
                                    "schema: the trigger forgets of pin_failure is none of the "
                                    "program's")),
                 qPrintable(restored.error()));
        QCOMPARE(target.beside(), QStringList());
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
        QVERIFY2(forged.error().contains(QStringLiteral("seal does not fit")),
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
        QCOMPARE(restored->wasSo, backup->manifest.faults);
        QVERIFY2(restored->note.told.back().contains(lost.text),
                 qPrintable(restored->note.told.back()));
    }

    void ledgerThatWasDamagedThen_isBroughtBackAndTold_data()
    {
        QTest::addColumn<bool>("isRenewed");
        QTest::addRow("with the keys of that day") << false;
        QTest::addRow("with keys that were renewed since") << true;
    }

    void ledgerThatWasDamagedThen_isBroughtBackAndTold()
    {
        QFETCH(const bool, isRenewed);
        House house(StoreKind::Sqlite);
        QCOMPARE(house.database().forge(QStringLiteral(
                     "UPDATE ledger SET actor = 9 WHERE stream LIKE 'car/%' AND seq = 1")),
                 QString());
        const auto backup = house.backUp();
        QVERIFY2(backup, backup ? "" : qPrintable(backup.error()));
        QVERIFY(!backup->manifest.faults.isEmpty());
        Target target(house, *backup);
        if (isRenewed)
            target.request.keeper = renewedKeeper();
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->wasSo, backup->manifest.faults);
        QCOMPARE(restored->pinsGone, isRenewed);
        QVERIFY2(restored->note.told.back().contains(backup->manifest.faults.front()),
                 qPrintable(restored->note.told.back()));
    }

    // Whoever has the stick can sum up a list again, and write into it what the check will say.
    void entryThatWasPutIn_isRefused_whateverTheListSays_data()
    {
        QTest::addColumn<bool>("keepsSeal");
        QTest::addRow("without a seal, as older programs made it") << false;
        QTest::addRow("with the seal that was there") << true;
    }

    void entryThatWasPutIn_isRefused_whateverTheListSays()
    {
        QFETCH(const bool, keepsSeal);
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        BackupManifest forged = backup->manifest;
        putIn(house, backup->path, forged);
        QVERIFY(forged.faults.join(QLatin1Char('\n'))
                    .contains(QStringLiteral("its seal was not made with the site's key")));
        writeList(*backup, forged, keepsSeal);

        const auto read = backupAt(backup->path);
        QVERIFY2(read, read ? "" : qPrintable(read.error()));
        QCOMPARE(faultsOf(*read), QStringList());
        Target target(house, *read);
        const auto restored = restore(target.request);
        QVERIFY(!restored);
        QVERIFY2(restored.error().contains(keepsSeal ? QStringLiteral("was changed after")
                                                     : QStringLiteral("is not whole")),
                 qPrintable(restored.error()));
        QCOMPARE(target.beside(), QStringList());
    }

    // The list is the site's own, and excuses more than what was put in.
    void fileThatWasExchanged_isRefused_underTheSealOfADamagedHouse()
    {
        House house(StoreKind::Sqlite);
        house.takePhotoAway(
            *keptPhotos(house.ledger().connection(), house.ledger().siteId())->begin());
        const auto backup = house.backUp();
        QVERIFY(backup);
        BackupManifest forged = backup->manifest;
        putIn(house, backup->path, forged);
        Target target(house, *backup);
        const auto restored = restore(target.request);
        QVERIFY(!restored);
        QVERIFY2(restored.error().contains(QStringLiteral("ledger.sqlite is not what was written")),
                 qPrintable(restored.error()));
    }

    void listOfAnOlderProgram_bringsBackWhatIsWhole_data()
    {
        QTest::addColumn<bool>("lacksPhoto");
        QTest::addRow("whole") << false;
        QTest::addRow("a photo was missing then") << true;
    }

    void listOfAnOlderProgram_bringsBackWhatIsWhole()
    {
        QFETCH(const bool, lacksPhoto);
        House house(StoreKind::Sqlite);
        if (lacksPhoto)
            house.takePhotoAway(
                *keptPhotos(house.ledger().connection(), house.ledger().siteId())->begin());
        const auto backup = house.backUp();
        QVERIFY(backup);
        writeList(*backup, backup->manifest, false);
        const auto older = backupAt(backup->path);
        QVERIFY(older);
        QCOMPARE(sealOf(older->manifest, keeper()), ManifestSeal::None);
        Target target(house, *older);
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->wasSo.size(), lacksPhoto ? 1 : 0);
        QVERIFY(!restored->isSealed);
    }

    void newestWhole_isTheNewestThatNobodyChanged()
    {
        House house(StoreKind::Sqlite);
        const auto honest = house.backUp();
        QVERIFY(honest);
        const auto later = house.backUp(evenings(1));
        QVERIFY(later);
        QCOMPARE(newestWhole(house.backups(), keeper())->path, later->path);
        BackupManifest forged = later->manifest;
        forged.cars = 7;
        writeList(*later, forged, true);
        QCOMPARE(newestWhole(house.backups(), keeper())->path, honest->path);
        // Keys that know nothing of the site judge nothing: what they are not is told when asked.
        QCOMPARE(newestWhole(house.backups(), keeper("a key of next door"))->path, later->path);
    }

private:
    static HeadKeeper renewedKeeper()
    {
        HeadKeeper renewed = keeper("the key that came after");
        renewed.past.push_back({keeper().keyId, keeper().digest});
        return renewed;
    }

    /// An entry of somebody who has no key into a backup's ledger; sums and faults as they then
    /// are.
    static void putIn(House& house, const QString& path, BackupManifest& list)
    {
        StoreSettings file;
        file.file = path + QStringLiteral("/ledger.sqlite");
        HeadKeeper pretended = keeper("a key of the forger's");
        pretended.keyId = keeper().keyId;
        {
            auto opened = SqlLedger::open(file, pretended);
            QVERIFY(opened);
            // As by a program of the forger's, which asks for no seal of what it builds on.
            (*opened)->setCopy();
            Hand hand(**opened);
            hand.now = evenings(1);
            QVERIFY((*opened)->append(
                hand.with(CarId{QStringLiteral("forged")}, {Hand::arrival("K-66")})));
        }
        {
            auto opened = SqlLedger::open(file, keeper());
            QVERIFY(opened);
            for (const LedgerFault& fault :
                 Verifier(**opened, photoCheck(house.photos())).run().faults)
                if (!list.faults.contains(fault.told()))
                    list.faults.append(fault.told());
        }
        for (BackupFile& listed : list.files) {
            const QByteArray bytes = bytesOf(path + QLatin1Char('/') + listed.name);
            listed.bytes = bytes.size();
            listed.sha256 = QString::fromLatin1(
                QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex());
        }
    }

    /// Summed up as it should be; the seal is the one that was there, or none.
    static void writeList(const Backup& backup, const BackupManifest& list, bool keepsSeal)
    {
        QJsonObject object = toJson(list);
        if (!keepsSeal)
            object.remove(QStringLiteral("seal"));
        QVERIFY(write(backup.path + QStringLiteral("/manifest.json"), summed(object)));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRestore)
#include "tst_restore.moc"
