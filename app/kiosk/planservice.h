// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/backgroundpool.h"
#include "kiosk/cardfeed.h"
#include "kiosk/lookingback.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include "planning/whatif.h"

#include <QObject>
#include <QTimer>

#include <atomic>
#include <deque>
#include <map>
#include <memory>
#include <utility>
#include <vector>

namespace ramplight {

/// How much a kiosk puts into its plans.
struct PlanPace
{
    bool on = true;             ///< false: no plan is made
    int searchMs = 1000;        ///< that a plan is looked for
    std::int64_t schedules = 0; ///< so many instead: the same plan each time; 0: by the time
    int quietMs = 400;          ///< without a change before planning begins
    int runs = 400;             ///< of the forecast
    planning::LookBackEffort back = {};
};

/// The plan of the workshop as it stands: made anew after each change, on a thread of its own,
/// while the last one stays. What is learned comes from the cars in prep and those that were
/// released last; once a day it is learned how good the forecasts were. GUI thread.
class PlanService : public QObject
{
    Q_OBJECT

public:
    using Plan = std::shared_ptr<const planning::HousePlan>;

    /// All outlive the service.
    PlanService(Desk& desk, CardFeed& feed, SiteBook& book, Ticker& ticker, const PlanPace& pace,
                QObject* parent = nullptr);
    /// Ends the search that is under way and waits for it.
    ~PlanService() override;

    /// Null until the first is made.
    [[nodiscard]] const Plan& plan() const { return m_plan; }
    [[nodiscard]] bool isOn() const { return m_pace.on; }
    /// A newer plan is on its way.
    [[nodiscard]] bool isWorking() const
    {
        return m_wanted || m_gathering || m_searching || !m_learned || m_back.isBusy();
    }
    /// As last read; null when it is not among the cars that are planned.
    [[nodiscard]] const CarState* car(const CarId& id) const;

    /// What plan() was made from; it has been made.
    [[nodiscard]] const planning::HouseInput& input() const { return *m_input; }

    /// The plan as it would be, with the rest left where it is as long as that is possible. It
    /// begins with plan(), which has been made.
    [[nodiscard]] QFuture<Plan> consider(const planning::whatif::Assign& wish);
    /// The plan of the house as it would be, made anew as plan() was, and as thoroughly: what they
    /// differ in comes of the changes. Ends the one that was asked for before, whose answer may
    /// be null.
    [[nodiscard]] QFuture<Plan> whatIf(const std::vector<planning::whatif::Change>& changes);
    /// Ends it.
    void leaveWhatIf();

signals:
    void changed();
    void workingChanged();

private:
    using Flag = std::shared_ptr<std::atomic_bool>;

    /// What a plan is made from.
    struct Search
    {
        std::shared_ptr<const planning::HouseInput> input = {};
        std::vector<planning::whatif::Change> changes = {};
        Moment now = {};
        int steadyMinutes = planning::PlanEffort{}.steadyMinutes;
        Plan previous = {};
        Plan like = {}; ///< as thorough as this one; null: as the kiosk's pace has it
    };

    void want();
    void gather();
    void followStore();
    void learn();
    /// A car that has left; the one that left first is forgotten for it.
    void learnFrom(const CarState& car);
    void endLearning();
    void lookBack();
    void search();
    [[nodiscard]] QFuture<Plan> start(Search search, const Flag& stop);

    Desk& m_desk;
    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanPace m_pace;
    LookingBack m_back;
    BackgroundPool m_pool;
    QTimer m_quiet;
    std::map<CarId, CarState> m_cars; ///< in prep
    /// At which of its card's positions each of them was read; not those of another store, which
    /// may have gone back, or on from there to the same position.
    std::map<CarId, qint64> m_readAt;
    bool m_away = false; ///< the store's server
    int m_turn = 0;      ///< what was asked before belongs to the store of that time
    /// What cars that have left teach, the one that left last at the end.
    std::deque<std::pair<CarId, std::vector<planning::WorkRecord>>> m_gone;
    std::vector<CarId> m_toLearn;
    std::shared_ptr<const planning::HouseInput> m_input; ///< of the plan that is shown
    Plan m_plan;
    Plan m_previous; ///< that it kept to
    Flag m_stop;
    Flag m_stopWhatIf;
    bool m_wanted = false;
    bool m_gathering = false;
    bool m_searching = false;
    bool m_asked = false;   ///< for the released cars
    bool m_learned = false; ///< from them
    int m_minutes = 0;      ///< since the last plan began
};

} // namespace ramplight
