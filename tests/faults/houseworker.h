// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "housedoor.h"
#include "sharedhouse.h"

#include <functional>
#include <optional>
#include <type_traits>

namespace ramplight::test {

/// The people at one kiosk of a house that several share (setUpHouse()), who know nothing of those
/// at the others: they bring cars in, find things, and do what comes next or anything else, each
/// kind of command as often as any other, and now and then the manager changes the house, through
/// the real Workshop and the real store, by the machine's clock. The same seed makes the same
/// choices; what comes of them hangs on everybody else. When the store cannot be reached it is
/// opened again, and the command asked again under its id, until somebody answers; a door that goes
/// on alone is left to do so.
class HouseWorker : private RandomHouse
{
public:
    /// told: called with each line: "kept COMMAND", or "signed CAR OPERATION COMMAND" for a
    /// signature, "cautions CAR OPERATION PERSON COMMAND" where somebody read them, "sound CAR
    /// PLACE COMMAND", "repaired CAR PANEL COMMAND", "moved CAR BAY PARKING COMMAND", and "house
    /// COMMAND" for what changed the house; once the store has said so, and before the next command
    /// is asked. Of a door that goes on alone also "refused COMMAND" (it waits for the server, and
    /// nothing was changed) and "unsure COMMAND" (the server went away in the middle of it). In
    /// front of each "asked KIND done" (also where there was nothing to write), "asked KIND
    /// refused" or "asked KIND waits".
    using Told = std::function<void(const QString& line)>;
    /// The door outlives it.
    HouseWorker(HouseDoor& door, quint64 seed, Told told);
    /// Cars come in until the wall has so many, and now and then up to three times as many.
    void keepCars(std::size_t least) { m_leastCars = least; }
    HouseWorker(const HouseWorker&) = delete;
    HouseWorker& operator=(const HouseWorker&) = delete;

    /// Until that many commands were answered, refused ones as well, or it may not go on. False:
    /// the store could not be reached for a minute.
    [[nodiscard]] bool work(int commands, const std::function<bool()>& goesOn = {});

private:
    // ---- as its people find it
    [[nodiscard]] const HouseNames& names() const override;
    [[nodiscard]] const Catalogue& catalogue() const override { return m_door.catalogue(); }
    [[nodiscard]] PhotoId photo() override;
    /// False: it was refused, or it waits.
    bool ask(PersonId who, const CarId& car, const CarCommand& command) override;
    [[nodiscard]] CarState car(const CarId& car) override;
    [[nodiscard]] SiteState site() override;
    [[nodiscard]] std::optional<RunningWork> runningWork(PersonId person) override;
    [[nodiscard]] Moment now() const override;
    void pass(int /*minutes*/) override {}

    /// The same again, under its id, where it is not known whether it was kept.
    template <class Ask>
    [[nodiscard]] std::invoke_result_t<Ask> untilAnswered(Ask ask);
    /// Of what only reads.
    template <class Ask>
    [[nodiscard]] std::invoke_result_t<Ask> untilRead(Ask ask);
    bool reopen();
    void reopenWhereItHasTo();
    [[nodiscard]] CommandId nextCommand();
    void tellAsked(const char* kind, const Failure* failure);
    void tellWaits(const CommandId& id, const Failure* failure);
    void step();
    void bringIn();
    void merge();
    void changeHouse();
    void somethingElse(const CarId& onWall);
    /// What this kind needs first.
    void prepare(std::size_t kind, const CarId& car);
    [[nodiscard]] CarId carFor(std::size_t kind, const CarId& onWall);

    HouseDoor& m_door;
    Dice m_dice;
    Told m_told;
    QString m_name; ///< of no other worker that ever was: command ids begin with it
    std::vector<PersonId> m_people;
    std::vector<CarId> m_cars; ///< that were seen here, gone ones as well
    RandomPeople m_crew;
    RandomSite m_site;
    Deck m_kinds{commandKinds};
    std::size_t m_leastCars = 4;
    int m_commands = 0;
    int m_answered = 0;
    bool m_lost = false;
    bool m_alone = false; ///< what was asked last waits for the server
};

} // namespace ramplight::test
