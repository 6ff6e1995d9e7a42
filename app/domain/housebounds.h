// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/houserules.h"

#include <QString>

#include <optional>

namespace ramplight {

/// What of the house's rules cannot be, whatever the catalogue; nothing when all can.
[[nodiscard]] std::optional<QString> boundsFault(const HouseRules& rules);

} // namespace ramplight
