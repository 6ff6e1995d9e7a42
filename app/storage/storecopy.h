// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/kepttables.h"
#include "storage/sitemove.h"
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
/// the same site (StoreSettings::site) and holds nothing of it, or the site was moved away from
/// there (sitemove.h) and what `from` holds goes on from that: then what is missing is added, and
/// it stays marked. On the threads of both ledgers, which are one. Errors: Conflict (there is
/// something else already), Unavailable: `to` is as it was; Damaged: the ledger is not whole, and
/// `to` is of no use.
/// atOnce: rows of the ledger, of which no more lie in memory.
[[nodiscard]] tl::expected<SiteCopied, StoreError> copySite(SqlLedger& from, SqlLedger& to,
                                                            int atOnce = rowsReadAtOnce);

/// Makes what is kept beside the ledger of `to` the same as `from` has it of that site, seal and
/// all. Errors: as copySite.
[[nodiscard]] tl::expected<void, StoreError> copyStaff(Connection& from, SqlLedger& to);

/// The same out of a file that may be damaged: whether it came. Where the seal does not fit what
/// came, nothing was changed. Errors: as copySite.
[[nodiscard]] tl::expected<bool, StoreError> copySealedStaff(Connection& from, SqlLedger& to);

/// Compares two ledgers of one site entry by entry, and what is kept beside them. Empty when they
/// hold the same; else the first thing that differs, in words.
[[nodiscard]] tl::expected<QString, StoreError> differenceBetween(SqlLedger& one, SqlLedger& other);

/// Once `to` was found to hold the same: marks the site in `from` as moved to where `move` says, if
/// nobody has written there meanwhile. Errors: Conflict (somebody has; nothing was marked),
/// Unavailable (whether it was marked may not be known).
[[nodiscard]] tl::expected<void, StoreError> leaveFor(SqlLedger& from, SqlLedger& to,
                                                      const SiteMove& move);

/// A SQLite file with all that the store holds now, while others work with it. The file is there
/// and empty, or not there at all; whether it is on the disk is the caller's concern. Any thread
/// without a connection of its own. Errors: Unavailable, Damaged; what stands in the file then is
/// of no use.
[[nodiscard]] tl::expected<void, StoreError> snapshot(const StoreSettings& from,
                                                      const QString& file);

} // namespace ramplight
