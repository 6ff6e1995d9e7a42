// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/reading.h"
#include "appraisal/spoken/speech.h"
#include "bench/report.h"

#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

QByteArray bytesOf(const QString& path)
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/") + path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// The labelled plain texts over and over: about 50 kB of them are an hour of speech.
QByteArray speech(qsizetype bytes)
{
    QByteArray once;
    const QDir folder(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/appraisal/spoken"));
    for (const QString& name : folder.entryList({QStringLiteral("*.txt")}, QDir::Files))
        once += bytesOf(QStringLiteral("tests/appraisal/spoken/") + name) + "\n\n";
    QByteArray all;
    all.reserve(bytes + once.size());
    while (all.size() < bytes && !once.isEmpty())
        all += once;
    return all.left(bytes);
}

} // namespace

// A transcript read, beside the same transcript only split into words.
class BenchReading : public QObject
{
    Q_OBJECT

public:
    // A bench takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void reading_data()
    {
        constexpr qsizetype hour = 50'000;
        QTest::addColumn<QString>("title");
        QTest::addColumn<qsizetype>("bytes");
        QTest::addColumn<int>("rounds");
        QTest::newRow("10 minutes") << QStringLiteral("10 minutes of speech") << hour / 6 << 200;
        QTest::newRow("1 hour") << QStringLiteral("1 hour of speech") << hour << 60;
        QTest::newRow("10 hours") << QStringLiteral("10 hours of speech") << hour * 10 << 8;
        QTest::newRow("64 MB") << QStringLiteral("64 MB of speech") << qsizetype(64) * 1024 * 1024
                               << 1;
    }
    void reading()
    {
        QFETCH(QString, title);
        QFETCH(qsizetype, bytes);
        QFETCH(int, rounds);
        const auto lexicon =
            spoken::Lexicon::read(bytesOf(QStringLiteral("assets/lexicon/en.json")));
        QVERIFY(lexicon);
        const QByteArray file = speech(bytes);
        QCOMPARE(file.size(), bytes);
        std::vector<double> ours;
        std::vector<double> bare;
        for (int i = 0; i < rounds; ++i) {
            QElapsedTimer timer;
            timer.start();
            const auto transcript = parseTranscript(file);
            QVERIFY(transcript);
            const SpokenReading reading = readSpeech(*transcript, *lexicon, Traffic::Left);
            ours.push_back(double(timer.nsecsElapsed()) / 1e6);
            QVERIFY(!reading.findings.empty());
            timer.start();
            const auto again = parseTranscript(file);
            const spoken::Speech words = spoken::splitWords(*again, *lexicon);
            bare.push_back(double(timer.nsecsElapsed()) / 1e6);
            QVERIFY(!words.tokens.empty());
        }
        const double ourTime = quantile(ours, 0.5);
        const double bareTime = quantile(bare, 0.5);
        const double megabytes = double(bytes) / 1e6;
        tell(title, megabytes / ourTime * 1e3, megabytes / bareTime * 1e3, QStringLiteral("MB/s"),
             Aim::AtLeast, 0.1);
        tell(title + QStringLiteral(", time"), ourTime, bareTime, QStringLiteral("ms"), Aim::AtMost,
             10);
    }
};

QTEST_APPLESS_MAIN(BenchReading)
#include "bench_reading.moc"
