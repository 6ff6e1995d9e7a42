// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"

// A workshop that was to take another's place when the machine stopped.
namespace ramplight {

/// Finishes a restore or a making anew that broke off between two names. Before anything is made or
/// logged in the workshop's folder. What it did, in words.
QStringList finishWhatBrokeOff(const HousePaths& paths, Moment now);

/// What was set aside beside a workshop that is not there, and what to do, in words; empty:
/// nothing, or it is there.
[[nodiscard]] QString whatWasSetAside(const HousePaths& paths);

} // namespace ramplight
