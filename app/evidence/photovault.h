// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "evidence/evidenceerror.h"

#include <QByteArray>
#include <QImage>
#include <QSize>
#include <QStringList>

#include <tl/expected.hpp>

#include <set>
#include <vector>

namespace ramplight {

/// A photo that is kept.
struct StoredPhoto
{
    PhotoId id;       ///< SHA-256 of the kept bytes
    QSize size;       ///< pixels
    qint64 bytes = 0; ///< of the full picture, without thumbnails

    friend bool operator==(const StoredPhoto&, const StoredPhoto&) = default;
};

/// Long side in pixels; a smaller photo keeps its own size.
enum class ThumbnailSize {
    Card = 160,  ///< in lists and on cards
    Panel = 640, ///< beside an operation and on the printed record
};

/// What was found when every photo was read and compared with its id. All lists sorted.
struct VaultReport
{
    std::vector<PhotoId> missing; ///< known, and not here
    std::vector<PhotoId> damaged; ///< here, and cannot be read or is no longer what was stored
    std::vector<PhotoId> orphans; ///< here and whole, and nobody knows them
    QStringList unfinished;       ///< left by a break while writing; nothing is lost with them

    [[nodiscard]] bool isClean() const
    {
        return missing.empty() && damaged.empty() && orphans.empty() && unfinished.isEmpty();
    }
    friend bool operator==(const VaultReport&, const VaultReport&) = default;
};

/// Where photos are kept, by the hash of their bytes: what is kept never changes, and the same
/// picture is kept once. Calls block for disk or database; callers run them on a pool.
/// Implementations may be used from several threads and several programs at once.
class PhotoVault
{
public:
    PhotoVault() = default;
    PhotoVault(const PhotoVault&) = delete;
    PhotoVault& operator=(const PhotoVault&) = delete;
    virtual ~PhotoVault() = default;

    /// Encodes and keeps a picture from decodePhoto() or a camera; durable when it returns. Keeping
    /// it again changes nothing, or mends a damaged one.
    /// Errors: Empty, NotPermitted, DiskFull, CannotWrite.
    [[nodiscard]] virtual tl::expected<StoredPhoto, EvidenceError> keep(const QImage& image) = 0;
    /// The kept bytes (JPEG), compared with the id first.
    /// Errors: NoSuchPhoto, KeptDamaged, NotPermitted, CannotRead.
    [[nodiscard]] virtual tl::expected<QByteArray, EvidenceError> open(const PhotoId& id) const = 0;
    /// JPEG bytes; made again from the photo when it is gone. Errors: those of open().
    [[nodiscard]] virtual tl::expected<QByteArray, EvidenceError>
    thumbnail(const PhotoId& id, ThumbnailSize size) const = 0;
    /// Reads everything. Errors: FolderMissing, NotPermitted, CannotRead.
    [[nodiscard]] virtual tl::expected<VaultReport, EvidenceError>
    verify(const std::set<PhotoId>& known) const = 0;
};

} // namespace ramplight
