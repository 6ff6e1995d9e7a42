// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/htmlphotos.h"

#include <QBuffer>

#include <algorithm>

namespace ramplight {

namespace {

constexpr qsizetype mostBytesOfAll = 9LL * 1024 * 1024; // base64 makes 12 MB of it
constexpr qsizetype mostBytesOfOne = 160LL * 1024;
constexpr qsizetype leastBytesOfOne = 8LL * 1024;
constexpr int leastSide = 160;

QByteArray encoded(const QImage& image, int quality)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "JPEG", quality);
    return bytes;
}

} // namespace

qsizetype mostBytesEach(std::size_t count)
{
    const qsizetype share = mostBytesOfAll / std::max<qsizetype>(1, qsizetype(count));
    return std::clamp(share, leastBytesOfOne, mostBytesOfOne);
}

tl::expected<BoundedPhoto, EvidenceError> boundedPhoto(const PhotoVault& photos, const PhotoId& id,
                                                       qsizetype mostBytes)
{
    const auto kept = photos.thumbnail(id, ThumbnailSize::Panel);
    if (!kept)
        return tl::unexpected(kept.error());
    QImage image = QImage::fromData(*kept, "JPEG");
    if (image.isNull())
        return tl::unexpected(EvidenceError::KeptDamaged);
    BoundedPhoto photo{*kept, image.size()};
    constexpr int fine = 80;
    constexpr int coarse = 50;
    constexpr int step = 15;
    int quality = fine;
    while (photo.jpeg.size() > mostBytes && std::max(image.width(), image.height()) > leastSide) {
        photo = {encoded(image, quality), image.size()};
        quality -= step;
        if (quality < coarse) {
            quality = fine;
            image =
                image.scaled(image.size() * 3 / 4, Qt::KeepAspectRatio, Qt::SmoothTransformation);
        }
    }
    return photo;
}

} // namespace ramplight
