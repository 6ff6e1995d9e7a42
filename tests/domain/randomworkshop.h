// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "randompeople.h"

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
class RandomWorkshop : private RandomHouse
{
public:
    RandomWorkshop(quint64 seed, Tally& tally);
    /// By this catalogue instead of the small one, and with the whole vocabulary.
    RandomWorkshop(quint64 seed, Tally& tally, const Catalogue& whole);

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
    RandomWorkshop(quint64 seed, Tally& tally, RandomScope scope);
    void step();
    void bringIn();
    void merge();
    void passTime();
    void changePeople();
    /// Photos of what is out of prep may go then; those of other cars never.
    void tidyYearsLater();
    void look(const CarId& car, const CarState& before, int entriesBefore);

    // ---- as its people find it
    [[nodiscard]] const HouseNames& names() const override { return m_names; }
    [[nodiscard]] const Catalogue& catalogue() const override { return m_bench.catalogue; }
    [[nodiscard]] PhotoId photo() override { return m_bench.photo(); }
    bool ask(PersonId who, const CarId& car, const CarCommand& command) override;
    [[nodiscard]] CarState car(const CarId& car) override { return m_bench.car(car); }
    [[nodiscard]] SiteState site() override { return m_bench.ledger.site().value(); }
    [[nodiscard]] std::optional<RunningWork> runningWork(PersonId person) override
    {
        return m_bench.ledger.runningWork(person).value();
    }
    [[nodiscard]] Moment now() const override { return m_bench.clock.now(); }
    void pass(int minutes) override { m_bench.clock.pass(minutes); }

    Workbench m_bench;
    HouseNames m_names;
    Dice m_dice;
    Tally& m_tally;
    std::vector<PersonId> m_people;
    std::vector<CarId> m_cars;
    RandomPeople m_crew;
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
