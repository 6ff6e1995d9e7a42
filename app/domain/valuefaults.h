// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/refusal.h"

#include <optional>

// What a value cannot be, whoever enters it and whatever the catalogue says: deciding refuses it,
// and auditing names it. Pure functions.
namespace ramplight {

constexpr int largestReading = 10'000'000;
constexpr int largestOdometer = 2'000'000;
constexpr int mostKeys = 9;
constexpr int farthestPlanMinutes = 60 * 24 * 60; ///< as far as the planner plans

[[nodiscard]] std::optional<Refusal> factsFault(const CarFacts& facts);
[[nodiscard]] std::optional<Refusal> findingFault(const FindingData& data);
[[nodiscard]] std::optional<Refusal> treadFault(const Tread& tread);
[[nodiscard]] bool isTyre(const PlaceId& place);
/// Micrometres at points of one panel, as gauges show them.
[[nodiscard]] bool isPaintDepth(const std::vector<int>& micrometres);
/// Words where words are asked, one of the options, or a number that the unit can have.
[[nodiscard]] bool isAnswerTo(const ReadingSpec& spec, const ReadingValue& value);
/// A place of a spoken round that no car has; empty: all are there.
[[nodiscard]] PlaceId strangePlace(const SpokenRound& round);

} // namespace ramplight
