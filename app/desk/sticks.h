// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/sticks.h"

#include <QStringList>

#include <vector>

// Sticks that are in the kiosk. Blocks while it asks the system; any thread.
namespace ramplight {

/// What is mounted below the roots, and roots that stand for a stick themselves. None of the
/// folders in which systems only mount sticks ("/media").
[[nodiscard]] std::vector<Stick> sticksToWriteOn(const QStringList& roots);

} // namespace ramplight
