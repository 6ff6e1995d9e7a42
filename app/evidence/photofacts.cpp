// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photofacts.h"

#include <QtEndian>

#include <algorithm>
#include <array>
#include <cstring>
#include <initializer_list>
#include <optional>

namespace ramplight {
namespace {

constexpr QByteArrayView jpegStart("\xFF\xD8\xFF", 3);
constexpr QByteArrayView pngStart("\x89PNG\r\n\x1A\n", 8);
/// A photo has at most about ten scans; a file with thousands is made to keep the decoder busy.
constexpr int mostScans = 64;

quint8 byteAt(QByteArrayView bytes, qsizetype at)
{
    return static_cast<quint8>(bytes[at]);
}

quint16 be16(QByteArrayView bytes, qsizetype at)
{
    return qFromBigEndian<quint16>(bytes.data() + at);
}

quint32 be32(QByteArrayView bytes, qsizetype at)
{
    return qFromBigEndian<quint32>(bytes.data() + at);
}

bool beginsLike(QByteArrayView bytes, QByteArrayView start)
{
    const qsizetype common = std::min(bytes.size(), start.size());
    return common > 0 && bytes.first(common) == start.first(common);
}

/// What a file that is neither JPEG nor PNG is, so that the answer can help.
EvidenceError otherKind(QByteArrayView bytes)
{
    if (bytes.startsWith("GIF87a") || bytes.startsWith("GIF89a"))
        return EvidenceError::MovingPicture;
    if (bytes.size() >= 12 && bytes.sliced(4, 4) == QByteArrayView("ftyp", 4)) {
        const QByteArrayView brand = bytes.sliced(8, 4);
        for (const char* known : {"heic", "heix", "hevc", "heim", "heis", "mif1", "msf1", "avif"})
            if (brand == QByteArrayView(known, 4))
                return EvidenceError::PhoneFormat;
    }
    // XML with an svg element near its beginning; tests of the first bytes alone miss comments.
    const QByteArray head = bytes.first(std::min<qsizetype>(bytes.size(), 4096)).toByteArray();
    const QByteArray shown =
        head.startsWith("\xEF\xBB\xBF") ? head.mid(3).trimmed() : head.trimmed();
    if (shown.startsWith('<') && shown.toLower().contains("<svg"))
        return EvidenceError::Drawing;
    return EvidenceError::NotAPhoto;
}

bool isStandalone(quint8 marker)
{
    return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7);
}

bool isFrameHeader(quint8 marker)
{
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/// First marker at or behind from that ends entropy-coded data; the size when there is none.
qsizetype endOfScan(QByteArrayView bytes, qsizetype from)
{
    while (from < bytes.size()) {
        const void* hit =
            std::memchr(bytes.data() + from, 0xFF, static_cast<std::size_t>(bytes.size() - from));
        if (hit == nullptr)
            break;
        from = static_cast<const char*>(hit) - bytes.data();
        if (from + 1 >= bytes.size())
            break;
        const quint8 next = byteAt(bytes, from + 1);
        if (next != 0x00 && next != 0xFF && !isStandalone(next))
            return from;
        from += next == 0xFF ? 1 : 2;
    }
    return bytes.size();
}

tl::expected<PhotoFacts, EvidenceError> frameFacts(QByteArrayView segment, quint8 marker)
{
    if (segment.size() < 8)
        return tl::unexpected(EvidenceError::Damaged);
    if (byteAt(segment, 2) != 8)
        return tl::unexpected(EvidenceError::DeepColour);
    PhotoFacts facts{.format = PhotoFormat::Jpeg,
                     .size = QSize(be16(segment, 5), be16(segment, 3)),
                     .progressive = marker == 0xC2};
    if (facts.size.isEmpty())
        return tl::unexpected(EvidenceError::Empty);
    const int components = byteAt(segment, 7);
    if (components == 4)
        return tl::unexpected(EvidenceError::PrintColours);
    if (components != 1 && components != 3)
        return tl::unexpected(EvidenceError::Damaged);
    return facts;
}

tl::expected<PhotoFacts, EvidenceError> jpegFacts(QByteArrayView bytes)
{
    // The fourth byte is a marker of a table, a frame or an application segment in every JPEG.
    if (bytes.size() < 4)
        return tl::unexpected(EvidenceError::Truncated);
    if (const quint8 first = byteAt(bytes, 3); first < 0xC0 || isStandalone(first) || first == 0xD9)
        return tl::unexpected(EvidenceError::Disguised);

    std::optional<PhotoFacts> facts;
    int scans = 0;
    qsizetype at = 2;
    while (true) {
        if (at + 2 > bytes.size())
            return tl::unexpected(EvidenceError::Truncated);
        if (byteAt(bytes, at) != 0xFF)
            return tl::unexpected(EvidenceError::Damaged);
        const quint8 marker = byteAt(bytes, at + 1);
        if (marker == 0xFF) { // padding
            ++at;
            continue;
        }
        if (isStandalone(marker)) {
            at += 2;
            continue;
        }
        if (marker == 0xD9) {
            if (!facts || scans == 0)
                return tl::unexpected(EvidenceError::Damaged);
            return *facts;
        }
        if (at + 4 > bytes.size())
            return tl::unexpected(EvidenceError::Truncated);
        const qsizetype length = be16(bytes, at + 2);
        if (length < 2)
            return tl::unexpected(EvidenceError::Damaged);
        if (at + 2 + length > bytes.size())
            return tl::unexpected(EvidenceError::Truncated);
        if (isFrameHeader(marker)) {
            if (facts) // one frame only; a second one would be measured by neither of us
                return tl::unexpected(EvidenceError::Damaged);
            const auto frame = frameFacts(bytes.sliced(at + 2, length), marker);
            if (!frame)
                return frame;
            facts = *frame;
        }
        at += 2 + length;
        if (marker == 0xDA) {
            if (!facts || ++scans > mostScans)
                return tl::unexpected(EvidenceError::Damaged);
            at = endOfScan(bytes, at);
        }
    }
}

tl::expected<PhotoFacts, EvidenceError> pngFacts(QByteArrayView bytes)
{
    constexpr qsizetype frame = 12; // length, type and check sum around a chunk's data
    PhotoFacts facts{.format = PhotoFormat::Png, .size = {}, .progressive = false};
    bool hasPixels = false;
    qsizetype at = pngStart.size();
    while (true) {
        if (at + 8 > bytes.size())
            return tl::unexpected(EvidenceError::Truncated);
        const auto length = static_cast<qsizetype>(be32(bytes, at));
        const QByteArrayView type = bytes.sliced(at + 4, 4);
        const bool first = at == pngStart.size();
        if (first && (type != QByteArrayView("IHDR", 4) || length != 13))
            return tl::unexpected(EvidenceError::Disguised);
        if (length > bytes.size() - at - frame)
            return tl::unexpected(EvidenceError::Truncated);
        if (first) {
            const quint32 width = be32(bytes, at + 8);
            const quint32 height = be32(bytes, at + 12);
            if (width == 0 || height == 0)
                return tl::unexpected(EvidenceError::Empty);
            if (width > 0x7FFFFFFFU || height > 0x7FFFFFFFU)
                return tl::unexpected(EvidenceError::Damaged);
            facts.size = QSize(static_cast<int>(width), static_cast<int>(height));
            if (byteAt(bytes, at + 16) > 8)
                return tl::unexpected(EvidenceError::DeepColour);
        } else if (type == QByteArrayView("acTL", 4)) {
            return tl::unexpected(EvidenceError::MovingPicture);
        } else if (type == QByteArrayView("IDAT", 4)) {
            hasPixels = true;
        } else if (type == QByteArrayView("IEND", 4)) {
            if (!hasPixels)
                return tl::unexpected(EvidenceError::Damaged);
            return facts;
        }
        at += frame + length;
    }
}

/// Those that change what the pixels look like (PNG, ISO/IEC 15948, clause 11).
bool makesPixels(QByteArrayView type)
{
    static constexpr std::array kinds{"IHDR", "PLTE", "IDAT", "IEND", "tRNS",
                                      "gAMA", "cHRM", "sRGB", "iCCP"};
    return std::ranges::any_of(kinds,
                               [&](const char* kind) { return type == QByteArrayView(kind, 4); });
}

/// A profile of more compressed bytes than this is none of a photo.
constexpr qsizetype mostProfileBytes = 64'000;

} // namespace

QByteArray pixelChunks(QByteArrayView png)
{
    constexpr qsizetype frame = 12;
    QByteArray bare = png.first(pngStart.size()).toByteArray();
    bool hasProfile = false;
    for (qsizetype at = pngStart.size(); at + frame <= png.size();) {
        const qsizetype whole = frame + static_cast<qsizetype>(be32(png, at));
        if (whole > png.size() - at)
            break;
        const QByteArrayView type = png.sliced(at + 4, 4);
        const bool isProfile = type == QByteArrayView("iCCP", 4);
        if (makesPixels(type) && !(isProfile && (hasProfile || whole > mostProfileBytes)))
            bare.append(png.sliced(at, whole));
        hasProfile = hasProfile || isProfile;
        if (type == QByteArrayView("IEND", 4))
            break;
        at += whole;
    }
    return bare;
}

bool looksLikePhoto(QByteArrayView firstBytes)
{
    return firstBytes.startsWith(jpegStart) || firstBytes.startsWith(pngStart);
}

tl::expected<PhotoFacts, EvidenceError> photoFacts(QByteArrayView bytes)
{
    if (bytes.isEmpty())
        return tl::unexpected(EvidenceError::Empty);
    if (bytes.startsWith(jpegStart))
        return jpegFacts(bytes);
    if (bytes.startsWith(pngStart))
        return pngFacts(bytes);
    if (beginsLike(bytes, jpegStart) || beginsLike(bytes, pngStart))
        return tl::unexpected(bytes.size() < pngStart.size() ? EvidenceError::Truncated
                                                             : EvidenceError::NotAPhoto);
    return tl::unexpected(otherKind(bytes));
}

} // namespace ramplight
