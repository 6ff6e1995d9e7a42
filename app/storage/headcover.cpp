// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/headcover.h"

#include "log/log.h"
#include "storage/entrytable.h"

#include <algorithm>

namespace ramplight {
namespace {

struct Tip
{
    qint64 position = 0;
    CommandId command;
    Head head;
};

tl::expected<Tip, SqlFault> tipOf(Connection& connection, const SiteId& site, const QString& stream)
{
    auto rows = connection.run("SELECT position, command, seq, hash FROM ledger WHERE site = ?"
                               " AND stream = ? ORDER BY seq DESC LIMIT 1",
                               {site.text, stream});
    if (!rows)
        return tl::unexpected(rows.error());
    if (!rows->next())
        return Tip{};
    return Tip{rows->number(0), {rows->text(1)}, {stream, rows->number(2), rows->text(3)}};
}

/// The heads that were written next; with position 0 when there are none. A command's are its last
/// entry, and nobody else of the program writes in between.
tl::expected<Entry, SqlFault> headsAfter(Connection& connection, const SiteId& site,
                                         qint64 position)
{
    // The casts keep SQLite from going through all heads of the site instead of along the
    // positions; to PostgreSQL they are nothing.
    auto rows = connection.run("SELECT position, seq, at, actor, command, type, version, body,"
                               " prev_hash, hash FROM ledger"
                               " WHERE CAST(site AS TEXT) = ? AND CAST(stream AS TEXT) = ?"
                               " AND position > ? ORDER BY position LIMIT 1",
                               {site.text, headsStream(), position});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next() ? entryOf(*rows, headsStream()) : Entry{};
}

bool isUnder(const Tip& tip, const Entry& headsEntry, const SiteId& site, const HeadKeeper& keeper)
{
    if (headsEntry.position == 0 || headsEntry.command != tip.command)
        return false;
    const auto heads = headsOf(headsEntry);
    return heads && std::ranges::find(heads->heads, tip.head) != heads->heads.end() &&
           (!keeper.canSeal() || isSealedBy(keeper, site, headsEntry, *heads));
}

} // namespace

tl::expected<qint64, StoreError> tipUnderItsHeads(Connection& connection, const SiteId& site,
                                                  const HeadKeeper& keeper, const QString& stream)
{
    const auto tip = tipOf(connection, site, stream);
    if (!tip)
        return tl::unexpected(storeError(tip.error()));
    const qint64 seq = tip->head.seq;
    if (seq == 0)
        return 0;
    const auto heads = headsAfter(connection, site, tip->position);
    if (!heads)
        return tl::unexpected(storeError(heads.error()));
    if (isUnder(*tip, *heads, site, keeper))
        return seq;
    log::error(QStringLiteral("ledger: no sealed head of its own command names entry %1 of %2")
                   .arg(seq)
                   .arg(stream));
    return tl::unexpected(
        StoreError{StoreErrorKind::Damaged,
                   QStringLiteral("Entry %1 of %2 in the ledger was not written by this workshop's "
                                  "programs. Nothing was written upon it; tell the manager, run a "
                                  "check of the ledger and bring back a backup.")
                       .arg(seq)
                       .arg(stream)});
}

bool isSealedBy(const HeadKeeper& keeper, const SiteId& site, const Entry& entry,
                const Heads& heads)
{
    return keeper.canSeal() && keeper.ageOf(heads.key) >= 0 &&
           heads.seal ==
               sealHeads(keeper.with(heads.key), site, entry.seq, entry.prevHash, heads).seal;
}

} // namespace ramplight
