// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/seed.h"

#include <QDir>
#include <QFile>
#include <QRandomGenerator>
#include <QTest>

#include <array>
#include <utility>
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
    const char* learnt; ///< what the fuzzer kept
    Harness harness;
};
constexpr std::array readers{Reader{"appraisals", "corpus/appraisal", fuzz_appraisal},
                             Reader{"catalogues", "corpus/catalogue", fuzz_catalogue},
                             Reader{"forms", "corpus/form", fuzz_form},
                             Reader{"photos", "corpus/photo", fuzz_photo},
                             Reader{"requests", "corpus/request", fuzz_request},
                             Reader{"scans", "corpus/scan", fuzz_scan},
                             Reader{"transcripts", "corpus/transcript", fuzz_transcript}};

} // namespace

// The files that the fuzzers start from and what they found, each whole, cut short and with single
// bits turned; and what they learnt, each whole and a little changed. A harness ends the program
// where something is not as it must be.
class TestFuzzed : public QObject
{
    Q_OBJECT

private slots:
    void keptFiles_doNoHarm_data()
    {
        QTest::addColumn<int>("reader");
        QTest::addColumn<QString>("file");
        QTest::addColumn<int>("changes");
        for (int reader = 0; reader < static_cast<int>(readers.size()); ++reader) {
            const Reader& one = readers.at(static_cast<std::size_t>(reader));
            for (const auto& [folder, changes] :
                 {std::pair{one.folder, changesOfOurs}, std::pair{one.learnt, changesOfLearnt}}) {
                const QDir dir(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/fuzz/") +
                               QString::fromLatin1(folder));
                const QStringList names = dir.entryList(QDir::Files);
                QVERIFY2(!names.isEmpty(), folder);
                for (const QString& name : names)
                    QTest::addRow("%s/%s", folder, qPrintable(name))
                        << reader << dir.filePath(name) << changes;
            }
        }
    }

    void keptFiles_doNoHarm()
    {
        QFETCH(int, reader);
        QFETCH(QString, file);
        QFETCH(int, changes);
        QFile kept(file);
        QVERIFY(kept.open(QIODevice::ReadOnly));
        const QByteArray bytes = kept.readAll();
        QVERIFY(!bytes.isEmpty());
        const Harness harness = readers.at(static_cast<std::size_t>(reader)).harness;
        give(harness, bytes);
        QRandomGenerator random(m_seed ^ qChecksum(bytes));
        for (int i = 0; i < changes; ++i) {
            give(harness, bytes.left(random.bounded(static_cast<int>(bytes.size()))));
            QByteArray turned = bytes;
            char& byte = turned[random.bounded(static_cast<int>(bytes.size()))];
            byte = static_cast<char>(byte ^ (1 << random.bounded(8)));
            give(harness, turned);
        }
    }

private:
    const quint32 m_seed = ramplight::test::toldRandom().generate(); ///< others each time
    static constexpr int changesOfOurs = 40;
    static constexpr int changesOfLearnt = 2;

    static void give(Harness harness, const QByteArray& bytes)
    {
        // A copy that ends where the bytes end, for the sanitizers.
        const std::vector<std::uint8_t> exact(bytes.begin(), bytes.end());
        QCOMPARE(harness(exact.data(), exact.size()), 0);
    }
};

QTEST_GUILESS_MAIN(TestFuzzed)
#include "tst_fuzzed.moc"
