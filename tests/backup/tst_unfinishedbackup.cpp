// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../storage/storagebench.h"

#include "backup/backup.h"
#include "backup/backupnote.h"
#include "evidence/photostore.h"
#include "support/testmain.h"

#include <QTemporaryDir>
#include <QTest>

#include <optional>

using namespace ramplight;
using namespace ramplight::test;

// A backup that never comes to its end, as when the power goes meanwhile.
class TestUnfinishedBackup : public QObject
{
    Q_OBJECT

private slots:
    void whatWasBegun_standsInTheNote()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(QStringLiteral("backup.json"));
        const TestDatabase database(StoreKind::Sqlite);
        Workbench bench;
        bench.appraised();
        QVERIFY(replay(bench.ledger.accepted(), database.open()->ledger()));
        // What is noted while the copy is looked through.
        std::optional<BackupNote> meanwhile;
        HeadKeeper keeper = keeperWith();
        keeper.digest = [&meanwhile, path, digest = keeper.digest](const QByteArray& bytes) {
            meanwhile = readNote(path);
            return digest(bytes);
        };
        const PhotoStore photos(folder.filePath(QStringLiteral("photos")));
        const auto backUp = [&](const char* to, Moment now) {
            return backUpAndNote({database.settings(), keeper, photos,
                                  folder.filePath(QStringLiteral("transcripts")),
                                  folder.filePath(QStringLiteral("corrections.jsonl")),
                                  QStringLiteral("test")},
                                 folder.filePath(QString::fromLatin1(to)), path, now);
        };
        const Moment first = bench.clock.now();
        const Moment second = first.plusMinutes(60);
        QVERIFY(!backUp("no/such/place", first).words.isEmpty());
        meanwhile.reset();
        const BackupNote made = backUp("stick", second);
        QVERIFY(meanwhile);
        QCOMPARE(meanwhile->triedAt, second);
        QCOMPARE(meanwhile->since, first);
        QVERIFY(meanwhile->goodAt.isNull());
        QVERIFY(!meanwhile->words.isEmpty()); // the last that came to its end did so in vain
        QCOMPARE(healthOf(*meanwhile, true, second), BackupHealth::Failed);
        QCOMPARE(made.words, QString());
        QCOMPARE(made.goodAt, second);
        QVERIFY(made.since.isNull());
        QCOMPARE(readNote(path), made);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestUnfinishedBackup)
#include "tst_unfinishedbackup.moc"
