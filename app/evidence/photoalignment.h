// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QRectF>
#include <QTransform>

// How a photo taken after the work lies on one taken before it: image registration by a similarity
// transform (shift, scale, turn). Sources of the two steps: normalised cross-correlation over all
// coarse shifts, scales and turns (J. P. Lewis, "Fast Normalized Cross-Correlation", 1995), then
// the best of them refined from coarse to fine by maximising the enhanced correlation coefficient
// (G. D. Evangelidis, E. Z. Psarakis, "Parametric Image Alignment Using Enhanced Correlation
// Coefficient Maximization", IEEE PAMI 30(10), 2008).
namespace ramplight {

/// Before to after: x' = a x - b y + right, y' = b x + a y + down. Each in its own picture's
/// measure: from the middle, rightwards and downwards, the long side is 1.
struct Similarity
{
    double a = 1;
    double b = 0;
    double right = 0;
    double down = 0;

    [[nodiscard]] double scale() const;   ///< above 1: the later photo was taken from nearer
    [[nodiscard]] double degrees() const; ///< clockwise turn of what is in the later photo

    friend bool operator==(const Similarity&, const Similarity&) = default;
};

/// What was found, and how well it fits.
struct PhotoAlignment
{
    Similarity toAfter;
    /// Correlation of the two where they overlap, light and contrast of each place taken out:
    /// 1 is the same picture, 0 has nothing in common.
    double correlation = 0;
    double overlap = 0; ///< share of the earlier photo that the later one covers, 0 to 1

    /// Whether one may be laid on the other without misleading who looks. Where the two limits come
    /// from: tests/evidence/tst_photoalignment.cpp measures both sides of them.
    [[nodiscard]] bool isClose() const;

    friend bool operator==(const PhotoAlignment&, const PhotoAlignment&) = default;
};

/// Looks for shifts up to 0.3 of the long side, scales of 0.7 to 1.4 and turns up to 18 degrees.
/// Works on copies of 320 pixels, so the time is the same for every pair (bench `intake`); 640
/// pixels in say as much as 2560. Pure, no chance in it, any thread. An empty picture is close to
/// nothing.
[[nodiscard]] PhotoAlignment alignPhotos(const QImage& before, const QImage& after);

/// The similarity in pixels of pictures of these sizes.
[[nodiscard]] QTransform pixelTransform(const Similarity& toAfter, QSize before, QSize after);

/// An upright part of the earlier picture that the later one covers wholly, the largest but for
/// slivers; pixels of the earlier. For small turns. Null when there is none.
[[nodiscard]] QRectF commonPart(const Similarity& toAfter, QSize before, QSize after);

} // namespace ramplight
