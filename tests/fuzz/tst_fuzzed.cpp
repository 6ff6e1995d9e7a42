// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include <QDir>
#include <QFile>
#include <QRandomGenerator>
#include <QTest>

#include <array>
#include <vector>

using Harness = int (*)(const std::uint8_t*, std::size_t);
extern "C" int fuzz_appraisal(const std::uint8_t* data, std::size_t size);
extern "C" int fuzz_catalogue(const std::uint8_t* data, std::size_t size);
extern "C" int fuzz_form(const std::uint8_t* data, std::size_t size);
extern "C" int fuzz_photo(const std::uint8_t* data, std::size_t size);
extern "C" int fuzz_request(const std::uint8_t* data, std::size_t size);
extern "C" int fuzz_scan(const std::uint8_t* data, std::size_t size);
extern "C" int fuzz_transcript(const std::uint8_t* data, std::size_t size);

namespace {

struct Reader
{
    const char* folder;
    Harness harness;
};
constexpr std::array readers{Reader{"appraisals", fuzz_appraisal},
                             Reader{"catalogues", fuzz_catalogue},
                             Reader{"forms", fuzz_form},
                             Reader{"photos", fuzz_photo},
                             Reader{"requests", fuzz_request},
                             Reader{"scans", fuzz_scan},
                             Reader{"transcripts", fuzz_transcript}};

} // namespace

// The files that the fuzzers start from and what they found, each whole, cut short and with single
// bits turned. A harness ends the program where something is not as it must be.
class TestFuzzed : public QObject
{
    Q_OBJECT

private slots:
    void keptFiles_doNoHarm_data()
    {
        QTest::addColumn<int>("reader");
        QTest::addColumn<QString>("file");
        for (int reader = 0; reader < static_cast<int>(readers.size()); ++reader) {
            const char* folder = readers.at(static_cast<std::size_t>(reader)).folder;
            const QDir dir(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/fuzz/") +
                           QString::fromLatin1(folder));
            for (const QString& name : dir.entryList(QDir::Files))
                QTest::addRow("%s/%s", folder, qPrintable(name)) << reader << dir.filePath(name);
        }
    }

    void keptFiles_doNoHarm()
    {
        QFETCH(int, reader);
        QFETCH(QString, file);
        QFile kept(file);
        QVERIFY(kept.open(QIODevice::ReadOnly));
        const QByteArray bytes = kept.readAll();
        QVERIFY(!bytes.isEmpty());
        const Harness harness = readers.at(static_cast<std::size_t>(reader)).harness;
        give(harness, bytes);
        // Not qHash(): it differs from machine to machine, and so would what is tried.
        QRandomGenerator random(qChecksum(bytes));
        for (int i = 0; i < changes; ++i) {
            give(harness, bytes.left(random.bounded(static_cast<int>(bytes.size()))));
            QByteArray turned = bytes;
            char& byte = turned[random.bounded(static_cast<int>(bytes.size()))];
            byte = static_cast<char>(byte ^ (1 << random.bounded(8)));
            give(harness, turned);
        }
    }

private:
    static constexpr int changes = 40;

    static void give(Harness harness, const QByteArray& bytes)
    {
        // A copy that ends where the bytes end, for the sanitizers.
        const std::vector<std::uint8_t> exact(bytes.begin(), bytes.end());
        QCOMPARE(harness(exact.data(), exact.size()), 0);
    }
};

QTEST_GUILESS_MAIN(TestFuzzed)
#include "tst_fuzzed.moc"
