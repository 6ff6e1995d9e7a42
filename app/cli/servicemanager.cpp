// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/servicemanager.h"

#include <systemd/sd-daemon.h>

#include <cstdint>

namespace ramplight::service {

void ready()
{
    sd_notify(0, "READY=1");
}

void alive()
{
    sd_notify(0, "WATCHDOG=1");
}

std::chrono::microseconds patience()
{
    std::uint64_t microseconds = 0;
    return sd_watchdog_enabled(0, &microseconds) > 0 ? std::chrono::microseconds(microseconds)
                                                     : std::chrono::microseconds(0);
}

} // namespace ramplight::service
