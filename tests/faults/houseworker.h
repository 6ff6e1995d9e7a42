// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/randomcommands.h"
#include "../storage/storagebench.h"
#include "housedoor.h"

#include <functional>
#include <optional>

namespace ramplight::test {

/// The workshop as its people find it in the morning: the bench's nine, two bays, two cars.
void setUpHouse(const StoreSettings& settings);

/// The people at one kiosk of that workshop, who know nothing of those at the others: they bring
/// cars in, find things, and do what comes next or something else, through the real Workshop and
/// the real store, by the machine's clock. The same seed makes the same choices; what comes of them
/// hangs on everybody else. When the store cannot be reached it is opened again, and the command
/// asked again under its id, until somebody answers; a door that goes on alone is left to do so.
class HouseWorker
{
public:
    /// told: called with each line: "kept COMMAND", or "signed CAR OPERATION COMMAND" for a
    /// signature, "cautions CAR OPERATION PERSON COMMAND" where somebody read them; once the store
    /// has said so, and before the next command is asked. Of a door that goes on alone also
    /// "refused COMMAND" (it waits for the server, and nothing was changed) and "unsure COMMAND"
    /// (the server went away in the middle of it).
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
    /// False: it was refused.
    bool ask(PersonId who, const CarId& car, const CarCommand& command);
    bool reopen();
    void reopenWhereItHasTo();
    [[nodiscard]] bool isKnown(const CommandId& id);
    void step();
    void bringIn();
    void appraise(const CarId& car);
    void somethingElse(const CarState& car);
    void workOn(const CarState& car, const Operation& operation);
    void prove(const CarId& car, OperationId operation, PersonId who);
    void pauseElsewhere(PersonId who, const CarId& car, OperationId operation);
    [[nodiscard]] std::optional<CarState> load(const CarId& car);
    [[nodiscard]] PersonId somebodyFor(Skill skill);

    HouseDoor& m_door;
    Dice m_dice;
    Told m_told;
    QString m_name; ///< of no other worker that ever was: command ids begin with it
    std::size_t m_leastCars = 4;
    int m_commands = 0;
    int m_answered = 0;
    bool m_lost = false;
    bool m_alone = false; ///< what was asked last waits for the server
};

} // namespace ramplight::test
