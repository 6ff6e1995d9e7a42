// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/keptrequest.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace ramplight {

struct CarState;
struct HouseRules;

/// Where a photo belongs. Made when it is asked for, because a picture takes a while to come and to
/// be kept: another car or another person may be at the screen by then. A value; any thread.
struct PhotoTarget
{
    CarId car;
    QString why;            ///< what a PIN is asked for
    car::AttachPhoto photo; ///< moment, place and what it shows; without its picture
    KeptWork shown = {};    ///< what it shows, whatever number that has by then

    /// With the number that what it shows has in this state of the car. Nothing: it is not in it.
    [[nodiscard]] std::optional<car::AttachPhoto> with(const PhotoId& picture,
                                                       const CarState& now) const;
    /// For a person: with() says nothing.
    [[nodiscard]] static QString goneWords();
    /// The same photo of the same thing is asked for.
    [[nodiscard]] bool isSameAs(const PhotoTarget& other) const;
    /// Photos of the same work and place, or else of the same finding, that the car had before its
    /// last `fresh` ones; without those that were removed.
    [[nodiscard]] std::vector<PhotoId> earlierOnes(const CarState& state, std::size_t fresh) const;
};

/// moment: before, during, after. Nothing when there is no such moment or operation.
[[nodiscard]] std::optional<PhotoTarget> photoOfWork(const CarState& car, OperationId operation,
                                                     const QString& moment,
                                                     const HouseRules& rules);
/// Taken before any work; of the car itself when there is no such finding.
[[nodiscard]] PhotoTarget photoOfFinding(const CarState& car, FindingId finding);

} // namespace ramplight
