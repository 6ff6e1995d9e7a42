// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shopindex.h"
#include "planning/shopsearch.h"

#include <vector>

namespace ramplight::planning {

/// What soon begins stays as it was planned, where that is still possible.
[[nodiscard]] std::vector<Fixed> steadyJobs(const ShopIndex& index, const ShopSearch& search);

} // namespace ramplight::planning
