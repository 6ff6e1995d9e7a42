// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/choices.h"
#include "kiosk/planview.h"
#include "kiosk/session.h"

#include <QtQmlIntegration>

namespace ramplight {

/// The job of the plan that somebody touched: whose it is, why then, and what would come of another
/// person, bay or time. Nothing is changed before take(). GUI thread.
class PlannedJob : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool chosen READ chosen NOTIFY changed FINAL)
    Q_PROPERTY(QString carId READ carId NOTIFY changed FINAL)
    Q_PROPERTY(int operationId READ operationId NOTIFY changed FINAL)
    Q_PROPERTY(QString stockNumber READ stockNumber NOTIFY changed FINAL)
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    Q_PROPERTY(QString whose READ whose NOTIFY changed FINAL) ///< "Ines · bay 1 Wheels"
    Q_PROPERTY(QString when READ when NOTIFY changed FINAL)   ///< "today 14:00 to 15:10"
    Q_PROPERTY(QString why READ why NOTIFY changed FINAL)     ///< what it waits for
    /// What the manager said: "for Ines · not before Fri 08:00"; empty.
    Q_PROPERTY(QString pinnedWords READ pinnedWords NOTIFY changed FINAL)
    /// Not open yet: nothing can be done about it but what opens it.
    Q_PROPERTY(bool foreseen READ foreseen NOTIFY changed FINAL)
    /// Of such a job: what it is and what opens it.
    Q_PROPERTY(QString foreseenWords READ foreseenWords NOTIFY changed FINAL)
    /// Neither in hand nor out: it can be given to somebody else or put elsewhere.
    Q_PROPERTY(bool movable READ movable NOTIFY changed FINAL)
    /// Who may do it, where it may be done, from when on; "0" leaves it to the planner.
    Q_PROPERTY(ramplight::Choices* people READ people CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* bays READ bays CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* times READ times CONSTANT FINAL)
    /// Something else is chosen than holds now.
    Q_PROPERTY(bool differs READ differs NOTIFY changed FINAL)
    Q_PROPERTY(bool considering READ considering NOTIFY changed FINAL)
    /// It is known what would come of it.
    Q_PROPERTY(bool considered READ considered NOTIFY changed FINAL)
    /// Of this job: "Oskar, bay 2, Fri 08:00 to 09:10".
    Q_PROPERTY(QString becomes READ becomes NOTIFY changed FINAL)
    /// For each car that changes: "S1042 later by 3 h: Thu 17:00".
    Q_PROPERTY(QStringList shifts READ shifts NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)

public:
    /// All outlive the view.
    PlannedJob(Desk& desk, Session& session, SiteBook& book, Ticker& ticker, PlanService& plans,
               PlanView& view, QObject* parent = nullptr);

    [[nodiscard]] bool chosen() const { return m_job >= 0; }
    [[nodiscard]] int job() const { return m_job; }
    [[nodiscard]] QString carId() const { return m_wish.car.text; }
    [[nodiscard]] int operationId() const { return m_wish.operation.value; }
    [[nodiscard]] QString stockNumber() const;
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString whose() const;
    [[nodiscard]] QString when() const;
    [[nodiscard]] QString why() const;
    [[nodiscard]] QString pinnedWords() const;
    [[nodiscard]] bool foreseen() const;
    [[nodiscard]] QString foreseenWords() const;
    [[nodiscard]] bool movable() const;
    [[nodiscard]] Choices* people() { return &m_people; }
    [[nodiscard]] Choices* bays() { return &m_bays; }
    [[nodiscard]] Choices* times() { return &m_times; }
    [[nodiscard]] bool differs() const { return chosen() && m_wish != m_now; }
    [[nodiscard]] bool considering() const { return m_considering; }
    [[nodiscard]] bool considered() const { return m_considered; }
    [[nodiscard]] QString becomes() const { return m_becomes; }
    [[nodiscard]] QStringList shifts() const { return m_shifts; }
    [[nodiscard]] Ask* ask() { return &m_ask; }

    /// A job of the plan by its number; -1 lets it go.
    Q_INVOKABLE void choose(int job);
    Q_INVOKABLE void choosePerson(const QString& id);
    Q_INVOKABLE void chooseBay(const QString& id);
    Q_INVOKABLE void chooseTime(const QString& id);
    /// A touched place of the plan: a lane of the people or bays, a day of the sheet and its local
    /// minute. What does not fit this job leaves the choice as it is.
    Q_INVOKABLE void moveTo(bool ofPeople, int lane, int day, int minute);
    /// The choice becomes the manager's word.
    Q_INVOKABLE void take();
    /// The choice is what holds now, again.
    Q_INVOKABLE void leave();

signals:
    void changed();
    /// A choice was taken.
    void taken();

private:
    void follow();
    [[nodiscard]] int numberNow() const;
    void offer();
    void look();
    void show(const PlanService::Plan& base, const PlanService::Plan& would);
    [[nodiscard]] const Operation* operation() const;
    [[nodiscard]] QString placeWords(const planning::HousePlan& plan, int job) const;
    [[nodiscard]] QString spanWords(const planning::HousePlan& plan, int job) const;
    [[nodiscard]] QString shiftWords(const planning::HousePlan& plan,
                                     const planning::CarShift& shift) const;

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
    PlanView& m_view;
    Ask m_ask;
    Choices m_people;
    Choices m_bays;
    Choices m_times;
    int m_job = -1;
    QString m_title;                 ///< by which a job without an id is known again
    planning::whatif::Assign m_now;  ///< as it holds
    planning::whatif::Assign m_wish; ///< as it is chosen
    int m_looks = 0;                 ///< the answer to an older one counts no more
    bool m_considering = false;
    bool m_considered = false;
    QString m_becomes;
    QStringList m_shifts;
};

} // namespace ramplight
