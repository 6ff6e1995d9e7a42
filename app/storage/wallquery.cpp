// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/wallquery.h"

#include "domain/eventcodec.h"
#include "domain/vin.h"
#include "storage/readrows.h"

namespace ramplight {
namespace {

/// Adds the cards of an answer whose only column is the card.
tl::expected<void, StoreError> collect(tl::expected<Rows, SqlFault> rows,
                                       std::vector<CarCard>& cards)
{
    if (!rows)
        return tl::unexpected(storeError(rows.error()));
    while (rows->next()) {
        CarCard card;
        const auto body = bodyOf(rows->text(0).toUtf8());
        if (!body || !fromJson(*body, card).isEmpty())
            return tl::unexpected(
                StoreError{StoreErrorKind::Damaged,
                           QStringLiteral("A car's card cannot be read. The ledger itself is not "
                                          "touched by this; rebuild the cards from it.")});
        cards.push_back(std::move(card));
    }
    // A wall without some of its cars would be believed.
    if (rows->brokeOff())
        return tl::unexpected(storeError({SqlFault::Kind::Corrupt, {}}));
    return {};
}

WallQuery::Cards cardsOf(tl::expected<Rows, SqlFault> rows)
{
    std::vector<CarCard> cards;
    if (auto collected = collect(std::move(rows), cards); !collected)
        return tl::unexpected(collected.error());
    return cards;
}

} // namespace

WallQuery::Cards WallQuery::wall()
{
    return cardsOf(m_ledger.connection().run("SELECT card FROM car WHERE site = ? AND on_wall = 1",
                                             {m_site.text}));
}

WallQuery::Cards WallQuery::cards(const QStringList& cars)
{
    std::vector<CarCard> cards;
    for (const QString& car : cars)
        if (auto collected =
                collect(m_ledger.connection().run("SELECT card FROM car WHERE site = ? AND car = ?",
                                                  {m_site.text, car}),
                        cards);
            !collected)
            return tl::unexpected(collected.error());
    return cards;
}

WallQuery::Cards WallQuery::find(const QString& text, int limit)
{
    // A key holds letters and digits only, so nothing in it means anything to LIKE.
    const QString key = searchKey(text);
    if (key.isEmpty())
        return std::vector<CarCard>{};
    if (const auto vin = readVin(text))
        return withVin(vin->text, limit);
    const QString pattern = QLatin1Char('%') + key + QLatin1Char('%');
    return cardsOf(m_ledger.connection().run(
        "SELECT card FROM car WHERE site = ? AND car IN"
        " (SELECT car FROM car WHERE site = ? AND (stock_key LIKE ? OR registration_key LIKE ?)"
        " ORDER BY last_at DESC, car LIMIT ?) ORDER BY last_at DESC, car",
        {m_site.text, m_site.text, pattern, pattern, limit}));
}

WallQuery::Cards WallQuery::withVin(const QString& vin, int limit)
{
    // Asked by a scan, seldom: it looks through the cards, of which some name it elsewhere.
    auto cards = cardsOf(m_ledger.connection().run(
        "SELECT card FROM car WHERE site = ? AND card LIKE ? ORDER BY last_at DESC, car",
        {m_site.text, QStringLiteral("%\"") + vin + QStringLiteral("\"%")}));
    if (!cards)
        return cards;
    std::erase_if(*cards, [&](const CarCard& card) { return card.identity.vin != vin; });
    if (cards->size() > static_cast<std::size_t>(limit))
        cards->resize(static_cast<std::size_t>(limit));
    return cards;
}

WallQuery::Cards WallQuery::recentlyReleased(int limit)
{
    return cardsOf(
        m_ledger.connection().run("SELECT card FROM car WHERE site = ? AND released_at <> 0"
                                  " ORDER BY released_at DESC, car LIMIT ?",
                                  {m_site.text, limit}));
}

tl::expected<std::vector<CarId>, StoreError> WallQuery::inHouse(Moment from, Moment before)
{
    // What is on the wall is in the house; the rest was until its release, or its last entry.
    auto rows = m_ledger.connection().run(
        "SELECT car FROM car WHERE site = ? AND arrived_at < ? AND (on_wall = 1 OR"
        " (CASE WHEN released_at <> 0 THEN released_at ELSE last_at END) >= ?)"
        " ORDER BY stock_number, car",
        {m_site.text, before.ms, from.ms});
    if (!rows)
        return tl::unexpected(storeError(rows.error()));
    std::vector<CarId> cars;
    while (rows->next())
        cars.push_back(CarId{rows->text(0)});
    return cars;
}

} // namespace ramplight
