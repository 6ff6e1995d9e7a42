// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/cardfeed.h"
#include "kiosk/listbase.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <QtQmlIntegration>

namespace ramplight {

struct BayRow
{
    int bayId = 0;
    int number = 0;
    QString name;
    QString kindWords;
    bool free = true;
    bool active = true;
    QString carId;
    QString stockNumber;
    QString who;            ///< "Ines Aldous, Oskar Vane"; empty when nobody is on it
    QString whoShort;       ///< the same by first names, as far as those tell who is on cars apart
    QString stateWords;     ///< "38 min", "cure 40 min", "awaiting check", "free"
    bool forgotten = false; ///< a timer probably was: "since 07:40?"
    double progress = 0;    ///< minutes on the job / usual minutes, above 1 when over
    bool showProgress = false;
    QString restraintWords; ///< "do not move"
    int band = 0;           ///< Wall.Band of the car

    [[nodiscard]] int key() const { return bayId; }
    friend bool operator==(const BayRow&, const BayRow&) = default;
};

/// The bays in the order of their numbers, closed ones left out. Roles are BayRow's names.
/// GUI thread.
class BaysModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")

public:
    /// withClosed: also bays that are closed (for the staff-and-bays screen).
    BaysModel(CardFeed& feed, SiteBook& book, Ticker& ticker, bool withClosed = false,
              QObject* parent = nullptr);

private:
    void rebuild();

    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    bool m_withClosed;
};

} // namespace ramplight
