// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carfacts.h"

#include <QStringList>

namespace ramplight {

/// What is said otherwise of a car now, for a person: "odometer 20000 mi instead of 120000 mi",
/// "run-flat tyres", "no run-flat tyres".
[[nodiscard]] QStringList changeWords(const CarFacts& was, const CarFacts& is);

} // namespace ramplight
