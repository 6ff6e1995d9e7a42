// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"

#include <QStringList>

// Whether the rules from findings to work hold together: ids, places, bounds, safety places that
// something clears, and what is suggested. Pure.
namespace ramplight {

/// Faults in words, each naming rule or place and field; empty when all is good.
[[nodiscard]] QStringList checkRules(const Catalogue& catalogue);

} // namespace ramplight
