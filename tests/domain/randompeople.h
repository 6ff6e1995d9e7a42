// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "randomcommands.h"

namespace ramplight::test {

/// People who do what comes next on a car, or anything at all. With the same dice they do the same,
/// as far as the house answers the same. What it is given outlives it.
class RandomPeople
{
public:
    RandomPeople(RandomHouse& house, Dice& dice, const std::vector<PersonId>& people,
                 const std::vector<CarId>& cars, RandomScope scope);

    void appraise(const CarId& car);
    /// Does what comes next on one operation, up to its end.
    void workOn(const CarId& car, OperationId operation);
    /// Nothing is open any more: somebody decides what nobody did, and the car is released.
    void letGo(const CarId& car);
    void anything(const CarId& car);
    /// A command of this kind, mostly with what follows on it.
    void anything(PersonId who, const CarId& car, std::size_t kind);
    [[nodiscard]] PersonId anybody() { return m_dice.any(m_people); }
    [[nodiscard]] CarFacts facts() { return m_commands.facts(); }

private:
    [[nodiscard]] std::optional<Operation> load(const CarId& car, OperationId operation);
    [[nodiscard]] PersonId somebodyFor(const Operation& operation);
    void goOn(const CarId& car, const Operation& blocked);
    /// Somebody else looks at it. False: it is no such work.
    bool isSecondPersons(const CarId& car, const Operation& operation);
    bool begin(const CarId& car, const Operation& operation, PersonId who);
    bool failsCheck(const CarId& car, const Operation& operation, PersonId who);
    void prove(const CarId& car, OperationId operation, PersonId who);
    void read(const CarId& car, OperationId operation, const ReadingSpec& spec,
              const PlaceId& place, PersonId who);

    RandomHouse& m_house;
    Dice& m_dice;
    const std::vector<PersonId>& m_people;
    RandomCommands m_commands;
};

} // namespace ramplight::test
