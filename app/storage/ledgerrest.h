// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/entry.h"

#include <map>
#include <optional>
#include <set>
#include <vector>

// What a damaged SQLite file still has of its ledger, row by row. A page that cannot be read hides
// the rows behind it from whoever reads in order, so each row is asked for by itself there, and the
// index says which entries were on it. On the connection's thread; nothing is written.
namespace ramplight {

class Connection;

struct LedgerRest
{
    /// Later than what was known, in the order of the ledger; each is what its own hash was made
    /// of.
    std::vector<Entry> entries;
    struct Lost
    {
        std::set<qint64> seqs;
        qint64 firstAt = 0; ///< position of the first of them
    };
    /// By stream: entries later than what was known that the index names and that cannot be read.
    std::map<QString, Lost> lost;
    /// The last entry of the heads that was known and reads.
    std::optional<Head> lastKnownHeads;
    /// Every entry after those that were known is one of the above, none is there twice, and where
    /// the ledger ends is known from two sides. Otherwise there may be others that nothing tells
    /// of.
    bool isAccounted = false;
};

/// known: by stream where it stands; what is no later is not asked for.
[[nodiscard]] LedgerRest restOfLedger(Connection& damaged, const SiteId& site,
                                      const std::map<QString, Head>& known);

/// A car in the read tables of the same file: nothing that is sealed, but it may be the only word
/// of a car whose entries are gone.
struct CarInTable
{
    CarId car;
    qint64 seq = 0;
    QString stockNumber;
};
/// As far as they can be read.
[[nodiscard]] std::vector<CarInTable> carsInDamagedTable(Connection& damaged, const SiteId& site);

} // namespace ramplight
