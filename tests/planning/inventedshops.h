// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shop.h"

#include <cstdint>

// Workshops out of a seed, for tests and benches.
namespace ramplight::test {

/// Small and odd: every feature of the model somewhere, gaps in everybody's times, absurd orders.
[[nodiscard]] planning::Shop oddShop(std::uint64_t seed);

/// A preparation workshop with some weeks of weekdays ahead, 8 to 17 o'clock, mostly ten jobs on a
/// car: intake, inspection, repairs by four trades, paint, glass, valet, last check.
[[nodiscard]] planning::Shop preparationShop(std::uint64_t seed, int cars = 60);

} // namespace ramplight::test
