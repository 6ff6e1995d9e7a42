// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/moment.h"
#include "evidence/evidenceerror.h"

#include <QByteArray>
#include <QStringList>

#include <tl/expected.hpp>

#include <vector>

namespace ramplight {

/// In which size the bytes of a photo are kept.
enum class PhotoForm { Full, Panel, Card };

/// The bytes of one photo in one form.
struct ShelvedBytes
{
    PhotoForm form = PhotoForm::Full;
    QByteArray bytes;
};

/// More than any photo that is re-encoded at PhotoLimits::longSide comes to, in bytes.
inline constexpr qsizetype mostShelvedBytes = 16 * 1024 * 1024;

/// Where the bytes of photos lie: a folder, or a table of the workshop's database. It knows ids and
/// bytes and looks into neither; PhotoKeeper does. Calls block; any thread, several programs at
/// once.
class PhotoShelf
{
public:
    PhotoShelf() = default;
    PhotoShelf(const PhotoShelf&) = delete;
    PhotoShelf& operator=(const PhotoShelf&) = delete;
    virtual ~PhotoShelf() = default;

    /// Errors: NoSuchPhoto, NotPermitted, CannotRead, DatabaseAway.
    [[nodiscard]] virtual tl::expected<QByteArray, EvidenceError> read(const PhotoId& id,
                                                                       PhotoForm form) const = 0;
    /// In this order, so that the full picture, given last, stands for all; durable when it
    /// returns. What is there is written over. Errors: NotPermitted, DiskFull, CannotWrite,
    /// TooManyBytes, DatabaseAway.
    [[nodiscard]] virtual tl::expected<void, EvidenceError>
    write(const PhotoId& id, const std::vector<ShelvedBytes>& forms) = 0;
    /// The photo counts as kept just now: somebody is about to name it. Errors: those of write().
    [[nodiscard]] virtual tl::expected<void, EvidenceError> touch(const PhotoId& id) = 0;
    /// In all its forms, the full picture last; false when it was kept or touched at or after this
    /// moment, or is not there. Errors: those of write().
    [[nodiscard]] virtual tl::expected<bool, EvidenceError> remove(const PhotoId& id,
                                                                   Moment keptBefore) = 0;
    /// Every photo of which the full picture is there, sorted. Errors: FolderMissing, NotPermitted,
    /// CannotRead, DatabaseAway.
    [[nodiscard]] virtual tl::expected<std::vector<PhotoId>, EvidenceError> list() const = 0;
    /// Left by a break while writing; nothing is lost with them.
    [[nodiscard]] virtual QStringList unfinished() const { return {}; }
};

} // namespace ramplight
