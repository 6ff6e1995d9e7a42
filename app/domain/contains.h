// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <algorithm>
#include <type_traits>
#include <vector>

// Small questions about what is among others.
namespace ramplight {

template <class T>
[[nodiscard]] bool contains(const std::vector<T>& items, const T& item)
{
    return std::ranges::find(items, item) != items.end();
}

/// Adds what is not there yet.
template <class T>
void addMissing(std::vector<T>& to, const std::vector<T>& from)
{
    for (const T& item : from)
        if (!contains(to, item))
            to.push_back(item);
}

/// Nothing wanted means that anything will do.
template <class T>
[[nodiscard]] bool fitsAny(const std::vector<T>& wanted, const T& value)
{
    return wanted.empty() || contains(wanted, value);
}

template <class T, class... Any>
constexpr bool isOneOf = (std::is_same_v<T, Any> || ...);

} // namespace ramplight
