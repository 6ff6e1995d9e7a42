// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

namespace ramplight::test {

/// Whoever set it up.
inline constexpr const char* smallHomesManager = "Orla Vane";

/// A workshop's folder as the program makes it, with one person, a car and a few photos: what is
/// done to all of it takes no second. The fault, or nothing.
[[nodiscard]] QString makeSmallHome(const QString& home);

} // namespace ramplight::test
