// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/houserules.h"

#include <QString>

#include <optional>

namespace ramplight {

constexpr int largestBound = 10'000'000;

/// What of the house's rules cannot be, whatever the catalogue; nothing when all can.
[[nodiscard]] std::optional<QString> boundsFault(const HouseRules& rules);
/// What of the house's changes to an operation cannot be; without the operation, whatever it is.
[[nodiscard]] std::optional<QString> adjustmentFault(const OperationAdjustment& own,
                                                     const OperationSpec* spec);

} // namespace ramplight
