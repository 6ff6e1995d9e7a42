// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QSize>

class QVideoFrame;

namespace ramplight {

/// A video frame as an upright picture, no larger than `atMost` (none given: as large as the
/// frame), its sides in proportion; RGB32. Null when the frame cannot be read. What a frame costs
/// follows from the size asked for: a frame of 4K shown as wide as a hand is read at the points
/// that are shown. 8 and 10 bit YUV, and whatever QVideoFrame::toImage() knows. GUI thread.
/// @param quarterTurns to the right, until the picture stands upright
[[nodiscard]] QImage videoPixels(const QVideoFrame& frame, QSize atMost = {}, int quarterTurns = 0);

} // namespace ramplight
