// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Changes pictures where their structure is: without its check sums a PNG ends at the first changed
// chunk, and a JPEG hides its markers among its pixels.
#include "mutating.h"

#include "evidence/samples.h"

#include <QColorSpace>
#include <QDir>
#include <QFile>
#include <QtEndian>

#include <algorithm>
#include <array>
#include <vector>

using namespace ramplight;

namespace {

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

class PhotoMutator : public fuzz::Mutator
{
public:
    using Mutator::Mutator;

private:
    void change(QByteArray& file) override
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

    /// Without its check sums a PNG ends at the first changed chunk.
    void mend(QByteArray& file) override
    {
        if (!file.startsWith("\x89PNG") || pick(8) == 0)
            return;
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
};

} // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed)
{
    static const std::vector<QByteArray> all = seeds();
    return PhotoMutator(all, seed).mutate(data, size, most, seed % 3 == 0);
}
