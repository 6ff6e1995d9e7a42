// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

// What the program says to whoever looks after it, one line at a time; where it goes is decided at
// the start (cli/logging.h). Never names of people, PINs or passwords. From any thread. spdlog
// stays behind this: its templates cost each unit that uses them 2 s.
namespace ramplight::log {

void info(const QString& line);
void warn(const QString& line);
void error(const QString& line);

} // namespace ramplight::log
