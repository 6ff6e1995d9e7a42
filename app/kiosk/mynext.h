// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"
#include "kiosk/planservice.h"
#include "kiosk/session.h"

#include <QtQmlIntegration>

namespace ramplight {

struct NextRow
{
    QString carId;
    int operationId = 0;
    QString stockNumber;
    QString makeModel;
    QString title;
    bool inHand = false;
    QString whenWords;      ///< "in hand", "now", "today 14:00"
    QString whereWords;     ///< "bay 1 Wheels", "where the car stands: yard"
    QString whyWords;       ///< what it waits for, and why it is next
    QString promisedWords;  ///< "promised Thu", "promised Thu, must be kept"
    QString lengthWords;    ///< "about 1 h 10"; empty for work in hand
    QString aboutWords;     ///< "QX 71 ABC · hatch · slate"
    QString restraintWords; ///< of the car as it stands: "Do not power"; empty
    QString shape;          ///< of the car, for its outline
    QVariantMap marks;      ///< where the work is: place id -> Wall.Mark

    [[nodiscard]] QString key() const { return carId + QString::number(operationId); }
    friend bool operator==(const NextRow&, const NextRow&) = default;
};

/// What comes later than the next three. Roles are NextRow's names. GUI thread.
class LaterWork : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from what is next")

public:
    explicit LaterWork(QObject* parent = nullptr);
    void set(std::vector<NextRow> rows) { replace(std::move(rows)); }
};

/// The next three operations of who is signed in, by the plan, with why; and what comes after them.
/// Roles are NextRow's names. GUI thread.
class MyNext : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// False until there is a plan.
    Q_PROPERTY(bool planned READ planned NOTIFY plannedChanged FINAL)
    Q_PROPERTY(ramplight::LaterWork* later READ later CONSTANT FINAL)

public:
    MyNext(Session& session, CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
           QObject* parent = nullptr);

    [[nodiscard]] bool planned() const { return m_plans.plan() != nullptr; }
    [[nodiscard]] LaterWork* later() { return &m_later; }

signals:
    void plannedChanged();

private:
    void rebuild();
    [[nodiscard]] NextRow rowOf(const planning::HousePlan& plan, int job) const;
    [[nodiscard]] QString promised(const CarCard& card) const;
    [[nodiscard]] QString whyOf(const planning::HousePlan& plan, int job) const;

    Session& m_session;
    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
    LaterWork m_later;
};

} // namespace ramplight
