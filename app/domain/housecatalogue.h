// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/site.h"

#include <optional>

// The catalogue as it holds in this house today: the file's operations with the limits of the
// country and of the house put where they are named. Pure.
namespace ramplight {

/// A limit by its name: the house's own, else its country's. Empty when neither has one of that
/// name.
[[nodiscard]] std::optional<NamedLimit> namedLimit(const Catalogue& catalogue,
                                                   const HouseRules& rules, const QString& name);

/// The catalogue that the house works by before its own changes: the one it took in, else the file.
/// A reference into one of the two.
[[nodiscard]] const Catalogue& baseCatalogue(const Catalogue& file, const SiteState& site);
/// The bound on a reading that is the house's own to move; null when there is none. What is only
/// named is moved where it is named.
[[nodiscard]] const Limit* ownLimit(const ReadingSpec& reading);
/// Puts what the house changed into its operations: minutes, material, its own bounds, photos.
void adjust(Catalogue& catalogue, const SiteState& site);

/// The base with the house's changes, and every limit that is only named with its owner, source and
/// bound.
[[nodiscard]] Catalogue houseCatalogue(const Catalogue& file, const SiteState& site);

} // namespace ramplight
