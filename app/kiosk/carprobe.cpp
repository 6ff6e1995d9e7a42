// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/carprobe.h"

#include "domain/cardecide.h"
#include "domain/words.h"

#include <algorithm>
#include <limits>

namespace ramplight {

namespace {

Person whoMayDoEverything()
{
    Person anybody;
    anybody.id = PersonId{std::numeric_limits<int>::max()};
    for (const auto& [skill, name] : Names<Skill>::table)
        anybody.skills.push_back(skill);
    for (const auto& [right, name] : Names<Right>::table)
        anybody.rights.push_back(right);
    return anybody;
}

} // namespace

CarProbe::CarProbe(const Session& session, const SiteBook& book, const CardFeed& feed,
                   const Ticker& ticker, const Catalogue& catalogue)
    : m_session(session)
    , m_book(book)
    , m_feed(feed)
    , m_ticker(ticker)
    , m_catalogue(catalogue)
{
}

Offer CarProbe::ask(CarState car, const std::vector<CarCommand>& commands, bool shown) const
{
    Offer offer;
    offer.shown = shown;
    if (!car.exists())
        return offer;
    CarContext context;
    SiteState site = m_book.site();
    context.actor = m_session.person();
    if (!m_session.signedIn()) {
        const Person anybody = whoMayDoEverything();
        context.actor = anybody.id;
        site.people[anybody.id] = anybody;
    }
    context.now = std::max(m_ticker.now(), car.lastAt);
    context.catalogue = &m_catalogue;
    context.site = &site;
    context.pinFresh = true;
    context.running = runningOf(context.actor);
    for (const CarCommand& command : commands) {
        const auto decided = decide(car, context, command);
        if (!decided) {
            offer.why = words(decided.error());
            return offer;
        }
    }
    offer.can = true;
    return offer;
}

std::optional<RunningWork> CarProbe::runningOf(PersonId person) const
{
    for (const CarCard& card : m_feed.cards())
        for (const CardLine& line : card.outstanding)
            if (std::ranges::find(line.people, person) != line.people.end())
                return RunningWork{card.car, card.identity.stockNumber, line.operation, line.title};
    return {};
}

} // namespace ramplight
