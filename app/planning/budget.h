// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <cstdint>
#include <functional>
#include <limits>

// How long a search may go on. The searches know no clock: whoever calls them looks at one.
namespace ramplight::planning {

/// A search ends with whichever comes first. With a number of schedules and no stop its answer
/// depends on the seed alone.
struct Budget
{
    /// Schedules that may be generated; each pass over the activities counts as one.
    std::int64_t schedules = std::numeric_limits<std::int64_t>::max();
    /// Asked between two schedules, every few microseconds; true ends the search, which answers
    /// with the best it has. Empty: never.
    std::function<bool()> stop = {};

    [[nodiscard]] bool isOver(std::int64_t done) const
    {
        return done >= schedules || (stop && stop());
    }
};

} // namespace ramplight::planning
