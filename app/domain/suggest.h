// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"

#include <optional>
#include <vector>

// What an appraiser is offered at a place: conditions and remedies that make sense there, out of
// the catalogue. Only an offer; what is chosen decides nothing that the rules do not. Pure.
namespace ramplight {

/// The remedies that make sense for what was seen, the usual one first. Severity is empty while
/// nobody has said it. Never empty for a place of the vocabulary.
[[nodiscard]] std::vector<Remedy> usualRemedies(const Catalogue& catalogue, const CarFacts& facts,
                                                const PlaceId& place, Condition condition,
                                                std::optional<Severity> severity);

/// The conditions that such a place can have, the likely ones first. What is not among them may
/// be said of it all the same.
[[nodiscard]] std::vector<Condition> usualConditions(const Catalogue& catalogue,
                                                     const PlaceId& place);

} // namespace ramplight
