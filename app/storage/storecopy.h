// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/sqlledger.h"

// A whole site in another database: for a backup, and to move between SQLite and a server.
namespace ramplight {

struct SiteCopied
{
    qint64 entries = 0;
    int cars = 0;
};

/// Copies everything that is kept of the site, entry by entry in the order of the whole ledger, and
/// makes the read tables there. Reads one unchanging view, writes one transaction. `to` is open on
/// the same site (StoreSettings::site) and holds nothing of it. On the threads of both ledgers,
/// which are one. Errors: Conflict (there is something already), Unavailable: nothing is left in
/// `to`; Damaged: the ledger is not whole, and `to` is of no use.
[[nodiscard]] tl::expected<SiteCopied, StoreError> copySite(SqlLedger& from, SqlLedger& to);

/// Makes what is kept beside the ledger of `to` the same as in `from`, seal and all. Errors: as
/// copySite.
[[nodiscard]] tl::expected<void, StoreError> copyStaff(SqlLedger& from, SqlLedger& to);

/// Compares two ledgers of one site entry by entry, and what is kept beside them. Empty when they
/// hold the same; else the first thing that differs, in words.
[[nodiscard]] tl::expected<QString, StoreError> differenceBetween(SqlLedger& one, SqlLedger& other);

/// A SQLite file with all that the store holds now, while others work with it. The file is there
/// and empty, or not there at all; whether it is on the disk is the caller's concern. Any thread
/// without a connection of its own. Errors: Unavailable, Damaged; what stands in the file then is
/// of no use.
[[nodiscard]] tl::expected<void, StoreError> snapshot(const StoreSettings& from,
                                                      const QString& file);

} // namespace ramplight
