// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backedhouse.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

HeadKeeper nextDoor()
{
    return keeper("a key of next door");
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
};

RAMPLIGHT_TEST(QCoreApplication, TestBackupFolder)
#include "tst_backupfolder.moc"
