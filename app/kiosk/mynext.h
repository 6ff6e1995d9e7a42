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
    QString whenWords;  ///< "in hand", "now", "today 14:00"
    QString whereWords; ///< "bay 1 Wheels", "where the car stands: yard"
    QString whyWords;   ///< what it waits for, and why it is next
    QString promisedWords;

    [[nodiscard]] QString key() const { return carId + QString::number(operationId); }
    friend bool operator==(const NextRow&, const NextRow&) = default;
};

/// The next three operations of who is signed in, by the plan, with why. Roles are NextRow's names.
/// GUI thread.
class MyNext : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// False until there is a plan.
    Q_PROPERTY(bool planned READ planned NOTIFY plannedChanged FINAL)

public:
    MyNext(Session& session, CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
           QObject* parent = nullptr);

    [[nodiscard]] bool planned() const { return m_plans.plan() != nullptr; }

signals:
    void plannedChanged();

private:
    void rebuild();
    [[nodiscard]] NextRow rowOf(const planning::HousePlan& plan, int job) const;
    [[nodiscard]] QString whyOf(const planning::HousePlan& plan, int job) const;

    Session& m_session;
    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
};

} // namespace ramplight
