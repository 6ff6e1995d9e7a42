// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

// What a manager does by touch in several tests.
namespace ramplight::test {

/// From the wall to people and bays, signed in.
[[nodiscard]] bool goToStaff(KioskBench& bench, const QString& who);
/// From there to the settings.
[[nodiscard]] bool goToSettings(KioskBench& bench,
                                const QString& who = QStringLiteral("Runa Talbeck"));
/// The PIN again of who is signed in, on the pad that now lies over everything.
[[nodiscard]] bool signAgain(KioskBench& bench);

} // namespace ramplight::test
