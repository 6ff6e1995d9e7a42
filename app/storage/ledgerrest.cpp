// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/ledgerrest.h"

#include "storage/connection.h"
#include "storage/entrytable.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace ramplight {
namespace {

constexpr const char* ledgerRowsAfter =
    "SELECT position, seq, at, actor, command, type, version, body, prev_hash, hash, site, stream"
    " FROM ledger WHERE position > ? ORDER BY position";
constexpr const char* ledgerRowAt =
    "SELECT position, seq, at, actor, command, type, version, body, prev_hash, hash, site, stream"
    " FROM ledger WHERE position = ?";
constexpr const char* lastLedgerRow = "SELECT position FROM ledger ORDER BY position DESC LIMIT 1";
constexpr const char* indexUp =
    "SELECT site, stream, seq, position FROM ledger INDEXED BY sqlite_autoindex_ledger_1"
    " ORDER BY site, stream, seq";
constexpr const char* indexDown =
    "SELECT site, stream, seq, position FROM ledger INDEXED BY sqlite_autoindex_ledger_1"
    " ORDER BY site DESC, stream DESC, seq DESC";
constexpr const char* entriesOfCommands = "SELECT entries FROM command";

/// A row of the ledger takes more than that: no file of so many bytes has more rows.
constexpr qint64 leastBytesOfRow = 200;

/// Nothing: it cannot be read.
std::optional<qint64> numberRead(Connection& connection, const char* sql)
{
    auto rows = connection.run(sql);
    if (!rows || !rows->next())
        return {};
    return rows->number(0);
}

class ReadingRest
{
public:
    ReadingRest(Connection& damaged, const SiteId& site, const std::map<QString, Head>& known)
        : m_damaged(damaged)
        , m_site(site)
        , m_known(known)
    {
    }

    LedgerRest run()
    {
        const std::optional<qint64> byTable = numberRead(m_damaged, lastLedgerRow);
        const std::optional<qint64> byCommands = rowsByCommands();
        const qint64 pages = numberRead(m_damaged, "PRAGMA page_count").value_or(0);
        const qint64 bytes = pages * numberRead(m_damaged, "PRAGMA page_size").value_or(0);
        readTable(std::min(std::max(byTable.value_or(0), byCommands.value_or(0)),
                           bytes / leastBytesOfRow));
        readIndex();
        std::ranges::sort(m_rest.entries, {}, &Entry::position);
        m_rest.isAccounted = endIsKnown(byTable, byCommands) && !m_twice && isAccounted();
        return std::move(m_rest);
    }

private:
    struct IndexRow
    {
        QByteArray site;
        QByteArray stream;
        qint64 seq = 0;
        qint64 position = 0;

        [[nodiscard]] bool isBehind(const IndexRow& other) const
        {
            return std::tie(site, stream, seq) > std::tie(other.site, other.stream, other.seq);
        }
    };

    [[nodiscard]] qint64 knownOf(const QString& stream) const
    {
        const auto found = m_known.find(stream);
        return found == m_known.end() ? 0 : found->second.seq;
    }

    /// How many rows the commands say that they wrote.
    [[nodiscard]] std::optional<qint64> rowsByCommands()
    {
        auto rows = m_damaged.run(entriesOfCommands);
        if (!rows)
            return {};
        qint64 sum = 0;
        while (rows->next())
            sum += rows->number(0);
        return rows->brokeOff() ? std::nullopt : std::optional(sum);
    }

    /// end: up to there each row is asked for by itself once reading in order breaks off.
    void readTable(qint64 end)
    {
        for (qint64 at = 0;;) {
            bool isBroken = true;
            if (auto rows = m_damaged.run(ledgerRowsAfter, {at})) {
                while (rows->next()) {
                    // What stands on a damaged page may be any number.
                    at = std::max(at, std::min(rows->number(0), end));
                    take(*rows);
                }
                isBroken = rows->brokeOff();
            }
            if (!isBroken)
                return;
            bool isPast = false;
            while (!isPast && ++at <= end)
                if (auto row = m_damaged.run(ledgerRowAt, {at}))
                    isPast = row->next() && (take(*row), true);
            if (!isPast)
                return;
        }
    }

    void take(const Rows& row)
    {
        Entry entry = entryOf(row, row.text(11));
        const SiteId site{row.text(10)};
        if (entry.hash != hashOf(site, entry) || !m_read.insert(entry.position).second)
            return;
        if (site != m_site)
            return;
        const bool isKnown = entry.seq <= knownOf(entry.stream);
        if (isKnown) {
            // What was known is the beginning of the ledger.
            m_knownUpTo = std::max(m_knownUpTo, entry.position);
            if (entry.stream == headsStream() &&
                (!m_rest.lastKnownHeads || m_rest.lastKnownHeads->seq < entry.seq))
                m_rest.lastKnownHeads = {entry.stream, entry.seq, entry.hash};
            return;
        }
        m_twice = m_twice || !m_later[entry.stream].insert(entry.seq).second;
        m_rest.entries.push_back(std::move(entry));
    }

