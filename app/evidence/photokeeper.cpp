// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photokeeper.h"

#include "evidence/photodecoder.h"
#include "log/log.h"

#include <QCryptographicHash>

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <utility>

namespace ramplight {
namespace {

constexpr qsizetype idLength = 64;
/// Each is made from the one before, which is quicker than from the picture.
constexpr std::array thumbnailSizes{ThumbnailSize::Panel, ThumbnailSize::Card};

PhotoForm formOf(ThumbnailSize size)
{
    return size == ThumbnailSize::Card ? PhotoForm::Card : PhotoForm::Panel;
}

// Behind the end of a thumbnail's picture, where readers of pictures do not look: a mark, and the
// SHA-256 of what is in front of it.
const QByteArray sumMark = QByteArrayLiteral("\nramplight-sum-1\n");
constexpr qsizetype sumLength = 32;

QByteArray sumOf(QByteArrayView bytes)
{
    QCryptographicHash hash(QCryptographicHash::Sha256);
    hash.addData(bytes);
    return hash.result();
}

QByteArray withSum(const QByteArray& thumbnail)
{
    return thumbnail + sumMark + sumOf(thumbnail);
}

/// A kept thumbnail without its sum. Nothing: it is not what was written, or no whole picture;
/// that of an older program has no sum.
std::optional<QByteArray> wholeThumbnail(const QByteArray& kept)
{
    const qsizetype at = kept.size() - sumLength - sumMark.size();
    QByteArray picture = kept;
    if (at > 0 && kept.sliced(at, sumMark.size()) == sumMark) {
        picture.truncate(at);
        if (sumOf(picture) != kept.last(sumLength))
            return std::nullopt;
    }
    return decodePhoto(picture) ? std::optional(picture) : std::nullopt;
}

QImage shrunk(const QImage& image, ThumbnailSize size)
{
    return fittedPhoto(image, {.longSide = static_cast<int>(size)});
}

} // namespace

PhotoId photoIdOf(QByteArrayView bytes)
{
    QCryptographicHash hash(QCryptographicHash::Sha256);
    hash.addData(bytes);
    return {QString::fromLatin1(hash.result().toHex())};
}

bool isPhotoId(const PhotoId& id)
{
    return id.text.size() == idLength && std::ranges::all_of(id.text, [](QChar c) {
               return (c >= u'0' && c <= u'9') || (c >= u'a' && c <= u'f');
           });
}

PhotoKeeper::PhotoKeeper(std::unique_ptr<PhotoShelf> shelf)
    : m_shelf(std::move(shelf))
{
}

tl::expected<StoredPhoto, EvidenceError> PhotoKeeper::keep(const QImage& image)
{
    const auto bytes = encodePhoto(image);
    if (!bytes)
        return tl::unexpected(bytes.error());
    const StoredPhoto photo{photoIdOf(*bytes), image.size(), bytes->size()};
    // Where it was taken away in between, it is written anew.
    if (open(photo.id) && m_shelf->touch(photo.id))
        return photo;
    if (const auto shelved = shelve(photo.id, image, *bytes); !shelved)
        return tl::unexpected(shelved.error());
    return photo;
}

tl::expected<void, EvidenceError> PhotoKeeper::shelve(const PhotoId& id, const QImage& image,
                                                      const QByteArray& bytes)
{
    if (bytes.size() > mostShelvedBytes)
        return tl::unexpected(EvidenceError::TooManyBytes);
    // Thumbnails first: where the photo is, they are.
    std::vector<ShelvedBytes> forms;
    QImage smaller = image;
    for (const ThumbnailSize size : thumbnailSizes) {
        smaller = shrunk(smaller, size);
        auto encoded = encodePhoto(smaller);
        if (!encoded)
            return tl::unexpected(encoded.error());
        forms.push_back({formOf(size), withSum(*encoded)});
    }
    forms.push_back({PhotoForm::Full, bytes});
    return m_shelf->write(id, forms);
}

tl::expected<bool, EvidenceError> PhotoKeeper::take(const PhotoId& id, const QByteArray& bytes)
{
    if (photoIdOf(bytes) != id)
        return tl::unexpected(EvidenceError::KeptDamaged);
    if (open(id))
        return false;
    const auto image = decodePhoto(bytes);
    if (!image)
        return tl::unexpected(image.error());
    if (const auto shelved = shelve(id, *image, bytes); !shelved)
        return tl::unexpected(shelved.error());
    return true;
}

tl::expected<QByteArray, EvidenceError> PhotoKeeper::open(const PhotoId& id) const
{
    if (!isPhotoId(id))
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    auto bytes = m_shelf->read(id, PhotoForm::Full);
    if (bytes && photoIdOf(*bytes) != id)
        return tl::unexpected(EvidenceError::KeptDamaged);
    return bytes;
}

tl::expected<QByteArray, EvidenceError> PhotoKeeper::thumbnail(const PhotoId& id,
                                                               ThumbnailSize size) const
{
    if (!isPhotoId(id))
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    if (const auto kept = m_shelf->read(id, formOf(size)))
        if (auto picture = wholeThumbnail(*kept))
            return std::move(*picture);
    const auto photo = open(id);
    if (!photo)
        return tl::unexpected(photo.error());
    const auto image = decodePhoto(*photo);
    if (!image)
        return tl::unexpected(EvidenceError::KeptDamaged);
    auto again = encodePhoto(shrunk(*image, size));
    if (!again)
        return tl::unexpected(again.error());
    // It can be shown without being kept, for example on a disk that is full.
    if (!m_shelf->write(id, {{formOf(size), withSum(*again)}}))
        log::warn(QStringLiteral("thumbnail of photo %1 could not be kept").arg(id.text));
    return again;
}

tl::expected<bool, EvidenceError> PhotoKeeper::remove(const PhotoId& id, Moment keptBefore)
{
    return isPhotoId(id) ? m_shelf->remove(id, keptBefore) : false;
}

tl::expected<std::vector<PhotoId>, EvidenceError> PhotoKeeper::list() const
{
    return m_shelf->list();
}

tl::expected<VaultReport, EvidenceError> PhotoKeeper::verify(const std::set<PhotoId>& known) const
{
    const auto present = m_shelf->list();
    if (!present) {
        // Nothing was ever kept, or the whole folder is away: the two must not look alike.
        if (present.error() == EvidenceError::FolderMissing && known.empty())
            return VaultReport{};
        return tl::unexpected(present.error());
    }
    VaultReport report;
    for (const PhotoId& id : *present) {
        const auto bytes = open(id);
        if (!bytes && bytes.error() == EvidenceError::DatabaseAway)
            return tl::unexpected(bytes.error());
        // One that cannot be read keeps nobody from hearing about the others.
        if (!bytes)
            report.damaged.push_back(id);
        else if (!known.contains(id))
            report.orphans.push_back(id);
    }
    std::set_difference(known.begin(), known.end(), present->begin(), present->end(),
                        std::back_inserter(report.missing));
    report.unfinished = m_shelf->unfinished();
    return report;
}

} // namespace ramplight
