// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/ids.h"
#include "domain/moment.h"

#include <vector>

namespace ramplight {

struct CarAppend;

/// A timer that was started through this very program, by a clock that nobody sets.
struct SteadyTimer
{
    PersonId person;
    Moment start;
    qint64 ranMs = 0; ///< since then
    static constexpr auto fields =
        fieldList(field("person", &SteadyTimer::person), field("start", &SteadyTimer::start),
                  field("ranMs", &SteadyTimer::ranMs));
    friend bool operator==(const SteadyTimer&, const SteadyTimer&) = default;
};

/// The timers that this program saw begin and that ran when they were last seen. Workshops of one
/// program share it: what began with the server may end while that is away.
class StartedTimers
{
public:
    /// Knows those that were just started, and no more those that stopped.
    void note(const CarAppend& written, qint64 steadyMs);
    /// One that another program saw begin, as long ago as it says.
    void add(const CarId& car, const SteadyTimer& timer, qint64 steadyMs);
    /// Those of a car, as long as they have run by now.
    [[nodiscard]] std::vector<SteadyTimer> of(const CarId& car, qint64 steadyMs) const;

private:
    struct Started
    {
        CarId car;
        PersonId person;
        Moment start;
        qint64 steadyMs = 0; ///< when it started
    };
    std::vector<Started> m_started;
};

} // namespace ramplight
