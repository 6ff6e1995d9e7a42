// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QtGlobal>

#include <compare>

// Points in time as the ledger keeps them. Zone and wording belong to the screens.
namespace ramplight {

/// Milliseconds since 1970-01-01T00:00Z.
struct Moment
{
    qint64 ms = 0;

    [[nodiscard]] bool isNull() const { return ms == 0; }
    friend auto operator<=>(const Moment&, const Moment&) = default;
    [[nodiscard]] Moment plusMinutes(int minutes) const { return {ms + qint64{minutes} * 60'000}; }
};

/// Whole minutes, rounded to the nearest; never negative.
[[nodiscard]] inline int minutesOfSpan(qint64 ms)
{
    return ms <= 0 ? 0 : static_cast<int>((ms + 30'000) / 60'000);
}

/// The same from a to b.
[[nodiscard]] inline int minutesBetween(Moment a, Moment b)
{
    return minutesOfSpan(b.ms - a.ms);
}

} // namespace ramplight
