// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/evidenceerror.h"

#include <QByteArray>
#include <QImage>

#include <tl/expected.hpp>

namespace ramplight {

/// What is taken in. Sources of the defaults: telephones make files of 5 to 25 MB and pictures of
/// 12 to 50 million pixels; the two smaller pixel limits keep the decoder under about 300 MB where
/// it cannot shrink while it reads.
struct PhotoLimits
{
    qint64 mostBytes = 40'000'000;
    qint64 mostPixels = 100'000'000;
    qint64 mostPixelsProgressive = 50'000'000; ///< JPEG whose scans build on one another
    qint64 mostPixelsPng = 32'000'000;
    int longSide = 2560; ///< what is larger is made smaller; nothing is made larger

    friend bool operator==(const PhotoLimits&, const PhotoLimits&) = default;
};

/// A file's bytes into an upright picture that can be shown and kept: JPEG and PNG only, told by
/// content, never by name; all sizes are checked before a pixel is decoded; orientation applied,
/// colours brought to sRGB, transparency laid on white, no text or other metadata left. RGB32.
/// Synchronous, no state, any thread; up to a second of work.
/// Errors: the first group of EvidenceError.
[[nodiscard]] tl::expected<QImage, EvidenceError> decodePhoto(const QByteArray& bytes,
                                                              const PhotoLimits& limits = {});

/// A frame of a camera or recording, brought to what decodePhoto() gives of a file: RGB32, its long
/// side within the limits.
[[nodiscard]] QImage fittedPhoto(const QImage& frame, const PhotoLimits& limits = {});

/// A picture as JPEG with pixels only: no EXIF, no comments, no colour profile. The same pixels
/// give the same bytes with the same libraries. Errors: Empty, CannotWrite.
[[nodiscard]] tl::expected<QByteArray, EvidenceError> encodePhoto(const QImage& image);

} // namespace ramplight
