// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QtGlobal>

#include <functional>

namespace ramplight {

/// Milliseconds since it was made, whatever becomes of the clock on the wall.
[[nodiscard]] std::function<qint64()> steadyCount();

} // namespace ramplight
