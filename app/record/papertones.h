// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "outlines/carpainter.h"
#include "record/paper.h"

#include <QColor>

// The colours of a record, for every way in which it is drawn.
namespace ramplight::paper {

namespace tones {
inline const QColor ink(0x1e, 0x1c, 0x1a);
inline const QColor muted(0x5a, 0x55, 0x4c);
inline const QColor accent(0x0a, 0x57, 0x51);
inline const QColor seam(0x9a, 0x93, 0x88);
inline const QColor body(0xff, 0xff, 0xff);
inline const QColor glass(0xec, 0xe9, 0xe2);
inline const QColor filled(0xb9, 0xb1, 0xa3);
inline const QColor empty(0xf3, 0xf0, 0xea);
} // namespace tones

[[nodiscard]] inline QColor colourOf(Tone tone)
{
    return tone == Tone::Ink ? tones::ink : tone == Tone::Muted ? tones::muted : tones::accent;
}

[[nodiscard]] inline CarLook carLook()
{
    return {tones::ink,    tones::seam,   tones::body,  tones::glass,
            tones::filled, tones::accent, tones::muted, 0.22 * mm};
}

} // namespace ramplight::paper
