// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/answer.h"
#include "kiosk/backgroundpool.h"
#include "kiosk/cardfeed.h"
#include "kiosk/sitebook.h"

#include "planning/houseledger.h"
#include "planning/lookback.h"

#include <QDate>
#include <QObject>

#include <atomic>
#include <memory>
#include <utility>
#include <vector>

namespace ramplight {

/// How good this house's forecasts were until now. Once a day it reads what the ledger has of the
/// cars that are here and of those that were released since the first morning that it looks back
/// on, and goes through it on a thread of its own. GUI thread.
class LookingBack : public QObject
{
    Q_OBJECT

public:
    /// Desk, feed and book outlive it.
    LookingBack(Desk& desk, CardFeed& feed, SiteBook& book, planning::LookBackEffort effort,
                QObject* parent = nullptr);
    /// Ends what is under way and waits for it.
    ~LookingBack() override;

    /// It has not looked back on that day yet, and is not doing so. The book has been read.
    [[nodiscard]] bool isOwed(Moment now) const;
    /// Where it is owed. gone: the signed-off work of cars that have left; of those that left
    /// before that first morning it is all that counts, and their histories stay where they are.
    void look(Moment now, planning::RecordsByCar gone);
    [[nodiscard]] bool isBusy() const { return m_isBusy; }
    /// Until it has looked back: what houses have in common.
    [[nodiscard]] const planning::Hindsight& hindsight() const { return m_hindsight; }

signals:
    void changed();

private:
    void readCars(std::vector<CarId> left);
    [[nodiscard]] Moment firstMorning() const;
    void goThrough();

    Desk& m_desk;
    CardFeed& m_feed;
    SiteBook& m_book;
    planning::LookBackEffort m_effort;
    std::vector<SiteEnvelope> m_site;
    planning::RecordsByCar m_before; ///< of cars that left before the first morning
    std::vector<std::pair<CarId, Answer<std::vector<CarEnvelope>>>> m_histories; ///< so far
    planning::Hindsight m_hindsight;
    Moment m_now;
    QDate m_day;
    bool m_isBusy = false;
    std::shared_ptr<std::atomic_bool> m_stop = std::make_shared<std::atomic_bool>(false);
    BackgroundPool m_pool;
};

} // namespace ramplight
