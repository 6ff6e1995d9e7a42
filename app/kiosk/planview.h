// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"
#include "kiosk/planservice.h"
#include "kiosk/plansheet.h"

#include <QtQmlIntegration>

namespace ramplight {

/// A car with what was promised and what is to be expected.
struct PlanCarRow
{
    QString carId;
    QString stockNumber;
    QString makeModel;
    QString promisedWords; ///< "Thu"; empty when nothing was promised
    QString headWords;     ///< "ready Thu 15:00, promised Wed", "ready now, wants a signature"
    QString sureWords;     ///< "nine times in ten by Fri 10:00"; what was promised of a car that is
                           ///< never ready
    bool late = false;
    bool spread = false;   ///< it has times to draw
    QString whyWords;      ///< of a late or stuck car: the chain, a line each
    double promisedAt = 0; ///< on the plan's days, see placeOn(); below 0: before them
    double earlyAt = 0;    ///< one time in twenty it is ready by then
    double readyAt = 0;
    double sureAt = 0;

    [[nodiscard]] QString key() const { return carId; }
    friend bool operator==(const PlanCarRow&, const PlanCarRow&) = default;
};

/// The cars of a plan: those that will be late first, then by the time they are ready. Roles are
/// PlanCarRow's names. GUI thread.
class PlanCars : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the plan")

public:
    explicit PlanCars(QObject* parent = nullptr);
    void set(std::vector<PlanCarRow> rows) { replace(std::move(rows)); }
};

struct PlanDayRow
{
    QString date; ///< ISO

    [[nodiscard]] QString key() const { return date; }
    friend bool operator==(const PlanDayRow&, const PlanDayRow&) = default;
};

/// The days of a plan: a newer plan adds or takes away some, and what is dragged stays where it is.
/// Role: date. GUI thread.
class PlanDays : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the plan")

public:
    explicit PlanDays(QObject* parent = nullptr);
    void set(std::vector<PlanDayRow> rows) { replace(std::move(rows)); }
};

/// The plan for the screens: days, lanes, cars. PlanDay draws it. GUI thread.
class PlanView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// False until a plan was made: show the waiting state.
    Q_PROPERTY(bool planned READ planned NOTIFY changed FINAL)
    /// Why there is none, in words; empty: there is, or will be.
    Q_PROPERTY(QString faultWords READ faultWords NOTIFY changed FINAL)
    Q_PROPERTY(bool working READ working NOTIFY workingChanged FINAL)
    /// "as of 13:40"
    Q_PROPERTY(QString asOf READ asOf NOTIFY changed FINAL)
    Q_PROPERTY(int days READ days NOTIFY changed FINAL)
    /// One for each day: "today", "tomorrow", "Mon".
    Q_PROPERTY(QStringList dayWords READ dayWords NOTIFY changed FINAL)
    /// The same for narrow columns: "today", "Tue", "Mon".
    Q_PROPERTY(QStringList shortDayWords READ shortDayWords NOTIFY changed FINAL)
    /// How much of the first day is over, 0 to 1.
    Q_PROPERTY(double gone READ gone NOTIFY changed FINAL)
    Q_PROPERTY(QStringList bayTitles READ bayTitles NOTIFY changed FINAL) ///< "1"
    Q_PROPERTY(QStringList bayNames READ bayNames NOTIFY changed FINAL)   ///< "Lift"
    Q_PROPERTY(QStringList peopleNames READ peopleNames NOTIFY changed FINAL)
    Q_PROPERTY(QStringList peopleSkills READ peopleSkills NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::PlanDays* dayList READ dayList CONSTANT FINAL)
    Q_PROPERTY(ramplight::PlanCars* cars READ cars CONSTANT FINAL)
    Q_PROPERTY(int lateCount READ lateCount NOTIFY changed FINAL)

public:
    PlanView(CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
             QObject* parent = nullptr);

    [[nodiscard]] bool planned() const { return m_plans.plan() && faultWords().isEmpty(); }
    [[nodiscard]] QString faultWords() const;
    [[nodiscard]] bool working() const { return m_plans.isWorking(); }
    [[nodiscard]] QString asOf() const;
    [[nodiscard]] int days() const { return static_cast<int>(m_sheet.days.size()); }
    [[nodiscard]] QStringList dayWords() const;
    [[nodiscard]] QStringList shortDayWords() const;
    [[nodiscard]] double gone() const;
    [[nodiscard]] QStringList bayTitles() const;
    [[nodiscard]] QStringList bayNames() const;
    [[nodiscard]] QStringList peopleNames() const;
    [[nodiscard]] QStringList peopleSkills() const;
    [[nodiscard]] PlanDays* dayList() { return &m_days; }
    [[nodiscard]] PlanCars* cars() { return &m_cars; }
    [[nodiscard]] int lateCount() const { return m_late; }

    [[nodiscard]] const PlanService::Plan& plan() const { return m_plans.plan(); }
    [[nodiscard]] const PlanSheet& sheet() const { return m_sheet; }
    /// Local minutes of the sheet's first day; -1 when that is not today.
    [[nodiscard]] int nowMinute() const;
    /// By the manager's word: for somebody, in a bay, or not before.
    [[nodiscard]] bool isPinned(int job) const;

signals:
    void changed();
    void workingChanged();

private:
    void rebuild();
    [[nodiscard]] PlanCarRow rowOf(const planning::HousePlan& plan, int car) const;
    [[nodiscard]] QString headOf(const planning::HousePlan& plan, int car, const CarCard* card,
                                 const planning::SayTime& say, const PlanCarRow& row) const;

    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
    PlanSheet m_sheet;
    PlanDays m_days;
    PlanCars m_cars;
    int m_late = 0;
};

} // namespace ramplight
