// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/pinhasher.h"
#include "domain/ids.h"
#include "domain/moment.h"

// Who signs in, when and with what, in several tests.
namespace ramplight::test {

inline constexpr PersonId anna{3};
inline constexpr Moment noon{1'780'000'000'000};
/// So little that a test can hash often.
inline constexpr PinCost cheap{.passes = 1, .memoryBytes = 8192};

inline Secret pinOf(const char* digits)
{
    return Secret(QByteArrayView(digits));
}

} // namespace ramplight::test
