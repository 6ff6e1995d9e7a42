// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backedhouse.h"

#include "backup/houselock.h"
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
};

RAMPLIGHT_TEST(QCoreApplication, TestRestore)
#include "tst_restore.moc"
