// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "cli/house.h"
#include "cli/program.h"
#include "flipbench.h"

#include "evidence/photostore.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// One bit turns on the disk. Whatever it hits is found by the check of the workshop, or the
// workshop cannot be opened, or nothing that is kept has changed.
class TestFlippedBits : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QCOMPARE(makeDemo(m_folder.path()), QString());
        const Ran rebuilt = runProgram(m_folder.path(), {"rebuild"}); // nothing is left in the WAL
        QVERIFY2(rebuilt.code == 0, qPrintable(rebuilt.err));
        m_paths.emplace(m_folder.path());
        m_database = bytesOf(m_paths->database());
        m_content = contentOf(m_paths->database());
        QVERIFY(!m_content.isEmpty());
        QCOMPARE(check(), QString());
    }

    void bitOfTheDatabase_isFoundOrChangesNothing_data()
    {
        QTest::addColumn<qint64>("bit");
        QRandomGenerator random = toldRandom();
        for (int round = 0; round < m_rounds; ++round) {
            const qint64 bit = random.bounded(m_database.size() * 8);
            QTest::addRow("bit %lld", static_cast<long long>(bit)) << bit;
        }
    }

    void bitOfTheDatabase_isFoundOrChangesNothing()
    {
        QFETCH(qint64, bit);
        const QByteArray bytes = withBitTurned(m_database, bit);
        QVERIFY(putDatabase(m_paths->database(), bytes));
        const QString found = check();
        QVERIFY(putDatabase(m_paths->database(), bytes));
        if (found.isEmpty())
            QCOMPARE(firstDifference(m_content, contentOf(m_paths->database())), QString());
        QVERIFY(putDatabase(m_paths->database(), m_database));
    }

    void bitOfAFile_isFound_data()
    {
        QTest::addColumn<QString>("path");
        QTest::addColumn<qint64>("bit");
        QRandomGenerator random = toldRandom();
        QStringList photos;
        QDirIterator all(m_paths->photos(), {QStringLiteral("*.jpg")}, QDir::Files,
                         QDirIterator::Subdirectories);
        while (all.hasNext())
            if (const QString path = all.next();
                !path.contains(QStringLiteral(".160.")) && !path.contains(QStringLiteral(".640.")))
                photos.append(path);
        photos.sort();
        QVERIFY(!photos.isEmpty());
        for (int round = 0; round < m_rounds / 10; ++round) {
            for (const QString& path :
                 {photos.at(random.bounded(photos.size())), m_paths->keys()}) {
                const qint64 bit = random.bounded(QFileInfo(path).size() * 8);
                QTest::addRow("%s, bit %lld", qPrintable(QFileInfo(path).fileName()),
                              static_cast<long long>(bit))
                    << path << bit;
            }
        }
    }

    void bitOfAFile_isFound()
    {
        QFETCH(QString, path);
        QFETCH(qint64, bit);
        const QByteArray whole = bytesOf(path);
        const QByteArray bytes = withBitTurned(whole, bit);
        const QFile::Permissions permissions = QFile::permissions(path);
        QVERIFY(QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner));
        QVERIFY(write(path, bytes));
        const QString found = check();
        QVERIFY(write(path, whole));
        QVERIFY(QFile::setPermissions(path, permissions));
        QVERIFY(!found.isEmpty());
    }

    // The file that people write by hand has no seal. But a letter that is wrong in it never makes
    // a kiosk of a server's workshop begin one of its own.
    void bitOfTheSettings_beginsNoOtherWorkshop()
    {
        const QByteArray whole = "[screen]\ndiagonalInches=32\nlight=true\n\n"
                                 "[storage]\nkind=postgresql\nphotos=database\n"
                                 "server=\"host=wall-1 dbname=ramplight user=kiosk\"\n"
                                 "site=6f1b2c04-93d1-4a7e-8b55-0c2f1e9d7a10\n";
        const QTemporaryDir folder;
        int refused = 0;
        for (qint64 bit = 0; bit < whole.size() * 8; ++bit) {
            const QByteArray bytes = withBitTurned(whole, bit);
            // A folder each: what was read is remembered for a while.
            const HousePaths paths(folder.filePath(QString::number(bit)));
            QVERIFY(QDir().mkpath(paths.root()));
            QVERIFY(write(paths.settings(), bytes));
            const auto settings = HouseSettings::read(paths);
            if (settings)
                QVERIFY2(settings->store.kind == StoreKind::PostgreSql, bytes.constData());
            else
                ++refused;
        }
        QVERIFY(refused > 100);
    }

private:
    /// What is wrong with the workshop in the folder: the check's first fault, or why it does not
    /// open. Empty: all is whole.
    [[nodiscard]] QString check() const
    {
        auto keys = SiteKeyFile(m_paths->keys()).read();
        if (!keys)
            return words(keys.error());
        StoreSettings settings;
        settings.file = m_paths->database();
        auto ledger = SqlLedger::open(
            settings, headKeeper(*m_paths, std::make_shared<const SiteKeys>(std::move(*keys))));
        if (!ledger)
            return ledger.error().words;
        const PhotoStore photos(m_paths->photos());
        const VerifyReport report = Verifier(**ledger, photoCheck(photos)).run();
        return report.isWhole() ? QString() : report.faults.front().told();
    }

    QTemporaryDir m_folder;
    std::optional<HousePaths> m_paths;
    QByteArray m_database;
    Content m_content;
    const int m_rounds = amount("ROUNDS", 20);
};

RAMPLIGHT_TEST(QCoreApplication, TestFlippedBits)
#include "tst_flippedbits.moc"
