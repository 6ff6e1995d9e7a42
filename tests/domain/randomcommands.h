// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "randomhouse.h"
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

/// So many kinds of things in no order, each of which comes once before one comes again.
class Deck
{
public:
    explicit Deck(std::size_t size)
        : m_size(size)
    {
    }

    [[nodiscard]] std::size_t next(Dice& dice);

private:
    std::size_t m_size;
    std::vector<std::size_t> m_left;
};

/// What may happen to a car.
struct RandomScope
{
    std::vector<PlaceId> places;
    std::vector<Condition> conditions;
    std::vector<Remedy> remedies;
    std::vector<Fact> facts; ///< besides an engine

    /// Enough to meet every rule with the small catalogue.
    [[nodiscard]] static RandomScope small();
    /// The whole vocabulary.
    [[nodiscard]] static RandomScope whole();
};

/// Commands as nobody would plan them: of any kind, most of them possible, some of them nonsense.
/// What it is given outlives it.
class RandomCommands
{
public:
    RandomCommands(RandomHouse& house, Dice& dice, const std::vector<PersonId>& people,
                   const std::vector<CarId>& cars, RandomScope scope);

    [[nodiscard]] CarCommand command(const CarState& car, std::size_t kind);
    [[nodiscard]] FindingData finding();
    [[nodiscard]] CarFacts facts();
    [[nodiscard]] ReadingValue value(const ReadingSpec& spec);

private:
    [[nodiscard]] CarCommand work(const CarState& car, std::size_t kind);
    [[nodiscard]] OperationId operation(const CarState& car);

    RandomHouse& m_house;
    Dice& m_dice;
    const std::vector<PersonId>& m_people;
    const std::vector<CarId>& m_cars;
    const RandomScope m_scope;
};

} // namespace ramplight::test
