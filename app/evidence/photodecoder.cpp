// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photodecoder.h"

#include "evidence/photofacts.h"

#include <QBuffer>
#include <QColorSpace>
#include <QImageReader>
#include <QImageWriter>
#include <QPainter>

#include <algorithm>
#include <utility>

namespace ramplight {
namespace {

/// Visually without loss at the sizes that are kept.
constexpr int jpegQuality = 90;

qint64 pixelLimit(const PhotoFacts& facts, const PhotoLimits& limits)
{
    if (facts.format == PhotoFormat::Png)
        return std::min(limits.mostPixels, limits.mostPixelsPng);
    return facts.progressive ? std::min(limits.mostPixels, limits.mostPixelsProgressive)
                             : limits.mostPixels;
}

QSize fitted(QSize size, int longSide)
{
    if (std::max(size.width(), size.height()) <= longSide)
        return size;
    return size.scaled(longSide, longSide, Qt::KeepAspectRatio).expandedTo(QSize(1, 1));
}

/// A JPEG's decoder makes eighths of its size by itself. One of them is taken where it is nearly as
/// large as what is wanted: scaling once more takes as long as decoding did.
QSize decodedSize(const PhotoFacts& facts, int longSide)
{
    constexpr int eighths = 8;
    constexpr double nearly = 0.9;
    const QSize wanted = fitted(facts.size, longSide);
    if (wanted == facts.size || facts.format != PhotoFormat::Jpeg)
        return wanted;
    for (int part = eighths - 1; part > 0; --part) {
        const QSize size(facts.size.width() * part / eighths, facts.size.height() * part / eighths);
        const int side = std::max(size.width(), size.height());
        if (side <= longSide)
            return side >= nearly * longSide && !size.isEmpty() ? size : wanted;
    }
    return wanted;
}

/// As a new picture has it.
void forgetResolutionAndProfile(QImage& image)
{
    const QImage fresh(1, 1, QImage::Format_RGB32);
    image.setDotsPerMeterX(fresh.dotsPerMeterX());
    image.setDotsPerMeterY(fresh.dotsPerMeterY());
    image.setDevicePixelRatio(fresh.devicePixelRatio());
    image.setColorSpace({});
}

/// The pixels alone, on white. Text, resolution and profile travel with copies, so that a picture
/// with text is painted anew.
QImage pixelsOnly(QImage image)
{
    if (image.format() == QImage::Format_RGB32 && image.textKeys().isEmpty()) {
        forgetResolutionAndProfile(image);
        return image;
    }
    QImage plain(image.size(), QImage::Format_RGB32);
    if (image.hasAlphaChannel())
        plain.fill(Qt::white);
    QPainter painter(&plain);
    if (!image.hasAlphaChannel())
        painter.setCompositionMode(QPainter::CompositionMode_Source);
    image.setDevicePixelRatio(1);
    painter.drawImage(QPoint(0, 0), image);
    return plain;
}

} // namespace

tl::expected<QImage, EvidenceError> decodePhoto(const QByteArray& bytes, const PhotoLimits& limits)
{
    if (bytes.size() > limits.mostBytes)
        return tl::unexpected(EvidenceError::TooManyBytes);
    const auto facts = photoFacts(bytes);
    if (!facts)
        return tl::unexpected(facts.error());
    if (qint64{facts->size.width()} * facts->size.height() > pixelLimit(*facts, limits))
        return tl::unexpected(EvidenceError::TooManyPixels);

    QBuffer buffer;
    buffer.setData(facts->format == PhotoFormat::Png ? pixelChunks(bytes) : bytes);
    buffer.open(QIODevice::ReadOnly);
    // One named reader only: left to itself Qt would try every format that it has a plug-in for.
    QImageReader reader(&buffer, facts->format == PhotoFormat::Png ? "png" : "jpeg");
    reader.setAutoDetectImageFormat(false);
    reader.setAutoTransform(true);
    if (!reader.canRead() || reader.size().isEmpty())
        return tl::unexpected(EvidenceError::Damaged);
    if (reader.size() != facts->size)
        return tl::unexpected(EvidenceError::Disguised);
    if (const QSize target = decodedSize(*facts, limits.longSide); target != facts->size)
        reader.setScaledSize(target);
    QImage image = reader.read();
    if (image.isNull())
        return tl::unexpected(EvidenceError::Damaged);
    if (image.colorSpace().isValid() && image.colorSpace() != QColorSpace(QColorSpace::SRgb)) {
        if (image.format() == QImage::Format_Indexed8)
            image.convertTo(QImage::Format_ARGB32);
        image.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    }
    return pixelsOnly(std::move(image));
}

QImage fittedPhoto(const QImage& frame, const PhotoLimits& limits)
{
    if (frame.isNull())
        return {};
    const QSize target = fitted(frame.size(), limits.longSide);
    return pixelsOnly(target == frame.size()
                          ? frame
                          : frame.scaled(target, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
}

tl::expected<QByteArray, EvidenceError> encodePhoto(const QImage& image)
{
    if (image.isNull())
        return tl::unexpected(EvidenceError::Empty);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, "jpeg");
    writer.setQuality(jpegQuality);
    // Not optimised: that takes as long as encoding again, for a sixteenth of the size.
    if (!writer.write(pixelsOnly(image)))
        return tl::unexpected(EvidenceError::CannotWrite);
    return bytes;
}

} // namespace ramplight
