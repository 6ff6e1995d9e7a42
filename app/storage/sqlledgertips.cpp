// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What the streams of a ledger end with, and whether the house wrote it.
#include "storage/entrytable.h"
#include "storage/headcover.h"
#include "storage/sqlledger.h"

namespace ramplight {

tl::expected<Head, StoreError> SqlLedger::head(const CarId& id)
{
    auto head = headOf(*m_connection, m_site, carStream(id));
    if (!head)
        return tl::unexpected(loggedError(head.error()));
    return *head;
}

tl::expected<Head, StoreError> SqlLedger::headAt(const CarId& id, qint64 seq)
{
    auto rows =
        m_connection->run("SELECT hash FROM ledger WHERE site = ? AND stream = ? AND seq = ?",
                          {m_site.text, carStream(id), seq});
    if (!rows)
        return tl::unexpected(loggedError(rows.error()));
    return Head{carStream(id), seq, rows->next() ? rows->text(0) : QString()};
}

tl::expected<void, StoreError> SqlLedger::checkTips(const Append& append)
{
    const auto tipOf = [this](const QString& stream) {
        return tipUnderItsHeads(*m_connection, m_site, m_keeper, stream);
    };
    if (m_siteSealed != m_siteView.state.seq) {
        const auto tip = tipOf(siteStream());
        if (!tip)
            return tl::unexpected(tip.error());
        m_siteSealed = *tip;
    }
    for (const CarAppend& car : append.cars) {
        CachedCar* cached = m_cars.object(car.car.text);
        if (car.afterSeq == 0 ||
            (cached != nullptr && cached->isSealed && cached->state.seq == car.afterSeq))
            continue;
        const auto tip = tipOf(carStream(car.car));
        if (!tip)
            return tl::unexpected(tip.error());
        if (cached != nullptr)
            cached->isSealed = cached->state.seq == *tip;
    }
    return {};
}

} // namespace ramplight
