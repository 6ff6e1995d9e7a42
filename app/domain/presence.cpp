// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/presence.h"

#include "domain/car.h"

namespace ramplight {

bool isInPrep(const CarState& car)
{
    return car.exists() && !car.left && (!car.released || !car.heldAgainWhy.isEmpty());
}

} // namespace ramplight
