// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/evidenceerror.h"

#include <QByteArrayView>
#include <QSize>

#include <tl/expected.hpp>

namespace ramplight {

enum class PhotoFormat { Jpeg, Png };

/// What the structure of a file says about its picture, before anything is decoded.
struct PhotoFacts
{
    PhotoFormat format = PhotoFormat::Jpeg;
    QSize size;               ///< as stored, before any orientation
    bool progressive = false; ///< JPEG: the decoder must hold the whole picture in memory

    friend bool operator==(const PhotoFacts&, const PhotoFacts&) = default;
};

/// JPEG by its first bytes; likewise PNG. Needs 8 bytes.
[[nodiscard]] bool looksLikePhoto(QByteArrayView firstBytes);

/// Walks the segments (ISO/IEC 10918-1, annex B) or chunks (PNG, ISO/IEC 15948, clause 5) from end
/// to end without decoding. Bytes behind the end of the picture are ignored, because some cameras
/// add some. Pure, any thread, linear in the size. Errors: Empty, NotAPhoto, Drawing,
/// MovingPicture, PhoneFormat, Disguised, Truncated, Damaged, PrintColours, DeepColour.
[[nodiscard]] tl::expected<PhotoFacts, EvidenceError> photoFacts(QByteArrayView bytes);

/// A PNG that photoFacts() has walked, with the chunks that make its pixels and their colours only:
/// compressed text and the like never reach a decoder, which would unpack it.
[[nodiscard]] QByteArray pixelChunks(QByteArrayView png);

} // namespace ramplight
