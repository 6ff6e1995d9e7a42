// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backedhouse.h"

#include "storage/verifier.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

QString sharedPhoto(const House& house, const PhotoId& id)
{
    return PhotoStore(house.backups() + QStringLiteral("/photos")).pathOf(id);
}

QString sharedWords(const House& house, const Backup& backup)
{
    return QStringLiteral("%1/transcripts/%2.txt")
        .arg(house.backups(), backup.manifest.transcripts.front());
}

/// The house's own file under a target's name for it, and a damaged database.
bool lend(const Target& target, const QString& file, const QString& name)
{
    return QDir().mkpath(QFileInfo(target.path(name)).absolutePath()) &&
           QFile::copy(file, target.path(name)) &&
           write(target.path(QStringLiteral("workshop.sqlite")), "torn to pieces");
}

QString told(const Restored& restored)
{
    const auto& told = restored.note.told;
    return QStringList(told.begin(), told.end()).join(QLatin1Char('\n'));
}

} // namespace

// Photos and words lie once for all backups of a folder: one that does not read any more is one
// that is missing, and no reason to do without the ledger of weeks.
class TestSharedEvidence : public QObject
{
    Q_OBJECT

private slots:
    void photoThatRots_keepsNoBackupFromComingBack()
    {
        House house(StoreKind::Sqlite);
        for (int day = 0; day < 3; ++day)
            QVERIFY(house.backUp(evenings(day)));
        const Backup last = house.kept().front();
        QVERIFY(spoil(sharedPhoto(house, last.manifest.photos.front())));
        const auto newest = newestWhole(house.backups(), keeper());
        QVERIFY2(newest, newest ? "" : qPrintable(newest.error()));
        QCOMPARE(newest->path, last.path);
        Target target(house, *newest);
        target.request.names.restoreNote = QStringLiteral("restored.json");
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->photos, 2);
        QCOMPARE(restored->lacking, (Lacking{1, 0}));
        QVERIFY2(told(*restored).contains("neither the backup nor the workshop's folder has them "
                                          "whole: 1."),
                 qPrintable(told(*restored)));
        QCOMPARE(readRestoreNote(target.path(target.request.names.restoreNote)), restored->note);
    }

    void ledgerThatRots_isPassedByForAnOlderOne()
    {
        House house(StoreKind::Sqlite);
        const auto older = house.backUp();
        const auto newer = house.backUp(evenings(1));
        QVERIFY(older && newer);
        QVERIFY(spoil(newer->path + QStringLiteral("/ledger.sqlite")));
        QCOMPARE(newestWhole(house.backups(), keeper())->path, older->path);
    }

    void photoThatRots_isTakenFromTheHouse()
    {
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        const PhotoId id = backup->manifest.photos.front();
        QVERIFY(spoil(sharedPhoto(house, id)));
        QCOMPARE(lackingIn(*backup, house.photos(), house.transcripts()), Lacking());
        Target target(house, *backup);
        const QString own = PhotoStore(QStringLiteral("photos")).pathOf(id);
        QVERIFY(lend(target, house.photos().pathOf(id), own));
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->photos, 3);
        QCOMPARE(restored->lacking, Lacking());
        QVERIFY(PhotoStore(target.path(QStringLiteral("photos"))).open(id));
    }

    // Its bytes are compared there, too.
    void photoThatIsDamagedInBoth_isMissing()
    {
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        const PhotoId id = backup->manifest.photos.front();
        QVERIFY(spoil(sharedPhoto(house, id)) && spoil(house.photos().pathOf(id)));
        QCOMPARE(lackingIn(*backup, house.photos(), house.transcripts()), (Lacking{1, 0}));
        Target target(house, *backup);
        const QString own = PhotoStore(QStringLiteral("photos")).pathOf(id);
        QVERIFY(lend(target, house.photos().pathOf(id), own));
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->lacking, (Lacking{1, 0}));
        QVERIFY(!QFile::exists(target.path(own)));
    }

    void wordsThatRot_areTakenFromTheHouse_orTold_data()
    {
        QTest::addColumn<bool>("houseHasThem");
        QTest::addRow("the house has them") << true;
        QTest::addRow("nobody has them") << false;
    }

    void wordsThatRot_areTakenFromTheHouse_orTold()
    {
        QFETCH(const bool, houseHasThem);
        House house(StoreKind::Sqlite);
        const auto backup = house.backUp();
        QVERIFY(backup);
        const TranscriptId id{backup->manifest.transcripts.front()};
        QVERIFY(spoil(sharedWords(house, *backup)));
        Target target(house, *backup);
        const QString name = QStringLiteral("transcripts/%1.txt").arg(id.text);
        if (houseHasThem)
            QVERIFY(
                lend(target, house.transcripts() + QStringLiteral("/%1.txt").arg(id.text), name));
        QCOMPARE(newestWhole(house.backups(), keeper())->path, backup->path);
        const QString words = target.path(QStringLiteral("transcripts"));
        const Lacking lacking{0, houseHasThem ? 0 : 1};
        QCOMPARE(lackingIn(*backup, house.photos(), words), lacking);
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->lacking, lacking);
        QCOMPARE(TranscriptStore(words).open(id).has_value(), houseHasThem);
        QCOMPARE(told(*restored).contains("Walk-rounds whose words did not come back"),
                 !houseHasThem);
    }

    void photoThatWasMissingThen_isNotCountedAgain()
    {
        House house(StoreKind::Sqlite);
        house.takePhotoAway(
            *keptPhotos(house.ledger().connection(), house.ledger().siteId())->begin());
        const auto backup = house.backUp();
        QVERIFY(backup);
        QCOMPARE(backup->manifest.faults.size(), 1);
        QCOMPARE(lackingIn(*backup, house.photos(), house.transcripts()), Lacking());
        Target target(house, *backup);
        const auto restored = restore(target.request);
        QVERIFY2(restored, restored ? "" : qPrintable(restored.error()));
        QCOMPARE(restored->lacking, Lacking());
        QCOMPARE(restored->wasSo.size(), 1);
    }

    // Its day to be read comes once a week; from then on it is told each day until it is mended.
    void photoThatRotsInTheFolderAndIsGoneInTheHouse_isTold()
    {
        House house(StoreKind::Sqlite);
        const auto first = house.backUp();
        QVERIFY(first);
        const PhotoId id = first->manifest.photos.front();
        const QByteArray whole = bytesOf(house.photos().pathOf(id));
        QVERIFY(spoil(sharedPhoto(house, id)));
        house.takePhotoAway(id);
        int since = 0;
        for (int day = 1; day <= 14; ++day) {
            const auto backup = house.backUp(evenings(day));
            QVERIFY(backup);
            const QString faults = backup->manifest.faults.join(QLatin1Char('\n'));
            if (faults.contains("photo " + id.text + ": its bytes cannot be read"))
                ++since;
            else
                QCOMPARE(since, 0);
        }
        QVERIFY2(since >= 8, qPrintable(QString::number(since)));
        // Somebody finds it on another disk.
        QVERIFY(write(house.photos().pathOf(id), whole));
        QCOMPARE(house.backUp(evenings(15)).value().manifest.faults, QStringList());
        QVERIFY(PhotoStore(house.backups() + QStringLiteral("/photos")).open(id));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSharedEvidence)
#include "tst_sharedevidence.moc"
