// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/desk.h"
#include "kiosk/phototarget.h"

#include <functional>
#include <vector>

namespace ramplight {

/// Of photos that were put where they belong just now, and stand last on the car: adds a warning to
/// each that is almost the same picture as an earlier one of the same work and place. then() comes
/// once that is known, on the thread of context, which outlives the wait or ends it.
void tellSeenBefore(Desk& desk, QObject* context, const PhotoTarget& target, const CarState& car,
                    std::vector<PhotoTaken> taken,
                    std::function<void(const std::vector<PhotoTaken>&)> then);

} // namespace ramplight
