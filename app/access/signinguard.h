// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"
#include "domain/moment.h"

#include <chrono>
#include <map>
#include <optional>
#include <span>
#include <vector>

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
    /// One try after the other at many names costs no delay. Nobody's slips add up to it: a row
    /// that a right PIN ended does not count.
    int spreadFailures = 10;
    int spreadPeople = 5;
    std::chrono::minutes spreadWindow{15};
    /// Fewer in a row, and just now, are one's own slips and not worth a word.
    int toldInARow = 3;
    std::chrono::minutes sameOccasion{10};

    friend bool operator==(const GuardRules&, const GuardRules&) = default;
};

/// Wrong PINs that were entered for somebody since they signed in last.
struct WrongPins
{
    int count = 0;
    Moment last;

    friend bool operator==(const WrongPins&, const WrongPins&) = default;
};

struct GuardVerdict
{
    bool locked = false;               ///< only a manager's reset helps
    bool lockMarked = false;           ///< the book says so already
    std::chrono::milliseconds wait{0}; ///< zero: a PIN may be tried now
    int inARow = 0;                    ///< failures since the last success
    int inWindow = 0;                  ///< failures of the last thirty days
    bool clockWentBack = false;        ///< now is before the last mark: add a ClockBack mark
    bool atLongest = false;            ///< the row has come to the longest delay
    bool rowMarked = false;            ///< the book says so already
    Moment firstOfRow;                 ///< null without failures in a row
    Moment lastOfRow;

    friend bool operator==(const GuardVerdict&, const GuardVerdict&) = default;
};

/// The delay that so many failures in a row cost.
[[nodiscard]] std::chrono::milliseconds delayAfter(const GuardRules& rules, int inARow);

/// A clock set backwards never shortens a delay: the whole delay runs again from the moment at
/// which that is noticed, and failures that seem to lie ahead count as well.
[[nodiscard]] GuardVerdict judgeSignIns(const GuardRules& rules, std::span<const SignInMark> marks,
                                        Moment now);

/// What somebody who signs in is to be told of the row that this ended: that it was long, or
/// began on another occasion, when somebody else may have stood there.
[[nodiscard]] std::optional<WrongPins> toldAtSignIn(const GuardRules& rules,
                                                    const GuardVerdict& verdict, Moment now);

/// The lock that stands in a person's book. Its first mark counts: two kiosks may have marked it.
[[nodiscard]] std::optional<PinGuesses> lockIn(PersonId person, std::span<const SignInMark> marks);
/// All that managers are told of in it: the lock, and each row that came to the longest delay.
[[nodiscard]] std::vector<PinGuesses> guessesIn(PersonId person, std::span<const SignInMark> marks);

/// How many wrong PINs of how many people stand open within the window before `now`, as a spread
/// that would be marked now; nothing where they are too few.
[[nodiscard]] std::optional<PinGuesses>
spreadIn(const GuardRules& rules, const std::map<PersonId, std::vector<SignInMark>>& marks,
         Moment now);
/// Whether nobody's book says so of this quarter of an hour already.
[[nodiscard]] bool isSpreadMarked(const GuardRules& rules, std::span<const SignInMark> nobodys,
                                  Moment now);

} // namespace ramplight
