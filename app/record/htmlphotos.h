// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"

#include <tl/expected.hpp>

namespace ramplight {

/// A photo for a document, as JPEG.
struct BoundedPhoto
{
    QByteArray jpeg;
    QSize size; ///< pixels
};

/// At most so many bytes: coarser, then smaller, until it fits. Errors: those of
/// PhotoVault::open().
[[nodiscard]] tl::expected<BoundedPhoto, EvidenceError>
boundedPhoto(const PhotoVault& photos, const PhotoId& id, qsizetype mostBytes);

/// How many bytes each of so many photos may have, so that all together stay below 9 MB.
[[nodiscard]] qsizetype mostBytesEach(std::size_t count);

} // namespace ramplight
