// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <chrono>

// What systemd is told (sd_notify(3)), where it started the kiosk; nothing happens elsewhere. Any
// thread.
namespace ramplight::service {

void ready();
void alive();
/// After how long without alive() the kiosk is started again; zero: nobody watches.
[[nodiscard]] std::chrono::microseconds patience();

} // namespace ramplight::service
