// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "demo/demofile.h"
#include "domain/workshop.h"
#include "planning/dice.h"
#include "planning/houseledger.h"
#include "planning/houseplan.h"
#include "support/memoryledger.h"

#include <QRandomGenerator>

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <vector>

// A workshop that was at work for weeks, all of it through real commands: cars come in, people do
// what the plan of that moment gives them, in the minutes that this house really takes, and the
// plan is made anew as things go. What is left is a ledger that can be replayed.
namespace ramplight::test {

class PlayedHouse
{
public:
    /// People, bays and tools of the file; its cars are what comes in. Both outlive the house.
    PlayedHouse(const Catalogue& catalogue, const demo::WorkshopFile& file, std::uint64_t seed);

    /// Its own plans look at this many schedules from here on, instead of a morning's many.
    void planWith(std::int64_t schedules) { m_effort.search.schedules = schedules; }
    /// Working days, from a Monday on.
    void play(int days);
    /// What is here and may leave does so, unreleased; how many cars.
    std::size_t withdrawAll(Moment at);

    [[nodiscard]] MemoryLedger& ledger() { return m_ledger; }
    /// As it can be gone through.
    [[nodiscard]] planning::HouseLedger history();
    /// When the days of work began.
    [[nodiscard]] const std::vector<Moment>& mornings() const { return m_mornings; }
    /// When the last work on a car was done and its waits were over, of those that got so far.
    [[nodiscard]] const std::map<CarId, Moment>& ready() const { return m_ready; }
    /// How a morning's plan is made, by the house and whoever replays it.
    [[nodiscard]] static planning::PlanEffort effort(int runs);
    [[nodiscard]] std::shared_ptr<const Catalogue> catalogue() const { return m_inForce; }

private:
    /// What somebody has in hand.
    struct Task
    {
        CarId car;
        OperationId operation;
        int left = 0;         ///< minutes
        bool isCheck = false; ///< a second signature
        bool isPaused = false;
    };

    void openHouse();
    void bringIn(Moment at);
    void work(PersonId person);
    void finish(PersonId person, const Task& task);
    void takeNext(PersonId person, Moment at);
    bool begin(PersonId person, const CarId& id, OperationId operation, Moment at);
    bool bringToBay(PersonId person, const CarId& id, BayId bay);
    void enterFigures(const CarId& id, OperationId operation, PersonId doer);
    void leaveIfReady(Moment at);
    void planAnew(Moment at, bool isMorning);
    [[nodiscard]] int minutesFor(const CarState& car, const Operation& operation, PersonId person);
    [[nodiscard]] double factor(std::map<QString, double>& among, const QString& key,
                                double spread);
    bool run(PersonId who, const CarId& id, std::vector<CarCommand> commands,
             bool pinFresh = false);
    [[nodiscard]] const CarState& car(const CarId& id) const { return m_ledger.cars().at(id); }
    [[nodiscard]] bool isInHand(const CarId& id) const;
    [[nodiscard]] CommandId command();

    const Catalogue& m_catalogue;
    const demo::WorkshopFile& m_file;
    MemoryLedger m_ledger;
    StillClock m_clock;
    Workshop m_workshop;
    planning::Dice m_dice;
    QRandomGenerator m_random;
    SiteState m_site;
    std::shared_ptr<const Catalogue> m_inForce;
    std::optional<planning::HousePlan> m_plan;
    Moment m_planned;
    planning::PlanEffort m_effort = effort(1);
    bool m_isStale = true; ///< something happened since the plan was made
    std::map<PersonId, Task> m_tasks;
    std::map<std::pair<CarId, OperationId>, int> m_minutes; ///< that it takes in this house
    std::set<std::pair<CarId, OperationId>> m_refused;
    std::set<CarId> m_here;
    std::map<CarId, Moment> m_closed; ///< the last signature
    std::map<CarId, Moment> m_ready;
    std::vector<Moment> m_mornings;
    int m_cars = 0;
    int m_commands = 0;
    // What is true of this house, as logarithms.
    double m_house = 0;
    std::map<QString, double> m_kinds;
    std::map<QString, double> m_spreads;
    std::map<QString, double> m_people;
    std::map<QString, double> m_shapes;
    std::map<QString, double> m_ofCars;
};

} // namespace ramplight::test
