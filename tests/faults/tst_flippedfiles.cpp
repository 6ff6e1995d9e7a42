// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../evidence/samples.h"
#include "amount.h"
#include "flipbench.h"

#include "appraisal/corrections.h"
#include "backup/backupnote.h"
#include "backup/keycopynote.h"
#include "cli/house.h"
#include "cli/program.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QCryptographicHash>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

// One bit turns in a file that lies beside the database. Photos, key file and settings are in
// tst_flippedbits; where somebody was at the wall is in tst_recoveryscreen.
class TestFlippedFiles : public QObject
{
    Q_OBJECT

private slots:
    // What is looked at first, on the wall and beside the work.
    void bitOfAThumbnail_isFound_andItIsMadeAnew()
    {
        const QTemporaryDir folder;
        PhotoStore photos(folder.filePath(QStringLiteral("photos")));
        const PhotoId id = photos.keep(samples::panel({640, 480}, 3)).value().id;
        const QString path =
            FolderShelf(folder.filePath(QStringLiteral("photos"))).pathOf(id, PhotoForm::Card);
        const QByteArray whole = bytesOf(path);
        const QByteArray shown = photos.thumbnail(id, ThumbnailSize::Card).value();
        QVERIFY(QFile::remove(path));
        const QByteArray anew = photos.thumbnail(id, ThumbnailSize::Card).value();
        QRandomGenerator random = toldRandom();
        int found = 0;
        for (int round = 0; round < m_rounds; ++round) {
            QVERIFY(write(path, withBitTurned(whole, random.bounded(whole.size() * 8))));
            const QByteArray now = photos.thumbnail(id, ThumbnailSize::Card).value();
            QVERIFY(now == anew || now.startsWith(shown));
            found += now == anew ? 1 : 0;
        }
        QVERIFY(found > m_rounds / 2);
    }

    void bitOfAWalkRoundsWords_isFound_whenTheyAreReadAndByTheCheck()
    {
        const QTemporaryDir home;
        QCOMPARE(makeDemo(home.path()), QString());
        const TranscriptStore words(HousePaths(home.path()).transcripts());
        const QByteArray said("The near side front tyre is cut to the cord.\n");
        const TranscriptId id{QString::fromLatin1(
            QCryptographicHash::hash(said, QCryptographicHash::Sha256).toHex())};
        QVERIFY(words.keep(id, said));
        const Ran before = runProgram(home.path(), {"verify"});
        QVERIFY2(before.code == 0, qPrintable(before.out));
        const QString path =
            HousePaths(home.path()).transcripts() + QLatin1Char('/') + id.text + ".txt";
        QVERIFY(QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner));
        for (qint64 bit = 0; bit < said.size() * 8; ++bit) {
            QVERIFY(write(path, withBitTurned(said, bit)));
            QVERIFY(!words.open(id));
        }
        const Ran after = runProgram(home.path(), {"verify"});
        QVERIFY(after.code != 0);
        QVERIFY2(after.out.contains(QStringLiteral("transcript ") + id.text),
                 qPrintable(after.out));
    }

    // Nothing in the workshop is decided by them; they are for whoever looks after the reader.
    void bitOfTheReviewersCorrections_costsItsLineOnly()
    {
        QByteArray whole;
        std::vector<Correction> all;
        for (const char* words :
             {"a dent in the door", "kerbed all round", "chips on the bonnet"}) {
            Correction one;
            one.name = QStringLiteral("walk-round.vtt");
            one.language = QStringLiteral("en");
            one.words = QString::fromLatin1(words);
            one.drafted.place = PlaceId{"bonnet"};
            all.push_back(one);
            whole += correctionLine(one);
        }
        QCOMPARE(readCorrections(whole).size(), all.size());
        for (qint64 bit = 0; bit < whole.size() * 8; ++bit) {
            const auto read = readCorrections(withBitTurned(whole, bit));
            const auto intact = std::ranges::count_if(all, [&](const Correction& one) {
                return std::ranges::find(read, one) != read.end();
            });
            // The end of a line is part of two.
            QVERIFY(intact >= 1);
            QVERIFY(read.size() <= all.size());
        }
    }

    // A backup that is "good" for ever is one that nobody misses.
    void bitOfTheBackupsNote_isFound_andThenABackupIsMade()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(QStringLiteral("backup.json"));
        const BackupNote note{{1'930'000'000'000},
                              {1'929'900'000'000},
                              QStringLiteral("/media/stick/20310227-203000"),
                              QStringLiteral("The stick is full."),
                              {}};
        QVERIFY(keepNote(path, note));
        const QByteArray whole = bytesOf(path);
        for (qint64 bit = 0; bit < whole.size() * 8; ++bit) {
            QVERIFY(write(path, withBitTurned(whole, bit)));
            const BackupNote read = readNote(path);
            QVERIFY2(read == note || read == BackupNote(), qPrintable(QString::number(bit)));
        }
        QVERIFY(isDue(BackupNote(), true, QTime(20, 30),
                      QDateTime::fromMSecsSinceEpoch(1'930'000'000'000)));
    }

    void bitOfTheKeyCopysNote_isFound_andThenNoneIsKnownOf()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(QStringLiteral("keycopy.json"));
        const KeyCopyNote note{QStringLiteral("0011223344556677"), {1'930'000'000'000}};
        QVERIFY(noteKeyCopy(path, note));
        const QByteArray whole = bytesOf(path);
        for (qint64 bit = 0; bit < whole.size() * 8; ++bit) {
            QVERIFY(write(path, withBitTurned(whole, bit)));
            const Moment at = keyCopiedAt(path, note.keyId);
            QVERIFY2(at.isNull() || at == note.at, qPrintable(QString::number(bit)));
        }
    }

private:
    const int m_rounds = amount("ROUNDS", 200);
};

RAMPLIGHT_TEST(QCoreApplication, TestFlippedFiles)
#include "tst_flippedfiles.moc"
