// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "log/log.h"

#include <spdlog/spdlog.h>

namespace ramplight::log {

void info(const QString& line)
{
    spdlog::info(line.toStdString());
}

void warn(const QString& line)
{
    spdlog::warn(line.toStdString());
}

void error(const QString& line)
{
    spdlog::error(line.toStdString());
}

} // namespace ramplight::log
