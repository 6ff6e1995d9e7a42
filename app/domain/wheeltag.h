// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/vocabulary.h"

#include <QString>

#include <optional>

// The tag that goes with a wheel which leaves its car: stock number and corner, so that it comes
// back to both. Pure.
namespace ramplight {

struct WheelTag
{
    QString stockNumber;
    PlaceId wheel;
    friend bool operator==(const WheelTag&, const WheelTag&) = default;
};

/// "FL", "FR", "RL", "RR" as seen from the driver's seat, "SP" the spare; empty for other places.
[[nodiscard]] QString cornerCode(const PlaceId& wheel);
/// Any case; also a wheel's or tyre's place. Empty when it is no corner.
[[nodiscard]] PlaceId wheelOfCorner(const QString& corner);

/// "FL-RL-2041", what stands behind the prefix of a tag's code.
[[nodiscard]] QString tagCode(const WheelTag& tag);
/// Empty when the code is none of ours.
[[nodiscard]] std::optional<WheelTag> readTagCode(const QString& code);

} // namespace ramplight
