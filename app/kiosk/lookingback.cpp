// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/lookingback.h"

#include <utility>

namespace ramplight {

LookingBack::LookingBack(Desk& desk, CardFeed& feed, SiteBook& book,
                         planning::LookBackEffort effort, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_feed(feed)
    , m_book(book)
    , m_effort(std::move(effort))
{
}

LookingBack::~LookingBack()
{
    m_stop->store(true);
    m_pool.waitForDone();
}

bool LookingBack::isOwed(Moment now) const
{
    return m_effort.mornings > 0 && !m_isBusy && dayOf(now, m_book.site().rules) != m_day;
}

void LookingBack::look(Moment now, planning::RecordsByCar gone)
{
    if (!isOwed(now))
        return;
    m_isBusy = true;
    m_day = dayOf(now, m_book.site().rules);
    m_now = now;
    m_before = std::move(gone);
    whenReady(m_desk.siteHistory(), this,
              [this](const tl::expected<std::vector<SiteEnvelope>, Failure>& entries) {
                  // The store's own fault is told by who reads the cards.
                  if (entries)
                      m_site = *entries;
                  whenReady(m_desk.releasedCards(planning::learnedCars), this,
                            [this](const tl::expected<std::vector<CarCard>, Failure>& released) {
                                const Moment first = firstMorning();
                                std::vector<CarId> cars;
                                for (const CarCard& card : m_feed.cards())
                                    cars.push_back(card.car);
                                if (released)
                                    for (const CarCard& card : *released)
                                        if (card.lastAt >= first || !m_before.contains(card.car))
                                            cars.push_back(card.car);
                                // Whose history is read counts by that.
                                for (const CarId& car : cars)
                                    m_before.erase(car);
                                readCars(std::move(cars));
                            });
              });
}

Moment LookingBack::firstMorning() const
{
    const std::vector<Moment> mornings =
        planning::morningsBefore(m_now, m_book.site(), m_effort.mornings);
    return mornings.empty() ? m_now : mornings.front();
}

void LookingBack::readCars(std::vector<CarId> left)
{
    // One after the other, so that what somebody touches meanwhile gets its turn at the store.
    if (left.empty()) {
        goThrough();
        return;
    }
    const CarId id = left.back();
    left.pop_back();
    const Answer<std::vector<CarEnvelope>> history = m_desk.history(id);
    m_histories.emplace_back(id, history);
    whenReady(history, this, [this, left = std::move(left)](const auto&) { readCars(left); });
}

void LookingBack::goThrough()
{
    // The histories go from the store's thread to that of the pool: the GUI's memory never sees
    // them.
    const auto found =
        onPool(m_pool, [site = std::exchange(m_site, {}), before = std::exchange(m_before, {}),
                        histories = std::exchange(m_histories, {}), now = m_now, effort = m_effort,
                        catalogue = std::make_shared<const Catalogue>(m_book.catalogue()),
                        stop = m_stop]() mutable {
            planning::HouseLedger ledger{std::move(site), {}, std::move(before)};
            for (auto& [car, history] : histories)
                if (auto entries = history.takeResult())
                    ledger.cars.insert_or_assign(car, std::move(*entries));
            histories.clear();
            return planning::lookBack(ledger, catalogue, now, effort,
                                      [stop] { return stop->load(); });
        });
    whenReady(found, this, [this](const planning::Hindsight& hindsight) {
        m_hindsight = hindsight;
        m_isBusy = false;
        emit changed();
    });
}

} // namespace ramplight
