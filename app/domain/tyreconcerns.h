// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"
#include "domain/site.h"

#include <QDate>

#include <vector>

// What follows from what was measured and read off a car's tyres, whoever typed it. Every figure is
// one of the named limits of country and house (housecatalogue.h); where one is missing nothing is
// concluded. Pure.
namespace ramplight {

/// Tenths of a millimetre below which a tyre is replaced: the house's, else the catalogue's rule.
[[nodiscard]] int leastTread(const Catalogue& catalogue, const HouseRules& rules);

/// What is to be found out about one tyre, each with the reason in its note: tread too low, worn
/// askew (alignment), too old, not what the car asks for, not like the other one of its axle. Also
/// what stands on the car already. While a survey has read one tyre of an axle only, their treads
/// are not compared.
[[nodiscard]] std::vector<FindingData> tyreConcerns(const CarState& car, const PlaceId& tyre,
                                                    const Catalogue& catalogue,
                                                    const HouseRules& rules, QDate today);

/// The other tyre of the axle; empty for a spare or a place that is no tyre.
[[nodiscard]] PlaceId tyreBeside(const PlaceId& tyre);

} // namespace ramplight
