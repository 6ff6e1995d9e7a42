// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/entrytable.h"

namespace ramplight {

tl::expected<Head, SqlFault> headOf(Connection& connection, const SiteId& site,
                                    const QString& stream)
{
    return standingOf(connection, site, stream).map([](const Standing& standing) {
        return standing.head;
    });
}

tl::expected<Standing, SqlFault> standingOf(Connection& connection, const SiteId& site,
                                            const QString& stream)
{
    auto rows = connection.run("SELECT seq, hash, at FROM ledger WHERE site = ? AND stream = ?"
                               " ORDER BY seq DESC LIMIT 1",
                               {site.text, stream});
    if (!rows)
        return tl::unexpected(rows.error());
    if (!rows->next())
        return Standing{{stream, 0, {}}, {}};
    return Standing{{stream, rows->number(0), rows->text(1)}, {rows->number(2)}};
}

tl::expected<bool, SqlFault> hasEntriesAfter(Connection& connection, const SiteId& site,
                                             const QString& stream, qint64 seq)
{
    auto rows = connection.run("SELECT 1 FROM ledger WHERE site = ? AND stream = ? AND seq > ?"
                               " LIMIT 1",
                               {site.text, stream, seq});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next();
}

Entry entryOf(const Rows& row, const QString& stream)
{
    Entry entry;
    entry.position = row.number(0);
    entry.stream = stream;
    entry.seq = row.number(1);
    entry.at = {row.number(2)};
    entry.actor = {row.whole(3)};
    entry.command = {row.text(4)};
    entry.type = row.text(5);
    entry.version = row.whole(6);
    entry.body = row.text(7).toUtf8();
    entry.prevHash = row.text(8);
    entry.hash = row.text(9);
    return entry;
}

tl::expected<std::vector<Entry>, SqlFault> entriesAfter(Connection& connection, const SiteId& site,
                                                        const QString& stream, qint64 seq)
{
    auto rows = connection.run("SELECT position, seq, at, actor, command, type, version, body,"
                               " prev_hash, hash FROM ledger"
                               " WHERE site = ? AND stream = ? AND seq > ? ORDER BY seq",
                               {site.text, stream, seq});
    if (!rows)
        return tl::unexpected(rows.error());
    std::vector<Entry> entries;
    while (rows->next())
        entries.push_back(entryOf(*rows, stream));
    return entries;
}

tl::expected<QStringList, SqlFault> streamsOf(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT DISTINCT stream FROM ledger WHERE site = ? ORDER BY stream",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    QStringList streams;
    while (rows->next())
        streams.append(rows->text(0));
    return streams;
}

bool insertEntry(Writer& writer, const SiteId& site, const Entry& entry)
{
    return writer.run("INSERT INTO ledger (site, stream, seq, at, actor, command, type, version,"
                      " body, prev_hash, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                      {site.text, entry.stream, entry.seq, entry.at.ms, entry.actor.value,
                       entry.command.text, entry.type, entry.version, QString::fromUtf8(entry.body),
                       entry.prevHash, entry.hash});
}

tl::expected<void, QString> follow(const SiteId& site, Head& head,
                                   const std::vector<Entry>& entries)
{
    for (const Entry& entry : entries) {
        const auto wrong = [&](const char* words) {
            return tl::unexpected(QStringLiteral("entry %1 of %2 %3")
                                      .arg(entry.seq)
                                      .arg(entry.stream, QLatin1StringView(words)));
        };
        if (entry.seq != head.seq + 1)
            return wrong("does not follow the one before it: entries are missing");
        if (entry.prevHash != head.hash)
            return wrong("does not carry the hash of the one before it");
        if (entry.hash != hashOf(site, entry))
            return wrong("is not what was written: its hash is another one");
        head.seq = entry.seq;
        head.hash = entry.hash;
    }
    return {};
}

} // namespace ramplight
