// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

// Everything in the planner is referred to by its place in its vector, an int with -1 for none.
namespace ramplight::planning {

/// An int as the subscript that it is; not below 0.
[[nodiscard]] constexpr std::size_t at(int i)
{
    return static_cast<std::size_t>(i);
}

[[nodiscard]] inline bool contains(const std::vector<int>& some, int one)
{
    return std::ranges::find(some, one) != some.end();
}

/// Some and all that lie beyond them.
template <class Next>
[[nodiscard]] std::vector<int> reached(std::vector<int> some, const Next& next)
{
    for (std::size_t k = 0; k < some.size(); ++k) {
        for (const int one : next(some[k])) {
            if (!contains(some, one))
                some.push_back(one);
        }
    }
    return some;
}

/// Where one stands among some; -1: nowhere.
template <class T>
[[nodiscard]] int placeIn(const std::vector<T>& some, const T& one)
{
    const auto found = std::ranges::find(some, one);
    return found == some.end() ? -1 : static_cast<int>(found - some.begin());
}

} // namespace ramplight::planning
