// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>

// Whether two photos are all but the same picture: one file that was picked twice, a second touch
// of the shutter, a copy that a telephone made smaller. What was taken of the same thing on purpose
// after work on it differs at least where the work was, and is not the same. Pure, any thread,
// about a millisecond for a pair.
namespace ramplight {

/// How a photo is compared with others: grey, 128 pixels on its long side. A thumbnail gives the
/// same as the whole picture. Null for an empty one.
[[nodiscard]] QImage smallGrey(const QImage& image);

/// How much there is in one of two small grey pictures that is not in the other, where that is
/// most: in grey levels of 255, mean over a square of 1/32 of the long side, light and contrast of
/// the whole picture taken out. A shift of up to 1/40 of the long side counts nothing. 255 for
/// pictures of other proportions or empty ones.
[[nodiscard]] double unlikeness(const QImage& one, const QImage& other);

/// Up to this two pictures are almost the same; tests/evidence/tst_photoquality.cpp measures both
/// sides of it.
inline constexpr double almostSame = 8.0;

} // namespace ramplight
