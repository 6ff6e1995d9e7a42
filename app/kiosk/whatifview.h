// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/planview.h"
#include "kiosk/siteasks.h"
#include "kiosk/whatifform.h"

#include <QtQmlIntegration>

namespace ramplight {

/// One thing that would be different.
struct WhatIfChange
{
    int changeId = 0;
    QString words;
    bool keepable = false; ///< the house can be changed so from here
    bool wantsReason = false;
    QString keepWords; ///< what making it real means, or why it cannot be from here
    planning::whatif::Change change = {};

    [[nodiscard]] int key() const { return changeId; }
    friend bool operator==(const WhatIfChange& a, const WhatIfChange& b)
    {
        return a.changeId == b.changeId && a.words == b.words && a.keepable == b.keepable &&
               a.keepWords == b.keepWords;
    }
};

/// Roles are WhatIfChange's words. GUI thread.
class WhatIfChanges : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the what-if")

public:
    explicit WhatIfChanges(QObject* parent = nullptr);
    void set(std::vector<WhatIfChange> rows) { replace(std::move(rows)); }
    [[nodiscard]] const std::vector<WhatIfChange>& rows() const { return stored<WhatIfChange>(); }
};

/// A car that would be ready at another time, or late or in time otherwise than now.
struct WhatIfCar
{
    QString carId;
    QString group; ///< "Sooner", "Later", "Ready as planned"
    QString stockNumber;
    QString makeModel;
    QString nowWords;      ///< as planned: "Fri 15:00"
    QString nowSureWords;  ///< "nine times in ten by Mon 10:00"
    QString thenWords;     ///< as it would be
    QString thenSureWords; ///< the same
    QString byWords;       ///< "2 h sooner", "3 days later"
    QString promiseWords;  ///< "promised Thu, late now, in time then"
    bool lateNow = false;
    bool lateThen = false;

    [[nodiscard]] QString key() const { return carId; }
    friend bool operator==(const WhatIfCar&, const WhatIfCar&) = default;
};

/// Roles are WhatIfCar's names. GUI thread.
class WhatIfCars : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the what-if")

public:
    explicit WhatIfCars(QObject* parent = nullptr);
    void set(std::vector<WhatIfCar> rows) { replace(std::move(rows)); }
};

/// The workshop as it would be with some things different, against the plan as it is. Nothing is
/// changed by looking; what a command can change is changed by keep(), by whoever has that
/// command's right. Use: form()->begin(), choose, add(). GUI thread.
class WhatIfView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::WhatIfForm* form READ form CONSTANT FINAL)
    Q_PROPERTY(ramplight::WhatIfChanges* changes READ changes CONSTANT FINAL)
    Q_PROPERTY(int count READ count NOTIFY changed FINAL) ///< of changes
    Q_PROPERTY(ramplight::WhatIfCars* cars READ cars CONSTANT FINAL)
    Q_PROPERTY(bool considering READ considering NOTIFY changed FINAL)
    /// It is known what would come of the changes.
    Q_PROPERTY(bool considered READ considered NOTIFY changed FINAL)
    Q_PROPERTY(int lateNow READ lateNow NOTIFY changed FINAL)
    Q_PROPERTY(int lateThen READ lateThen NOTIFY changed FINAL)
    /// "The 21 other cars are ready as planned."
    Q_PROPERTY(QString restWords READ restWords NOTIFY changed FINAL)
    /// Why it cannot be planned so; empty: it can.
    Q_PROPERTY(QString faultWords READ faultWords NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)

public:
    /// All outlive the view.
    WhatIfView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
               PlanService& plans, PlanView& view, QObject* parent = nullptr);

    [[nodiscard]] WhatIfForm* form() { return &m_form; }
    [[nodiscard]] WhatIfChanges* changes() { return &m_changes; }
    [[nodiscard]] int count() const { return m_changes.count(); }
    [[nodiscard]] WhatIfCars* cars() { return &m_cars; }
    [[nodiscard]] bool considering() const { return m_considering; }
    [[nodiscard]] bool considered() const { return m_considered; }
    [[nodiscard]] int lateNow() const { return m_view.lateCount(); }
    [[nodiscard]] int lateThen() const { return m_lateThen; }
    [[nodiscard]] QString restWords() const { return m_restWords; }
    [[nodiscard]] QString faultWords() const { return m_faultWords; }
    [[nodiscard]] Ask* ask() { return &m_ask; }
    /// As it would be; null until it is known.
    [[nodiscard]] const PlanService::Plan& would() const { return m_would; }

    /// What the form has becomes one more change.
    Q_INVOKABLE void add();
    Q_INVOKABLE void remove(int changeId);
    /// Back to the plan as it is.
    Q_INVOKABLE void clear();
    /// Makes a change real. reason: where the row wants one.
    Q_INVOKABLE void keep(int changeId, const QString& reason);

signals:
    void changed();
    /// A change was made real; it is no "if" any more.
    void kept();

private:
    void look();
    void show(const PlanService::Plan& before, const PlanService::Plan& would);
    void tellAnew();
    [[nodiscard]] WhatIfChange rowOf(int changeId, const planning::whatif::Change& change) const;
    [[nodiscard]] WhatIfCar rowOf(const planning::CarShift& shift, const QString& group) const;
    [[nodiscard]] QString timeWords(planning::PlanMinute minute) const;
    [[nodiscard]] QString sureWords(planning::PlanMinute minute) const;
    [[nodiscard]] QString byWords(const planning::CarShift& shift) const;
    [[nodiscard]] QString promiseWords(const planning::CarShift& shift) const;
    /// The new times of each, one after the other, under one PIN.
    void keepTimes(int changeId, const std::vector<PersonId>& people,
                   const std::function<PersonTimes(const PersonTimes&)>& made);
    void sendTimes(int changeId, std::vector<site::SetTimes> commands, PersonId manager);
    void keepOnCar(int changeId, const CarId& car, std::vector<CarCommand> commands);

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    CardFeed& m_feed;
    Ticker& m_ticker;
    PlanService& m_plans;
    PlanView& m_view;
    Ask m_ask;
    WhatIfForm m_form;
    WhatIfChanges m_changes;
    WhatIfCars m_cars;
    int m_lastId = 0;
    int m_looks = 0; ///< the answer to an older one counts no more
    bool m_considering = false;
    bool m_considered = false;
    PlanService::Plan m_would;
    int m_lateThen = 0;
    QString m_restWords;
    QString m_faultWords;
};

} // namespace ramplight
