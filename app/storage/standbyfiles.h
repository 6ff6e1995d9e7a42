// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

// What lies in the folder of a kiosk that goes on without its server.
namespace ramplight::standbyfiles {

inline constexpr const char* mirror = "mirror.sqlite";
inline constexpr const char* outbox = "outbox.sqlite";
inline constexpr const char* working = "working.sqlite";
inline constexpr const char* freshWorking = "working.new.sqlite";

} // namespace ramplight::standbyfiles
