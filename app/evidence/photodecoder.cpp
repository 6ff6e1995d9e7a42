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

/// The pixels alone. A new picture, because text, resolution and profile travel with copies.
QImage pixelsOnly(const QImage& image)
{
    QImage plain(image.size(), QImage::Format_RGB32);
    plain.fill(Qt::white);
    QPainter painter(&plain);
    QImage source = image;
    source.setDevicePixelRatio(1);
    painter.drawImage(QPoint(0, 0), source);
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
    if (const QSize target = fitted(facts->size, limits.longSide); target != facts->size)
        reader.setScaledSize(target);
    QImage image = reader.read();
    if (image.isNull())
        return tl::unexpected(EvidenceError::Damaged);
    if (image.colorSpace().isValid() && image.colorSpace() != QColorSpace(QColorSpace::SRgb)) {
        if (image.format() == QImage::Format_Indexed8)
            image.convertTo(QImage::Format_ARGB32);
        image.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    }
    return pixelsOnly(image);
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
    writer.setOptimizedWrite(true);
    if (!writer.write(pixelsOnly(image)))
        return tl::unexpected(EvidenceError::CannotWrite);
    return bytes;
}

} // namespace ramplight
