// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcard.h"
#include "storage/sqlledger.h"

#include <tl/expected.hpp>

#include <utility>
#include <vector>

namespace ramplight {

/// Cards out of the read tables: no replay, and for the wall no look at the history. On the
/// ledger's thread. Errors: Unavailable, Damaged.
class WallQuery
{
public:
    using Cards = tl::expected<std::vector<CarCard>, StoreError>;

    /// The ledger outlives the query.
    explicit WallQuery(SqlLedger& ledger)
        : WallQuery(ledger, ledger.siteId())
    {
    }
    /// Of another site of the database.
    WallQuery(SqlLedger& ledger, SiteId site)
        : m_ledger(ledger)
        , m_site(std::move(site))
    {
    }

    /// Every car in preparation, in no particular order.
    [[nodiscard]] Cards wall();
    /// These cars, on the wall or not; unknown ones are left out.
    [[nodiscard]] Cards cards(const QStringList& cars);
    /// Over all cars that ever were here, by a part of stock number or registration, spaces and
    /// case aside, or by a whole VIN; the latest first, at most limit.
    [[nodiscard]] Cards find(const QString& text, int limit = 50);
    /// The latest first.
    [[nodiscard]] Cards recentlyReleased(int limit = 50);
    /// Every car that was in preparation at some time from `from` on and before `before`, in the
    /// order of stock numbers.
    [[nodiscard]] tl::expected<std::vector<CarId>, StoreError> inHouse(Moment from, Moment before);

private:
    [[nodiscard]] Cards withVin(const QString& vin, int limit);

    SqlLedger& m_ledger;
    SiteId m_site;
};

} // namespace ramplight
