// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "workbench.h"

#include <array>
#include <random>

namespace ramplight::test {

constexpr std::size_t commandKinds = CarCommand::kinds;
/// E.g. "StartWork"; in the order of the variant.
[[nodiscard]] const std::array<const char*, commandKinds>& commandNames();

/// The place of a command in the variant.
template <class Command, std::size_t Index = 0>
constexpr std::size_t kindOf()
{
    if constexpr (std::is_same_v<CarCommand::Kind<Index>, Command>)
        return Index;
    else
        return kindOf<Command, Index + 1>();
}

/// Chance out of a seed: the same seed throws the same.
class Dice
{
public:
    explicit Dice(quint64 seed)
        : m_random(seed)
    {
    }

    [[nodiscard]] int below(int n) { return int(m_random() % quint64(n)); }
    [[nodiscard]] bool oneIn(int n) { return below(n) == 0; }
    template <class T>
    const T& any(const std::vector<T>& items)
    {
        return items[std::size_t(below(int(items.size())))];
    }

private:
    std::mt19937_64 m_random;
};

/// Commands as nobody would plan them: of any kind, most of them possible, some of them nonsense.
/// What it is given outlives it.
class RandomCommands
{
public:
    RandomCommands(Workbench& bench, Dice& dice, const std::vector<PersonId>& people,
                   const std::vector<CarId>& cars);

    [[nodiscard]] CarCommand command(const CarState& car, std::size_t kind);
    [[nodiscard]] FindingData finding();
    [[nodiscard]] CarFacts facts();
    [[nodiscard]] ReadingValue value(const ReadingSpec& spec);

private:
    [[nodiscard]] CarCommand work(const CarState& car, std::size_t kind);
    [[nodiscard]] OperationId operation(const CarState& car);

    Workbench& m_bench;
    Dice& m_dice;
    const std::vector<PersonId>& m_people;
    const std::vector<CarId>& m_cars;
};

} // namespace ramplight::test
