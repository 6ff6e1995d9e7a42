// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/sitefacts.h"
#include "storage/sqlledger.h"

#include <tl/expected.hpp>

#include <vector>

namespace ramplight {

/// The sites that share a database, out of the read tables; only names come from the sites' own
/// streams, which are small. On the ledger's thread, some sites at a time, so that no screen waits
/// for a large group. Errors: Unavailable, Damaged.
class SitesQuery
{
public:
    /// The ledger outlives the query.
    explicit SitesQuery(SqlLedger& ledger)
        : m_ledger(ledger)
    {
    }

    /// Those behind this one in the order of their ids, at most so many; none: that was all. Not
    /// those that were moved out of the database.
    [[nodiscard]] tl::expected<std::vector<SiteFacts>, StoreError> after(const SiteId& site,
                                                                         int most, Moment now);

private:
    [[nodiscard]] tl::expected<SiteFacts, StoreError> factsOf(const SiteId& site, Moment now);

    SqlLedger& m_ledger;
};

} // namespace ramplight
