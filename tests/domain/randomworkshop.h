// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "randomcommands.h"

namespace ramplight::test {

/// How often each kind of command was asked and carried out, over all sequences.
struct Tally
{
    std::array<int, commandKinds> asked{};
    std::array<int, commandKinds> carriedOut{};
    int sequences = 0;
    int released = 0;      ///< sequences with a release
    int heldAgain = 0;     ///< sequences in which a released car was held again
    int releasedAgain = 0; ///< sequences in which that car was released once more
    int reopened = 0;      ///< sequences with a reopened operation
    int checksVoided = 0;  ///< sequences in which a check was withdrawn
    int followUps = 0;     ///< sequences in which a reading opened an operation
};

/// People who do what comes next most of the time, and anything at all the rest of it. The same
/// seed does the same things. After each command the invariants are looked at.
class RandomWorkshop
{
public:
    RandomWorkshop(quint64 seed, Tally& tally);

    /// False when something broke: what() and story() say what and how it came to it.
    bool run(int steps);
    [[nodiscard]] QString what() const { return m_broken; }
    /// Called for each command that was carried out, with the workshop as it was before.
    using Probe = std::function<void(const MemoryLedger& before, const CarId& car,
                                     const CarCommand& command)>;
    void probe(Probe probe) { m_probe = std::move(probe); }
    [[nodiscard]] Workbench& bench() { return m_bench; }
    [[nodiscard]] MemoryLedger& ledger() { return m_bench.ledger; }
    [[nodiscard]] QString story() const { return m_story.join(QLatin1Char('\n')); }

private:
    void step();
    void bringIn();
    void appraise(const CarId& car);
    /// Does what comes next on one operation, up to its end.
    void workOn(const CarId& car, OperationId operation);
    void prove(const CarId& car, OperationId operation, PersonId who);
    void anything(const CarId& car);
    void merge();
    void passTime();
    void changePeople();
    /// Photos of what is out of prep may go then; those of other cars never.
    void tidyYearsLater();
    bool ask(PersonId who, const CarId& car, const CarCommand& command);
    void look(const CarId& car, const CarState& before, int entriesBefore);

    [[nodiscard]] PersonId anybody() { return m_dice.any(m_people); }
    [[nodiscard]] PersonId somebodyFor(const Operation& operation);

    Workbench m_bench;
    Dice m_dice;
    Tally& m_tally;
    std::vector<PersonId> m_people;
    std::vector<CarId> m_cars;
    RandomCommands m_commands;
    QStringList m_story;
    QString m_broken;
    Probe m_probe;
    bool m_released = false;
    bool m_heldAgain = false;
    bool m_releasedAgain = false;
    bool m_reopened = false;
    bool m_checkVoided = false;
    bool m_followUp = false;
};

} // namespace ramplight::test