    /// Its rows in their order, until it breaks off. Nothing: they are in no order.
    [[nodiscard]] std::optional<std::vector<IndexRow>> indexRows(const char* sql, bool isUp,
                                                                 bool& brokeOff)
    {
        std::vector<IndexRow> holes;
        IndexRow before;
        bool isFirst = true;
        auto rows = m_damaged.run(sql);
        brokeOff = !rows;
        if (!rows)
            return holes;
        while (rows->next()) {
            IndexRow row{rows->text(0).toUtf8(), rows->text(1).toUtf8(), rows->number(2),
                         rows->number(3)};
            if (!isFirst && !(isUp ? row.isBehind(before) : before.isBehind(row)))
                return {};
            isFirst = false;
            m_indexEnd = std::max(m_indexEnd, row.position);
            if (!m_read.contains(row.position))
                holes.push_back(row);
            before = std::move(row);
        }
        brokeOff = rows->brokeOff();
        return holes;
    }

    void readIndex()
    {
        bool brokeOff = false;
        auto holes = indexRows(indexUp, true, brokeOff);
        m_isIndexWhole = holes && !brokeOff;
        if (holes && brokeOff)
            if (const auto others = indexRows(indexDown, false, brokeOff))
                holes->insert(holes->end(), others->begin(), others->end());
        if (!holes)
            return;
        for (const IndexRow& hole : *holes) {
            m_named.insert(hole.position);
            const QString stream = QString::fromUtf8(hole.stream);
            if (SiteId{QString::fromUtf8(hole.site)} != m_site || hole.seq <= knownOf(stream))
                continue;
            LedgerRest::Lost& lost = m_rest.lost[stream];
            m_twice = m_twice || !m_later[stream].insert(hole.seq).second;
            lost.seqs.insert(hole.seq);
            lost.firstAt =
                lost.firstAt == 0 ? hole.position : std::min(lost.firstAt, hole.position);
        }
    }

    /// Rows, index and commands each say how many entries there are; one page that lost some of
    /// them without a word is found by the others.
    [[nodiscard]] bool endIsKnown(std::optional<qint64> byTable, std::optional<qint64> byCommands)
    {
        const std::optional<qint64> byIndex =
            m_isIndexWhole ? std::optional(m_indexEnd) : std::nullopt;
        for (const auto& [one, other] :
             {std::pair{byTable, byIndex}, std::pair{byTable, byCommands},
              std::pair{byIndex, byCommands}})
            if (one && one == other)
                m_end = *one;
        return m_end > 0 && (m_read.empty() || *m_read.rbegin() <= m_end) &&
               (m_named.empty() || *m_named.rbegin() <= m_end);
    }

    [[nodiscard]] bool isAccounted() const
    {
        // Where a row stands is in no hash.
        if (!m_rest.entries.empty() && m_rest.entries.front().position <= m_knownUpTo)
            return false;
        for (qint64 position = m_knownUpTo + 1; position <= m_end; ++position)
            if (!m_read.contains(position) && !m_named.contains(position))
                return false;
        // A key of the index that turned would name another entry.
        return std::ranges::all_of(m_later, [this](const auto& stream) {
            const auto& [name, seqs] = stream;
            return *seqs.rbegin() - knownOf(name) == static_cast<qint64>(seqs.size());
        });
    }

    Connection& m_damaged;
    const SiteId& m_site;
    const std::map<QString, Head>& m_known;
    LedgerRest m_rest;
    std::set<qint64> m_read;                     ///< positions of rows that are what was written
    std::set<qint64> m_named;                    ///< of others, which the index names
    std::map<QString, std::set<qint64>> m_later; ///< by stream, read or named
    qint64 m_knownUpTo = 0;
    qint64 m_indexEnd = 0;
    bool m_isIndexWhole = false;
    bool m_twice = false;
    qint64 m_end = 0;
};

} // namespace

LedgerRest restOfLedger(Connection& damaged, const SiteId& site,
                        const std::map<QString, Head>& known)
{
    return ReadingRest(damaged, site, known).run();
}

std::vector<CarInTable> carsInDamagedTable(Connection& damaged, const SiteId& site)
{
    std::vector<CarInTable> cars;
    if (auto rows =
            damaged.run("SELECT car, seq, stock_number FROM car WHERE site = ?", {site.text}))
        while (rows->next())
            cars.push_back({{rows->text(0)}, rows->number(1), rows->text(2)});
    return cars;
}

} // namespace ramplight
