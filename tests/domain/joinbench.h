// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "gaugebench.h"

namespace ramplight::test {

/// Two entries of one car, the second a while after the first; neither is appraised.
struct Twice : GaugeBench
{
    explicit Twice(const CarFacts& there = carWith({Fact::CombustionEngine}))
    {
        keep = bringIn();
        clock.pass(10);
        second = bringIn(there);
        clock.pass(10);
    }

    bool join()
    {
        clock.pass(10);
        return askToJoin(manager, keep, second) == done;
    }
    /// With ten minutes after it.
    void say(PersonId who, const CarId& id, const CarCommand& said)
    {
        must(who, id, said);
        clock.pass(10);
    }
    [[nodiscard]] CarState now() { return car(keep); }
    CarId keep;
    CarId second;
};

} // namespace ramplight::test
