// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photokeeper.h"

#include <QString>

namespace ramplight {

/// Photos in a folder: <root>/ab/cdef....jpg by the id, its thumbnails cdef....160.jpg and .640.jpg
/// beside it, files being written in <root>/drafts. A file appears under its name only when it is
/// whole and on the disk; its time says when the photo was last kept. The root is made by the first
/// write(); the folder above it must exist.
class FolderShelf : public PhotoShelf
{
public:
    explicit FolderShelf(QString root);

    [[nodiscard]] tl::expected<QByteArray, EvidenceError> read(const PhotoId& id,
                                                               PhotoForm form) const override;
    [[nodiscard]] tl::expected<void, EvidenceError>
    write(const PhotoId& id, const std::vector<ShelvedBytes>& forms) override;
    [[nodiscard]] tl::expected<void, EvidenceError> touch(const PhotoId& id) override;
    [[nodiscard]] tl::expected<bool, EvidenceError> remove(const PhotoId& id,
                                                           Moment keptBefore) override;
    [[nodiscard]] tl::expected<std::vector<PhotoId>, EvidenceError> list() const override;
    [[nodiscard]] QStringList unfinished() const override;

    /// For error messages and backups; empty for what is no id.
    [[nodiscard]] QString pathOf(const PhotoId& id, PhotoForm form) const;

private:
    [[nodiscard]] QString draftFolder() const;

    QString m_root;
};

/// Photos kept in a folder of this machine.
class PhotoStore : public PhotoKeeper
{
public:
    explicit PhotoStore(QString root);
    /// Where a photo is kept; empty for what is no id.
    [[nodiscard]] QString pathOf(const PhotoId& id) const;

private:
    QString m_root;
};

} // namespace ramplight
