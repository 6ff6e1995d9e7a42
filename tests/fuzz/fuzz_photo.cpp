// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// fuzz_photo SECONDS [SEED]: changes pictures at random, takes in what comes of it as a photo and
// holds the answer against what must always be so. FILE... instead takes these in. The libraries
// that decode are the system's; what they do to memory is watched, their own steps are not.
#include "evidence/photodecoder.h"
#include "evidence/photofacts.h"
#include "evidence/photoquality.h"
#include "evidence/samples.h"

#include <QColorSpace>
#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QLoggingCategory>
#include <QtEndian>

#include <sys/resource.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <random>

using namespace ramplight;

namespace {

/// Small, so that no time goes into pixels; the bounds are the same code.
constexpr PhotoLimits limits{.mostBytes = 400'000,
                             .mostPixels = 400'000,
                             .mostPixelsProgressive = 200'000,
                             .mostPixelsPng = 200'000,
                             .longSide = 96};
/// What the process may come to, in KiB, the sanitizers' own share included.
constexpr long mostMemory = 1'500'000;

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

std::vector<QByteArray> seeds()
{
    std::vector<QByteArray> all;
    const QDir kept(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/fuzz/photos"));
    for (const QString& name : kept.entryList(QDir::Files))
        all.push_back(bytesOf(kept.filePath(name)));
    for (const QSize size : {QSize(1, 1), QSize(24, 16), QSize(130, 90)}) {
        const QImage picture = samples::panel(size);
        all.push_back(samples::jpeg(picture));
        all.push_back(samples::jpeg(picture, 30, true));
        all.push_back(samples::jpeg(picture.convertToFormat(QImage::Format_Grayscale8)));
        all.push_back(samples::png(picture));
        all.push_back(samples::png(picture.convertToFormat(QImage::Format_Indexed8)));
        all.push_back(samples::png(picture.convertToFormat(QImage::Format_ARGB32)));
        all.push_back(samples::png(picture.convertToFormat(QImage::Format_Mono)));
        for (int turn = 1; turn <= 8; ++turn)
            all.push_back(
                samples::withSegment(samples::jpeg(picture), 0xE1, samples::exifOrientation(turn)));
    }
    QImage wide = samples::panel({40, 30});
    wide.setColorSpace(QColorSpace(QColorSpace::DisplayP3));
    all.push_back(samples::png(wide));
    all.push_back(samples::jpeg(wide));
    all.push_back(samples::jpegShell(64, 64, 3, 8, 0xC2, 12));
    all.push_back(samples::withChunk(samples::png(samples::panel({8, 8})),
                                     samples::chunk("tEXt", QByteArray("Comment\0Words", 13))));
    return all;
}

class Mutator
{
public:
    Mutator(std::vector<QByteArray> seeds, unsigned seed)
        : m_seeds(std::move(seeds))
        , m_random(seed)
    {
    }

    QByteArray next()
    {
        QByteArray file = any();
        const int changes = 1 + pick(8);
        for (int i = 0; i < changes; ++i)
            change(file);
        // Without its check sums a PNG ends at the first changed chunk.
        if (file.startsWith("\x89PNG") && pick(8) != 0)
            mendChecks(file);
        return file;
    }

private:
    int pick(qsizetype below)
    {
        return below <= 0 ? 0 : static_cast<int>(m_random() % static_cast<std::uint64_t>(below));
    }
    const QByteArray& any()
    {
        return m_seeds[static_cast<std::size_t>(pick(static_cast<qsizetype>(m_seeds.size())))];
    }

    void change(QByteArray& file)
    {
        const qsizetype at = pick(file.size() + 1);
        switch (pick(9)) {
        case 0:
            if (!file.isEmpty())
                file[pick(file.size())] = static_cast<char>(pick(256));
            break;
        case 1: // near the beginning, where the structure is
            if (!file.isEmpty())
                file[pick(std::min<qsizetype>(file.size(), 64))] = static_cast<char>(pick(256));
            break;
        case 2:
            file.remove(at, 1 + pick(40));
            break;
        case 3: {
            const QByteArray& other = any();
            file.insert(at, other.mid(pick(other.size()), 1 + pick(200)));
            break;
        }
        case 4: // a length or a size
            if (at + 4 <= file.size()) {
                static constexpr std::array<quint32, 8> odd{
                    0, 1, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFF, 0xFFFF, 0x10000, 0xFFFFFFF4};
                qToBigEndian(odd[static_cast<std::size_t>(pick(odd.size()))], file.data() + at);
            }
            break;
        case 5: // a marker
            if (at + 2 <= file.size()) {
                file[at] = '\xFF';
                file[at + 1] = static_cast<char>(0xC0 + pick(0x40));
            }
            break;
        case 6:
            file.truncate(at);
            break;
        case 7: // a piece said twice
            file.insert(at, file.mid(pick(file.size()), 1 + pick(300)));
            break;
        default: { // a chunk or a segment of noise
            QByteArray noise(pick(200), Qt::Uninitialized);
            for (char& c : noise)
                c = static_cast<char>(pick(256));
            if (file.startsWith("\x89PNG")) {
                static constexpr std::array kinds{"PLTE", "tRNS", "gAMA", "cHRM", "iCCP", "zTXt",
                                                  "iTXt", "IDAT", "eXIf", "sBIT", "hIST", "sPLT"};
                file.insert(
                    std::min<qsizetype>(33, file.size()),
                    samples::chunk(kinds[static_cast<std::size_t>(pick(kinds.size()))], noise));
            } else if (file.startsWith("\xFF\xD8")) {
                static constexpr std::array<quint8, 7> markers{0xE0, 0xE1, 0xE2, 0xEE,
                                                               0xC4, 0xDB, 0xDD};
                file = samples::withSegment(
                    file, markers[static_cast<std::size_t>(pick(markers.size()))],
                    pick(2) == 0 ? noise : samples::exifOrientation(pick(10)) + noise);
            }
            break;
        }
        }
    }

    static void mendChecks(QByteArray& file)
    {
        qsizetype at = 8;
        while (at + 12 <= file.size()) {
            const auto length = static_cast<qsizetype>(qFromBigEndian<quint32>(file.data() + at));
            if (length > file.size() - at - 12)
                return;
            const QByteArray whole =
                samples::chunk(file.mid(at + 4, 4).constData(), file.mid(at + 8, length));
            file.replace(at, whole.size(), whole);
            at += whole.size();
        }
    }

    std::vector<QByteArray> m_seeds;
    std::mt19937_64 m_random;
};

/// What must be so of every answer; the words why not. taken: whether it became a photo.
const char* wrong(const QByteArray& file, bool& taken)
{
    const auto facts = photoFacts(file);
    const auto image = decodePhoto(file, limits);
    taken = image.has_value();
    if (!image)
        return words(image.error()).isEmpty() ? "a refusal without words" : nullptr;
    if (!facts)
        return "taken in though its structure was refused";
    if (image->isNull() || image->format() != QImage::Format_RGB32)
        return "a picture that is none";
    if (std::max(image->width(), image->height()) > limits.longSide)
        return "larger than it may be";
    if (!image->textKeys().isEmpty() || image->colorSpace().isValid())
        return "it carries more than pixels";
    const auto kept = encodePhoto(*image);
    if (!kept || kept->contains("Exif") || kept->contains("ICC_PROFILE"))
        return "what is kept carries more than pixels";
    const auto again = decodePhoto(*kept, limits);
    if (!again || again->size() != image->size())
        return "what was kept cannot be read";
    const PhotoQuality quality = judgePhoto(*image);
    return quality.warnings.size() > 10 ? "warnings without end" : nullptr;
}

long peakMemory()
{
    struct rusage used
    {
    };
    ::getrusage(RUSAGE_SELF, &used);
    return used.ru_maxrss;
}

} // namespace

int main(int count, char** arguments)
{
    const QCoreApplication application(count, arguments);
    QLoggingCategory::setFilterRules(QStringLiteral("qt.gui.*=false"));
    bool taken = false;
    if (count > 1 && QFile::exists(QString::fromLocal8Bit(arguments[1]))) {
        for (int i = 1; i < count; ++i)
            if (const char* fault = wrong(bytesOf(QString::fromLocal8Bit(arguments[i])), taken)) {
                std::fprintf(stderr, "%s: %s\n", arguments[i], fault);
                return 1;
            }
        return 0;
    }
    const int seconds = count > 1 ? std::atoi(arguments[1]) : 10;
    const unsigned seed =
        count > 2 ? static_cast<unsigned>(std::atoi(arguments[2])) : std::random_device{}();
    Mutator mutator(seeds(), seed);
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(seconds);
    long files = 0;
    long photos = 0;
    while (std::chrono::steady_clock::now() < until) {
        const QByteArray file = mutator.next();
        // What kills the program lies there to be looked at.
        QFile last(QDir::temp().filePath(QStringLiteral("fuzz_photo.last")));
        if (last.open(QIODevice::WriteOnly))
            last.write(file);
        last.close();
        const char* fault = wrong(file, taken);
        if (fault == nullptr && peakMemory() > mostMemory)
            fault = "too much memory";
        if (fault != nullptr) {
            std::fprintf(stderr, "%s; seed %u, file %ld: see %s\n", fault, seed, files,
                         qPrintable(last.fileName()));
            return 1;
        }
        ++files;
        photos += taken ? 1 : 0;
    }
    std::printf("%ld files, %ld of them taken in, seed %u, %ld MiB at most\n", files, photos, seed,
                peakMemory() / 1024);
    return photos > 0 ? 0 : 1;
}
