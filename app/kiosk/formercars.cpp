// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/formercars.h"

#include "kiosk/answer.h"
#include "kiosk/carwords.h"

#include <array>
#include <utility>

namespace ramplight {

namespace {

constexpr int shortestText = 2;

constexpr std::array formerColumns{
    Column<FormerRow>{"carId", cell<&FormerRow::carId>},
    Column<FormerRow>{"stockNumber", cell<&FormerRow::stockNumber>},
    Column<FormerRow>{"carWords", cell<&FormerRow::carWords>},
    Column<FormerRow>{"leftWords", cell<&FormerRow::leftWords>},
};

bool isFormer(const CarCard& card)
{
    return card.status == CarStatus::Released || card.status == CarStatus::Withdrawn;
}

} // namespace

FormerCars::FormerCars(Desk& desk, QObject* parent)
    : ListBase(std::make_unique<RowTable<FormerRow>>(formerColumns), parent)
    , m_desk(desk)
{
}

void FormerCars::look(const QString& text)
{
    const QString wanted = text.trimmed();
    if (wanted == m_text)
        return;
    m_text = wanted;
    if (wanted.size() < shortestText) {
        replace(std::vector<FormerRow>{});
        return;
    }
    whenReady(m_desk.findCars(wanted), this,
              [this, wanted](const tl::expected<std::vector<CarCard>, Failure>& found) {
                  // Somebody typed on meanwhile.
                  if (wanted != m_text)
                      return;
                  std::vector<FormerRow> rows;
                  if (found)
                      for (const CarCard& card : *found)
                          if (isFormer(card) && rows.size() < most)
                              rows.push_back(
                                  {card.car.text, card.identity.stockNumber,
                                   dotted({makeModelOf(card.identity), card.identity.registration}),
                                   words(card.status)});
                  replace(std::move(rows));
              });
}

} // namespace ramplight
