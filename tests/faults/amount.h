// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QtGlobal>

// How much a fault's test does, and how long it waits.
namespace ramplight::test {

/// What RAMPLIGHT_<name> in the environment says, as CMakeLists.txt has it for the long tests; few
/// without it.
[[nodiscard]] inline int amount(const char* name, int few)
{
    bool given = false;
    const int many = qEnvironmentVariableIntValue(QByteArray("RAMPLIGHT_").append(name), &given);
    return given ? many : few;
}

/// For a kiosk or a server that comes up, works or ends: milliseconds.
inline constexpr int patience = 120'000;
/// Where no work is waited for.
inline constexpr int shortPatience = 60'000;

} // namespace ramplight::test
