// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/cardfeed.h"

#include "domain/vin.h"

#include <algorithm>

namespace ramplight {

CardFeed::CardFeed(Desk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
    connect(&desk, &Desk::carsChanged, this, &CardFeed::refresh);
}

void CardFeed::refresh()
{
    if (m_reading) {
        m_again = true;
        return;
    }
    m_reading = true;
    whenReady(m_desk.openCards(), this,
              [this](const tl::expected<std::vector<CarCard>, Failure>& cards) {
                  m_reading = false;
                  if (cards) {
                      m_cards = *cards;
                      m_read = true;
                      emit changed();
                  } else {
                      emit m_desk.storeFault(words(cards.error()));
                  }
                  if (std::exchange(m_again, false))
                      refresh();
              });
}

const CarCard* CardFeed::card(const CarId& car) const
{
    const auto found = std::ranges::find(m_cards, car, &CarCard::car);
    return found == m_cards.end() ? nullptr : &*found;
}

const CarCard* CardFeed::withVin(const QString& vin, const CarId& butNot) const
{
    if (vin.isEmpty())
        return nullptr;
    // Some were entered before the house kept one spelling.
    const QString wanted = oneSpelling(vin);
    const auto it = std::ranges::find_if(m_cards, [&](const CarCard& card) {
        return card.car != butNot && oneSpelling(card.identity.vin) == wanted;
    });
    return it == m_cards.end() ? nullptr : &*it;
}

} // namespace ramplight
