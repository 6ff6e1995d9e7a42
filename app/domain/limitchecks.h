// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"

#include <QStringList>

// Whether the limits that a catalogue names once hold together: every country has the same names,
// each has a bound and a source, and what is named fits the readings that use it. Pure.
namespace ramplight {

/// Faults in words, each naming country or operation and limit; empty when all is good.
[[nodiscard]] QStringList checkNamedLimits(const Catalogue& catalogue);

} // namespace ramplight
