// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/carcommands.h"

// What a person still has to decide about a spoken walk-round. Nothing of it is kept: it follows
// from the car as it stands, so a review goes on wherever it was left. Pure.
namespace ramplight {

/// Of a hundred drafts: from here on they may be kept together.
inline constexpr int surePercent = 80;
[[nodiscard]] bool isSure(const SpokenDraft& draft);

struct ReviewLeft
{
    std::vector<int> doubtful; ///< open drafts, the least likely one first
    std::vector<int> sure;     ///< open drafts, in the order in which they were said
    /// Of tyres that nobody has measured, one each: a tyre that was spoken of twice has the span.
    std::vector<SpokenDepth> depths;
    std::vector<PlaceId> sound;        ///< said to be so, and nobody has looked
    std::vector<PlaceId> notMentioned; ///< and nobody has looked
    SaidOfCar facts;                   ///< what differs from what is known
};

[[nodiscard]] ReviewLeft leftOf(const CarState& car, const SpokenReview& review);

/// Findings come before depths: a low depth is a finding by itself, and would be one twice.
[[nodiscard]] bool waitsForDraft(const SpokenReview& review, const PlaceId& tyre);
/// A single depth stands for all three points of the tyre; a span has to be measured.
[[nodiscard]] std::optional<Tread> treadOf(const SpokenDepth& depth);
/// The odometer was said to show less than somebody has read before: one of them is wrong.
[[nodiscard]] bool saysLess(const CarState& car, const SaidOfCar& said);
/// Takes what was said of the car, but for an odometer that shows less; empty when there is
/// nothing.
[[nodiscard]] std::vector<CarCommand> takeFacts(const CarState& car, const SaidOfCar& left,
                                                const QString& reason);

/// The one of these numbers that a file's name carries as a word of its own, with or without its
/// dashes: "r208 walk.vtt" names R-208, "AR-208.vtt" does not. The longest one; none when two fit.
[[nodiscard]] std::optional<std::size_t> numberNamedBy(const QString& fileName,
                                                       const std::vector<QString>& numbers);

} // namespace ramplight
