// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

namespace ramplight {

struct CarState;

/// The workshop still has to do with it: it came in, has not left, and was not released, or is held
/// again since.
[[nodiscard]] bool isInPrep(const CarState& car);

} // namespace ramplight
