// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/cardfeed.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <QObject>

namespace ramplight {

/// Pauses all work at the end of the shift, by the clock and the house rules. A kiosk that was off
/// then does it when it is on again, as of the shift's end; work begun after it goes on. GUI
/// thread.
class ShiftEnd : public QObject
{
    Q_OBJECT

public:
    /// All outlive it.
    ShiftEnd(Desk& desk, CardFeed& feed, SiteBook& book, Ticker& ticker, QObject* parent = nullptr);

private:
    void look();

    Desk& m_desk;
    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    bool m_busy = false;
};

} // namespace ramplight
