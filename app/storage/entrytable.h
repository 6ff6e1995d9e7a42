// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"
#include "storage/entry.h"

// Reading and adding rows of the ledger. On the connection's thread.
namespace ramplight {

/// Where the stream stands; seq 0 and no hash when it is empty.
[[nodiscard]] tl::expected<Head, SqlFault> headOf(Connection& connection, const SiteId& site,
                                                  const QString& stream);
/// The same, and when its last entry was written; null when it is empty.
struct Standing
{
    Head head;
    Moment at;
};
[[nodiscard]] tl::expected<Standing, SqlFault>
standingOf(Connection& connection, const SiteId& site, const QString& stream);
/// Whether there is any entry after a sequence number.
[[nodiscard]] tl::expected<bool, SqlFault>
hasEntriesAfter(Connection& connection, const SiteId& site, const QString& stream, qint64 seq);
/// Of a row that begins with position, seq, at, actor, command, type, version, body, prev_hash,
/// hash.
[[nodiscard]] Entry entryOf(const Rows& row, const QString& stream);
/// The entries after a sequence number, in order.
[[nodiscard]] tl::expected<std::vector<Entry>, SqlFault>
entriesAfter(Connection& connection, const SiteId& site, const QString& stream, qint64 seq);
/// In the order of their names.
[[nodiscard]] tl::expected<QStringList, SqlFault> streamsOf(Connection& connection,
                                                            const SiteId& site);
/// As it is, hash and all.
bool insertEntry(Writer& writer, const SiteId& site, const Entry& entry);

/// Checks that the entries follow head without a gap, each with its right hash, and moves head to
/// the last. Error: words that name the first entry that does not.
[[nodiscard]] tl::expected<void, QString> follow(const SiteId& site, Head& head,
                                                 const std::vector<Entry>& entries);

} // namespace ramplight
