// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/site.h"

#include <map>
#include <vector>

// What must hold whatever was asked, in whatever order. Written from what the workshop promises,
// not from the code that keeps it: nothing here calls decide(), holds() or missingEvidence().
// Each answers with what is broken, in words; empty when all is well.
namespace ramplight::test {

/// A car as it stands: released only without open safety work and unseen safety places; closed
/// safety work has its readings, photos and signatures; minutes are never below nought.
[[nodiscard]] QString brokenInState(const CarState& car);
/// The entries of one command, on the car as it was before.
[[nodiscard]] QString brokenInStep(const CarState& before, const std::vector<CarEnvelope>& entries,
                                   const SiteState& site);
/// What the entry that ended said the car has is not forgotten with it.
[[nodiscard]] QString brokenInJoin(const CarState& kept, const CarState& ended);
/// One timer per person, and no two stretches of one person at a time.
[[nodiscard]] QString brokenInTimers(const std::map<CarId, CarState>& cars);
/// Without gaps, never back in time; written as rows and read again it makes the same car.
[[nodiscard]] QString brokenInStream(const CarState& car, const std::vector<CarEnvelope>& history);

} // namespace ramplight::test
