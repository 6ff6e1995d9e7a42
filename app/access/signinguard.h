// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"
#include "domain/moment.h"

#include <chrono>
#include <optional>
#include <span>

// How long somebody has to wait after wrong PINs. Pure functions of the book and of now.
namespace ramplight {

/// Source of the defaults: NIST SP 800-63B allows a hundred failures in a row; this counts every
/// failure of thirty days, so that a right PIN in between gives a guesser nothing back.
struct GuardRules
{
    int freeFailures = 5;                       ///< in a row, without any delay
    std::chrono::seconds firstDelay{30};        ///< after the next one; doubles with each further
    std::chrono::seconds longestDelay{15 * 60}; ///< and stays here
    int hardStop = 100;                         ///< failures within the window
    std::chrono::hours window{30 * 24};

    friend bool operator==(const GuardRules&, const GuardRules&) = default;
};

struct GuardVerdict
{
    bool locked = false;               ///< only a manager's reset helps
    bool lockMarked = false;           ///< the book says so already
    std::chrono::milliseconds wait{0}; ///< zero: a PIN may be tried now
    int inARow = 0;                    ///< failures since the last success
    int inWindow = 0;                  ///< failures of the last thirty days
    bool clockWentBack = false;        ///< now is before the last mark: add a ClockBack mark

    friend bool operator==(const GuardVerdict&, const GuardVerdict&) = default;
};

/// The delay that so many failures in a row cost.
[[nodiscard]] std::chrono::milliseconds delayAfter(const GuardRules& rules, int inARow);

/// A clock set backwards never shortens a delay: the whole delay runs again from the moment at
/// which that is noticed, and failures that seem to lie ahead count as well.
[[nodiscard]] GuardVerdict judgeSignIns(const GuardRules& rules, std::span<const SignInMark> marks,
                                        Moment now);

/// The lock that stands in a person's book. Its first mark counts: two kiosks may have marked it.
[[nodiscard]] std::optional<PinLock> lockIn(PersonId person, std::span<const SignInMark> marks);

} // namespace ramplight
