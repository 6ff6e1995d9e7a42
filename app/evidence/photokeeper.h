// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photoshelf.h"
#include "evidence/photovault.h"

#include <memory>

namespace ramplight {

/// The vault over a shelf: encodes, names by content, makes the thumbnails once, and compares what
/// it reads with its id. Any thread.
class PhotoKeeper : public PhotoVault
{
public:
    explicit PhotoKeeper(std::unique_ptr<PhotoShelf> shelf);

    [[nodiscard]] tl::expected<StoredPhoto, EvidenceError> keep(const QImage& image) override;
    [[nodiscard]] tl::expected<QByteArray, EvidenceError> open(const PhotoId& id) const override;
    [[nodiscard]] tl::expected<QByteArray, EvidenceError>
    thumbnail(const PhotoId& id, ThumbnailSize size) const override;
    [[nodiscard]] tl::expected<VaultReport, EvidenceError>
    verify(const std::set<PhotoId>& known) const override;

    /// Takes over bytes that another vault kept, as they are; true when they were not here yet.
    /// Errors: KeptDamaged when they are not those of the id, and those of keep().
    [[nodiscard]] tl::expected<bool, EvidenceError> take(const PhotoId& id,
                                                         const QByteArray& bytes);
    /// For good; false when it was kept again at or after this moment, or is not here.
    [[nodiscard]] tl::expected<bool, EvidenceError> remove(const PhotoId& id, Moment keptBefore);
    /// Every photo that is here, sorted.
    [[nodiscard]] tl::expected<std::vector<PhotoId>, EvidenceError> list() const;

private:
    [[nodiscard]] tl::expected<void, EvidenceError> shelve(const PhotoId& id, const QImage& image,
                                                           const QByteArray& bytes);

    std::unique_ptr<PhotoShelf> m_shelf;
};

/// The id of bytes: lower-case hex SHA-256.
[[nodiscard]] PhotoId photoIdOf(QByteArrayView bytes);
/// Whether it can be an id: nothing else reaches a shelf.
[[nodiscard]] bool isPhotoId(const PhotoId& id);

} // namespace ramplight
