// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/cardfeed.h"
#include "kiosk/offer.h"
#include "kiosk/session.h"
#include "kiosk/ticker.h"

namespace ramplight {

/// Asks the domain whether commands on a car would be carried out now, without carrying them out:
/// for the person who is signed in or, when nobody is, for somebody who may do everything. What
/// only the ledger knows (a bay taken, a stock number twice) stays for the real command. GUI
/// thread; what it is given outlives it.
class CarProbe
{
public:
    CarProbe(const Session& session, const SiteBook& book, const CardFeed& feed,
             const Ticker& ticker, const Catalogue& catalogue);

    /// Commands that are sent together, in order. No answer for a car that is not read yet.
    [[nodiscard]] Offer ask(CarState car, const std::vector<CarCommand>& commands,
                            bool shown) const;

private:
    [[nodiscard]] std::optional<RunningWork> runningOf(PersonId person) const;

    const Session& m_session;
    const SiteBook& m_book;
    const CardFeed& m_feed;
    const Ticker& m_ticker;
    const Catalogue& m_catalogue;
};

} // namespace ramplight
