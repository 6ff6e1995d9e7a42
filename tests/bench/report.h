// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <vector>

// Figures of a bench, and how it tells them.
namespace ramplight::test {

/// share in 0..1: 0.5 is the median. values is not empty.
[[nodiscard]] double quantile(std::vector<double> values, double share);

enum class Aim { AtLeast, AtMost, Under };

/// Prints both figures, ours by the bare one, and whether the aim is met:
/// "signing: ours 180 per s, bare 230 per s, ratio 0.78, aim at least 0.70: met".
void tell(const QString& what, double ours, double bare, const QString& unit, Aim aim,
          double limit);

} // namespace ramplight::test
