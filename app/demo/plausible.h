// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"

#include <QRandomGenerator>

// What somebody at work in the demo workshop would have measured: values that let the operation
// close, invented. In the units and decimals of the reading.
namespace ramplight::demo {

/// A figure that any car of the demo could have.
[[nodiscard]] int plausibleFigure(const ReadingSpec& spec);

/// Inside the reading's limits and at its figure, as far as they are known; of several answers the
/// plainest that lets the operation close.
[[nodiscard]] ReadingValue plausibleReading(const Operation& operation, const ReadingSpec& spec,
                                            const PlaceId& place, QRandomGenerator& random);

} // namespace ramplight::demo
