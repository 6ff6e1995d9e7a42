// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/shiftend.h"

#include "kiosk/ask.h"

#include <algorithm>

namespace ramplight {

ShiftEnd::ShiftEnd(Desk& desk, CardFeed& feed, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
{
    connect(&ticker, &Ticker::minute, this, &ShiftEnd::look);
    connect(&feed, &CardFeed::changed, this, &ShiftEnd::look);
    connect(&book, &SiteBook::changed, this, &ShiftEnd::look);
}

void ShiftEnd::look()
{
    if (m_busy || !m_book.isRead() || !m_feed.isRead())
        return;
    const Moment end = m_book.times().lastTimeOfDay(m_book.rules().shiftEndMinute, m_ticker.now());
    const bool goesOn = std::ranges::any_of(m_feed.cards(), [&](const CarCard& card) {
        return std::ranges::any_of(card.outstanding, [&](const CardLine& line) {
            return !line.runningSince.isNull() && line.runningSince < end;
        });
    });
    if (!goesOn)
        return;
    m_busy = true;
    // What could not be written is tried again with the next minute.
    whenReady(m_desk.stopAllWork(newCommandId(), {}, end), this,
              [this](const tl::expected<int, Failure>&) { m_busy = false; });
}

} // namespace ramplight
