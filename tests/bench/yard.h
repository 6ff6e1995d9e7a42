// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"

#include <QRandomGenerator>
#include <QTemporaryDir>

#include <optional>
#include <set>

// A workshop at work on a real SQLite file, without a screen: cars come in, people do what their
// skills let them do and come to sign it. For benches, which time what they want of it.
namespace ramplight::test {

class Yard
{
public:
    /// Makes an own folder with keys, store, catalogue; people and bays are those of the demo
    /// workshop. Ends the program with words when that fails.
    Yard();

    /// Does work up to its signature: the request that signs it, not yet run. Brings another car
    /// in when nothing is left to do on the last one.
    [[nodiscard]] CarRequest nextSignOff();
    /// Where the request comes from has to tell what became of it.
    void signedOff(const CarOutcome& outcome) { m_car = outcome.car; }
    void refused(const CarRequest& request);

    [[nodiscard]] Workshop& workshop() { return m_house->workshop(); }
    [[nodiscard]] QString database() const { return HousePaths(m_folder.path()).database(); }

private:
    class YardClock : public Clock
    {
    public:
        [[nodiscard]] Moment now() const override { return m_now; }
        void goOn(int minutes) { m_now = m_now.plusMinutes(minutes); }

    private:
        Moment m_now{1'936'000'000'000}; // in May 2031
    };

    void openHouse();
    void bringIn();
    [[nodiscard]] std::optional<CarRequest> prepare(const Operation& operation);
    [[nodiscard]] PersonId whoDoes(const Operation& operation) const;
    void enterFigures(const Operation& operation, PersonId doer);
    bool run(PersonId who, std::vector<CarCommand> commands);
    [[nodiscard]] CommandId command();

    QTemporaryDir m_folder;
    YardClock m_clock;
    std::unique_ptr<OpenHouse> m_house;
    SiteState m_site;
    CarState m_car;
    std::vector<PhotoId> m_photos;
    std::set<OperationId> m_givenUp; ///< of this car
    QRandomGenerator m_random{11};
    int m_cars = 0;
    int m_commands = 0;
};

} // namespace ramplight::test
