// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <bit>
#include <cmath>
#include <cstdint>
#include <numbers>

// Chance from a seed, the same on every machine: the distributions of the standard library are not.
namespace ramplight::planning {

/// Spreads the bits: the finisher of splitmix64.
[[nodiscard]] constexpr std::uint64_t mixed(std::uint64_t z)
{
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
}

/// The generator splitmix64 (Steele, Lea, Flood: Fast splittable pseudorandom number generators,
/// 2014). One per thread.
class Dice
{
public:
    explicit Dice(std::uint64_t seed)
        : m_state(seed)
    {
    }

    std::uint64_t next() { return mixed(m_state += 0x9E3779B97F4A7C15ULL); }
    /// 0 .. n - 1; n is at least 1.
    int below(int n)
    {
        const auto high = static_cast<std::uint64_t>(static_cast<std::uint32_t>(next() >> 32));
        return static_cast<int>((high * static_cast<std::uint64_t>(n)) >> 32);
    }
    /// low .. high, both possible.
    int between(int low, int high) { return low + below(high - low + 1); }
    /// 0 or more, under 1.
    double share() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
    bool chance(double probability) { return share() < probability; }
    /// Standard normal (Box and Muller 1958; one of the pair is thrown away).
    double normal()
    {
        const double u = 1.0 - share();
        return std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * std::numbers::pi * share());
    }

private:
    std::uint64_t m_state;
};

} // namespace ramplight::planning
