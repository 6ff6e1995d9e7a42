// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"

namespace ramplight {

/// Qt's messages and the program's own go to the workshop's log file, which rotates within bounded
/// disk, and to the standard error. Ids only: no PIN, no photo content, no names.
void startLogging(const HousePaths& paths);

/// For the sub-commands: what goes wrong, to the standard error only; the standard output belongs
/// to their answers.
void startTerminalLogging();

} // namespace ramplight
