// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"
#include "domain/site.h"

namespace ramplight {

/// The car with the work that is certain to come: what the closing of its open operations makes due
/// (wheels that are off go on again, and their fixings are checked), and what closing that makes
/// due. It rests on what opens it, and its ids are from CarState::nextOperation on, which no ledger
/// has given yet. Findings and readings that nobody made foresee nothing. For planning; never kept.
/// catalogue: in force in the house.
[[nodiscard]] CarState withForeseen(const CarState& car, const Catalogue& catalogue,
                                    const SiteState& site, Moment now);

} // namespace ramplight
