// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "demo/demofile.h"
#include "domain/workshop.h"

#include <QRandomGenerator>
#include <QTimeZone>

#include <functional>
#include <map>
#include <set>
#include <tuple>

// Plays a week of the demo workshop through real commands, minute by minute: people with their
// skills take the most pressing work that may start, measure, photograph and sign. What stands at
// the end is what a visitor sees. The same seed and the same end give the same ledger.
namespace ramplight::demo {

/// A clock that the play sets.
class PlayClock : public Clock
{
public:
    [[nodiscard]] Moment now() const override { return m_now; }
    void set(Moment now) { m_now = now; }

private:
    Moment m_now;
};

/// Photos of the play; pictures are made by whoever owns the vault. The number tells those of one
/// place and moment apart.
using PictureFor = std::function<PhotoId(const CarEntry& car, const PlaceId& place,
                                         PhotoMoment moment, int number)>;

class Crew
{
public:
    /// Ledger, catalogue and file outlive the crew; the ledger is empty.
    Crew(Ledger& ledger, const Catalogue& catalogue, const WorkshopFile& file, PictureFor pictures,
         unsigned seed);

    /// Plays up to now; progress is called with 0 to 1. The error is words.
    [[nodiscard]] tl::expected<void, QString> play(Moment now,
                                                   const std::function<void(double)>& progress);

private:
    struct Job
    {
        CarId car;
        OperationId operation;
        Moment until;
    };
    struct PlayedCar
    {
        const CarEntry* entry = nullptr;
        CarId id;
        CarState state;
        Moment arrives;
        bool away = false; ///< left, released for good, or not to be touched
        bool heldAgain = false;
        std::set<QString> used; ///< turns of the story that were taken
    };

    /// Who was asked to begin what, and the car's last entry then.
    using Asked = std::tuple<PersonId, CarId, OperationId, qint64>;

    [[nodiscard]] tl::expected<void, QString> minute(Moment at);
    void arrive(PlayedCar& car);
    void storyTurns(PlayedCar& car, Moment at);
    void tryRelease(PlayedCar& car, Moment at);
    void finish(PersonId person);
    bool findWork(PersonId person, Moment at);
    bool begin(PlayedCar& car, const Operation& operation, PersonId person, Moment at);
    bool bringToBay(PlayedCar& car, const Operation& operation, PersonId person);
    void countersignWhatWaits(PlayedCar& car, Moment at);
    void leaveSomethingForLater();
    void enterFigures(PlayedCar& car, OperationId operation, PersonId doer);
    [[nodiscard]] std::vector<CarCommand> evidenceOf(const PlayedCar& car,
                                                     const Operation& operation);
    bool run(PlayedCar& car, PersonId actor, std::vector<CarCommand> commands,
             bool pinFresh = false);
    [[nodiscard]] CommandId nextCommand();
    [[nodiscard]] Moment momentOn(QDate date, int minute) const;
    [[nodiscard]] QDate workDay(QDate from, int days) const;

    PlayClock m_clock;
    Workshop m_workshop;
    const WorkshopFile& m_file;
    PictureFor m_pictures;
    QRandomGenerator m_random;
    QTimeZone m_zone;
    SiteState m_site;
    Moment m_end;
    std::vector<PlayedCar> m_cars;
    std::map<PersonId, Job> m_jobs;
    std::map<std::pair<CarId, OperationId>, int> m_unfinished; ///< how often it did not close
    std::set<Asked> m_refused; ///< not to be asked again until the car changes
    int m_commands = 0;
    QString m_fault; ///< a store error ends the play
};

} // namespace ramplight::demo
