// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// fuzz_transcript SECONDS [SEED]: changes the labelled texts and the corpus at random, reads what
// comes of it and holds the answer against what must always be so. FILE... instead reads these.
#include "appraisal/spoken/reading.h"

#include <QDir>
#include <QFile>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <random>

using namespace ramplight;

namespace {

const QString root = QStringLiteral(RAMPLIGHT_SOURCE_DIR "/");

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

spoken::Lexicon lexicon(const char* language)
{
    auto read = spoken::Lexicon::read(
        bytesOf(root + QStringLiteral("assets/lexicon/%1.json").arg(QLatin1String(language))));
    if (!read) {
        std::fprintf(stderr, "%s\n", qPrintable(read.error()));
        std::exit(2);
    }
    return std::move(*read);
}

std::vector<QByteArray> seeds()
{
    std::vector<QByteArray> all;
    for (const QString& folder :
         {QStringLiteral("tests/appraisal/spoken/"), QStringLiteral("tests/fuzz/corpus/")}) {
        const QDir dir(root + folder);
        for (const QString& name : dir.entryList(QDir::Files))
            if (!name.endsWith(QLatin1String(".json")))
                all.push_back(bytesOf(dir.filePath(name)));
    }
    for (const char* phrases : {"en", "de"})
        for (const QByteArray& line :
             bytesOf(root +
                     QStringLiteral("tests/appraisal/phrases-%1.txt").arg(QLatin1String(phrases)))
                 .split('\n'))
            if (line.contains(" => "))
                all.push_back(line.left(line.indexOf(" => ")));
    return all;
}

class Mutator
{
public:
    Mutator(std::vector<QByteArray> seeds, unsigned seed)
        : _seeds(std::move(seeds))
        , _random(seed)
    {
    }

    QByteArray next()
    {
        QByteArray file = any();
        const int changes = 1 + pick(12);
        for (int i = 0; i < changes; ++i)
            change(file);
        return file.left(40'000);
    }

private:
    int pick(qsizetype below) { return below <= 0 ? 0 : int(_random() % std::uint64_t(below)); }
    const QByteArray& any() { return _seeds[std::size_t(pick(qsizetype(_seeds.size())))]; }

    /// A piece of a text, from a word's start to a word's end.
    QByteArray piece(const QByteArray& of)
    {
        const qsizetype from = pick(of.size());
        return of.mid(from, 1 + pick(120));
    }

    void change(QByteArray& file)
    {
        static const QByteArrayList odd{"-->",
                                        "\n\n",
                                        "<v ",
                                        "<",
                                        ">",
                                        "&#x110000;",
                                        "&#0;",
                                        "&",
                                        "WEBVTT\n\n",
                                        "\r",
                                        "\xff",
                                        QByteArray(1, '\0'),
                                        "\xe2\x80",
                                        "\xe2\x80\x99",
                                        "[",
                                        "99:99:99,999",
                                        "999999999999",
                                        "no no no",
                                        "sorry",
                                        "the same",
                                        "bar",
                                        "all four",
                                        "one hundred and and",
                                        "½",
                                        "'",
                                        "'s",
                                        "the other side",
                                        "point",
                                        "4.5.6",
                                        ",",
                                        "?",
                                        "- ",
                                        "dreihundertzwanzigtausend"};
        const qsizetype at = pick(file.size() + 1);
        switch (pick(7)) {
        case 0:
            file.insert(at, odd.at(pick(odd.size())));
            break;
        case 1:
            file.remove(at, 1 + pick(40));
            break;
        case 2:
            file.insert(at, piece(any()));
            break;
        case 3:
            if (!file.isEmpty())
                file[pick(file.size())] = char(pick(256));
            break;
        case 4: {
            const QByteArray moved = piece(file);
            file.insert(at, moved);
            break;
        }
        case 5:
            file.truncate(at);
            break;
        default:
            file.replace(odd.at(pick(odd.size())), odd.at(pick(odd.size())));
            break;
        }
    }

    std::vector<QByteArray> _seeds;
    std::mt19937_64 _random;
};

/// What must be so of every answer; the words why not.
const char* wrong(const SpokenReading& reading)
{
    for (const SpokenFinding& it : reading.findings) {
        if (placeInfo(it.place) == nullptr)
            return "a finding on no place";
        if (!(it.confidence > 0 && it.confidence < 1))
            return "a confidence that is none";
    }
    for (const SpokenTread& it : reading.treads)
        if (it.lowTenthsMm <= 0 || it.highTenthsMm < it.lowTenthsMm || it.highTenthsMm > 200 ||
            placeInfo(it.place) == nullptr)
            return "a depth that is none";
    for (const PlaceId& place : reading.sound)
        for (const SpokenFinding& it : reading.findings)
            if (it.place == place)
                return "sound with a finding on it";
    return nullptr;
}

bool readOne(const QByteArray& file, const spoken::Lexicon& words, Traffic traffic)
{
    const auto transcript = parseTranscript(file);
    if (!transcript)
        return true;
    const SpokenReading reading = readSpeech(*transcript, words, traffic);
    const char* fault = wrong(reading);
    if (fault != nullptr)
        std::fprintf(stderr, "%s\n", fault);
    return fault == nullptr && !readingJson(reading).isEmpty() &&
           !readingWords(reading, {}).isNull();
}

} // namespace

int main(int count, char** arguments)
{
    const spoken::Lexicon english = lexicon("en");
    const spoken::Lexicon german = lexicon("de");
    if (count > 1 && QFile::exists(QString::fromLocal8Bit(arguments[1]))) {
        for (int i = 1; i < count; ++i)
            if (!readOne(bytesOf(QString::fromLocal8Bit(arguments[i])), english, Traffic::Left))
                return 1;
        return 0;
    }
    const int seconds = count > 1 ? std::atoi(arguments[1]) : 10;
    const unsigned seed = count > 2 ? unsigned(std::atoi(arguments[2])) : std::random_device{}();
    Mutator mutator(seeds(), seed);
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(seconds);
    long reads = 0;
    while (std::chrono::steady_clock::now() < until) {
        const QByteArray file = mutator.next();
        // What kills the program lies there to be looked at.
        QFile last(QDir::temp().filePath(QStringLiteral("fuzz_transcript.last")));
        if (last.open(QIODevice::WriteOnly))
            last.write(file);
        last.close();
        const bool other = reads % 5 == 0;
        if (!readOne(file, other ? german : english,
                     reads % 2 == 0 ? Traffic::Left : Traffic::Right)) {
            std::fprintf(stderr, "seed %u, read %ld: see %s\n", seed, reads,
                         qPrintable(last.fileName()));
            return 1;
        }
        ++reads;
    }
    std::printf("%ld transcripts read, seed %u\n", reads, seed);
    return reads > 0 ? 0 : 1;
}
