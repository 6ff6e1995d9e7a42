// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storecopy.h"

#include "log/log.h"
#include "storage/entrytable.h"
#include "storage/staffseal.h"
#include "storage/verifier.h"

#include <array>

namespace ramplight {
namespace {

/// What is kept of a site besides the read tables; a table's rows may refer to those above it. The
/// value of each statement that reads is the site.
struct KeptTable
{
    const char* name;
    int columns;
    const char* read;
    const char* write;
    const char* clear = nullptr; ///< null: nothing in it ever goes
};

constexpr std::array keptTables{
    KeptTable{"command", 5,
              "SELECT site, command, at, actor, entries FROM command WHERE site = ?"
              " ORDER BY command",
              "INSERT INTO command (site, command, at, actor, entries) VALUES (?, ?, ?, ?, ?)"},
    KeptTable{"ledger", 11,
              "SELECT site, stream, seq, at, actor, command, type, version, body, prev_hash, hash"
              " FROM ledger WHERE site = ? ORDER BY position",
              "INSERT INTO ledger (site, stream, seq, at, actor, command, type, version, body,"
              " prev_hash, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"},
    KeptTable{"person_name", 3,
              "SELECT site, person, name FROM person_name WHERE site = ? ORDER BY person",
              "INSERT INTO person_name (site, person, name) VALUES (?, ?, ?)",
              "DELETE FROM person_name WHERE site = ?"},
    KeptTable{"credential", 3,
              "SELECT site, person, pin_hash FROM credential WHERE site = ? ORDER BY person",
              "INSERT INTO credential (site, person, pin_hash) VALUES (?, ?, ?)",
              "DELETE FROM credential WHERE site = ?"},
    KeptTable{"badge", 3, "SELECT site, code, person FROM badge WHERE site = ? ORDER BY person",
              "INSERT INTO badge (site, code, person) VALUES (?, ?, ?)",
              "DELETE FROM badge WHERE site = ?"},
    KeptTable{"pin_failure", 5,
              "SELECT site, person, number, kind, at FROM pin_failure WHERE site = ?"
              " ORDER BY person, number",
              "INSERT INTO pin_failure (site, person, number, kind, at) VALUES (?, ?, ?, ?, ?)",
              "DELETE FROM pin_failure WHERE site = ?"},
    KeptTable{"setting", 3, "SELECT site, name, value FROM setting WHERE site = ? ORDER BY name",
              // A store that was opened has noted who filled its read tables.
              "INSERT INTO setting (site, name, value) VALUES (?, ?, ?)"
              " ON CONFLICT (site, name) DO UPDATE SET value = excluded.value",
              "DELETE FROM setting WHERE site = ?"},
};

tl::unexpected<StoreError> copyFailed(const SqlFault& fault)
{
    if (fault.kind == SqlFault::Kind::Other)
        log::error(QStringLiteral("copy: %1").arg(fault.text));
    return tl::unexpected(storeError(fault));
}

QVariantList valuesOf(const Rows& row, int columns)
{
    QVariantList values;
    values.reserve(columns);
    for (int i = 0; i < columns; ++i)
        values.append(row.value(i));
    return values;
}

/// How many rows.
tl::expected<qint64, StoreError> copyTable(const KeptTable& table, const SiteId& site,
                                           Connection& from, Connection& to)
{
    auto rows = from.run(table.read, {site.text});
    if (!rows)
        return copyFailed(rows.error());
    Writer writer(to);
    qint64 count = 0;
    while (rows->next()) {
        if (!writer.run(table.write, valuesOf(*rows, table.columns)))
            return copyFailed(writer.fault());
        ++count;
    }
    return count;
}

tl::expected<void, StoreError> copyTables(SqlLedger& from, SqlLedger& to, SiteCopied& copied)
{
    auto reading = Transaction::read(from.connection());
    if (!reading)
        return copyFailed(reading.error());
    auto writing = Transaction::write(to.connection(), to.siteId());
    if (!writing)
        return copyFailed(writing.error());
    const auto streams = streamsOf(to.connection(), to.siteId());
    if (!streams)
        return copyFailed(streams.error());
    if (!streams->isEmpty())
        return tl::unexpected(StoreError{
            StoreErrorKind::Conflict,
            QStringLiteral("There is a workshop in that database already. Nothing was changed; "
                           "name an empty one.")});
    for (const KeptTable& table : keptTables) {
        const auto rows = copyTable(table, from.siteId(), from.connection(), to.connection());
        if (!rows)
            return tl::unexpected(rows.error());
        if (table.name == QLatin1StringView("ledger"))
            copied.entries = *rows;
    }
    // Without the key the seal that came along stays: the rows are the same.
    if (to.keeper().canSeal())
        if (auto sealed = sealStaff(to.connection(), to.siteId(), to.keeper()); !sealed)
            return copyFailed(sealed.error());
    if (auto committed = writing->commit(); !committed)
        return copyFailed(committed.error());
    return {};
}

/// Words, or nothing where the table holds the same on both sides.
tl::expected<QString, StoreError> tableDifference(const KeptTable& table, const SiteId& site,
                                                  Connection& one, Connection& other)
{
    auto left = one.run(table.read, {site.text});
    if (!left)
        return copyFailed(left.error());
    auto right = other.run(table.read, {site.text});
    if (!right)
        return copyFailed(right.error());
    for (qint64 row = 1;; ++row) {
        const bool more = left->next();
        if (right->next() != more)
            return QStringLiteral("%1: one of them has no row %2")
                .arg(QLatin1StringView(table.name))
                .arg(row);
        if (!more)
            return QString();
        for (int i = 0; i < table.columns; ++i)
            if (left->text(i) != right->text(i))
                return QStringLiteral("%1: row %2 is not the same")
                    .arg(QLatin1StringView(table.name))
                    .arg(row);
    }
}

} // namespace

tl::expected<SiteCopied, StoreError> copySite(SqlLedger& from, SqlLedger& to)
{
    SiteCopied copied;
    if (auto done = copyTables(from, to, copied); !done)
        return tl::unexpected(done.error());
    const auto cars = rebuildReadTables(to);
    if (!cars)
        return tl::unexpected(cars.error());
    copied.cars = *cars;
    return copied;
}

tl::expected<void, StoreError> copyStaff(SqlLedger& from, SqlLedger& to)
{
    auto reading = Transaction::read(from.connection());
    if (!reading)
        return copyFailed(reading.error());
    auto writing = Transaction::write(to.connection(), to.siteId());
    if (!writing)
        return copyFailed(writing.error());
    for (const KeptTable& table : keptTables) {
        if (table.clear == nullptr)
            continue;
        if (auto cleared = to.connection().run(table.clear, {to.siteId().text}); !cleared)
            return copyFailed(cleared.error());
        if (auto rows = copyTable(table, from.siteId(), from.connection(), to.connection()); !rows)
            return tl::unexpected(rows.error());
    }
    if (auto committed = writing->commit(); !committed)
        return copyFailed(committed.error());
    return {};
}

tl::expected<QString, StoreError> differenceBetween(SqlLedger& one, SqlLedger& other)
{
    if (one.siteId() != other.siteId())
        return QStringLiteral("They are of two sites");
    auto left = Transaction::read(one.connection());
    if (!left)
        return copyFailed(left.error());
    auto right = Transaction::read(other.connection());
    if (!right)
        return copyFailed(right.error());
    for (const KeptTable& table : keptTables) {
        auto words = tableDifference(table, one.siteId(), one.connection(), other.connection());
        if (!words || !words->isEmpty())
            return words;
    }
    return QString();
}

tl::expected<void, StoreError> snapshot(const StoreSettings& from, const QString& file)
{
    if (from.kind == StoreKind::Sqlite) {
        // One statement, one view: whoever writes meanwhile is neither kept waiting nor half in it.
        auto connection = Connection::open(from);
        if (!connection)
            return tl::unexpected(connection.error());
        if (auto done = (*connection)->run("VACUUM INTO ?", {file}); !done)
            return copyFailed(done.error());
        return {};
    }
    auto source = SqlLedger::open(from, {});
    if (!source)
        return tl::unexpected(source.error());
    StoreSettings target;
    target.file = file;
    target.site = (*source)->siteId();
    auto copy = SqlLedger::open(target, {});
    if (!copy)
        return tl::unexpected(copy.error());
    return copySite(**source, **copy).map([](const SiteCopied&) {});
}

} // namespace ramplight
