// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"

#include <QString>

namespace ramplight {

/// Photos in a folder: <root>/ab/cdef....jpg by the id, its thumbnails cdef....160.jpg and .640.jpg
/// beside it, files being written in <root>/drafts. A file appears under its name only when it is
/// whole and on the disk. The root is made by the first keep(); the folder above it must exist.
class PhotoStore : public PhotoVault
{
public:
    explicit PhotoStore(QString root);

    [[nodiscard]] tl::expected<StoredPhoto, EvidenceError> keep(const QImage& image) override;
    [[nodiscard]] tl::expected<QByteArray, EvidenceError> open(const PhotoId& id) const override;
    [[nodiscard]] tl::expected<QByteArray, EvidenceError>
    thumbnail(const PhotoId& id, ThumbnailSize size) const override;
    [[nodiscard]] tl::expected<VaultReport, EvidenceError>
    verify(const std::set<PhotoId>& known) const override;

    /// Where a photo is kept, for error messages and backups; empty for what is no id.
    [[nodiscard]] QString pathOf(const PhotoId& id) const;

private:
    [[nodiscard]] QString draftFolder() const;
    [[nodiscard]] QString thumbnailPath(const PhotoId& id, ThumbnailSize size) const;
    [[nodiscard]] tl::expected<void, EvidenceError>
    keepThumbnail(const PhotoId& id, const QByteArray& bytes, ThumbnailSize size) const;

    QString m_root;
};

/// The id of bytes: lower-case hex SHA-256.
[[nodiscard]] PhotoId photoIdOf(QByteArrayView bytes);

} // namespace ramplight
