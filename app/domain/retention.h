// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/houserules.h"

#include <vector>

// How long a house keeps the photos of a car (HouseRules::photoYears). Pure.
namespace ramplight {

struct AttachedPhoto;

/// The photo that an event rests on; empty when there is none.
[[nodiscard]] PhotoId photoOf(const CarEvent& event);

/// What an entry means for the photos of its car; part of apply().
void followPhotos(std::map<PhotoId, PhotoFate>& fates, const CarEnvelope& envelope);

/// What an entry means for the photos that show its car's corrections; part of apply().
void followProofs(std::vector<AttachedPhoto>& proofs, const CarEnvelope& envelope);

/// When the car went out of prep: released or left, whichever was later. Null while it is in prep,
/// also where it is held again or was brought back.
[[nodiscard]] Moment outOfPrepAt(const CarState& car);

/// Photos that may be removed now: those of a car that is out of prep for more than the house's
/// years, each counted from its own last entry where that is later. None where the house keeps
/// them for good.
[[nodiscard]] std::vector<PhotoId> photosDue(const CarState& car, const HouseRules& rules,
                                             Moment now);

/// The last day on which the first of the car's photos is still kept; invalid where none ever goes
/// as things stand.
[[nodiscard]] QDate photosKeptUntil(const CarState& car, const HouseRules& rules);

/// "1 year", "6 years"
[[nodiscard]] QString yearsWords(int years);
/// Instead of a photo: "removed after 6 years".
[[nodiscard]] QString removedWords(const PhotoFate& fate);

} // namespace ramplight
