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

/// Every limit that is only named gets its owner, source and bound.
[[nodiscard]] Catalogue houseCatalogue(const Catalogue& file, const SiteState& site);

} // namespace ramplight
