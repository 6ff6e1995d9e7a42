// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shop.h"

#include <QStringList>

// Checks a plan against its workshop from the plain description of both. Shares nothing with what
// makes plans.
namespace ramplight::test {

/// What is wrong with a plan, in words; empty when nothing is.
[[nodiscard]] QStringList faultsOfPlan(const planning::Shop& shop, const planning::ShopPlan& plan);

} // namespace ramplight::test
