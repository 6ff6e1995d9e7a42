// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storecopy.h"

#include "log/log.h"
#include "storage/entrytable.h"
#include "storage/kepttables.h"
#include "storage/staffseal.h"
#include "storage/verifier.h"

#include <QHash>
#include <QSet>

#include <utility>

namespace ramplight {
namespace {

tl::unexpected<StoreError> copyFailed(const SqlFault& fault)
{
    if (fault.kind == SqlFault::Kind::Other)
        log::error(QStringLiteral("copy: %1").arg(fault.text));
    return tl::unexpected(storeError(fault));
}

QVariantList valuesOf(const KeptRows& row, int columns)
{
    QVariantList values;
    values.reserve(columns);
    for (int i = 0; i < columns; ++i)
        values.append(row.value(i));
    return values;
}

tl::unexpected<StoreError> partedHere(const KeptTable& table)
{
    return tl::unexpected(
        StoreError{StoreErrorKind::Conflict,
                   QStringLiteral("That database has this workshop as it was when it was moved "
                                  "away, and something of it (%1) is not in what would be moved "
                                  "there now: an older backup, perhaps. Nothing was changed; name "
                                  "an empty database.")
                       .arg(QLatin1StringView(table.name))});
}

/// What the table holds in `to` already. The ids of commands, which both databases may sort in
/// another order.
tl::expected<QSet<QString>, StoreError> commandsIn(const KeptTable& table, const SiteId& site,
                                                   Connection& to, int atOnce)
{
    KeptRows rows(table, site, to, atOnce);
    QSet<QString> there;
    while (rows.next())
        there.insert(rows.text(1));
    if (const auto fault = rows.fault())
        return copyFailed(*fault);
    return there;
}

/// Goes along both as far as `to` has rows; they have to be the same.
tl::expected<void, StoreError> passKnown(const KeptTable& table, KeptRows& left, KeptRows& right,
                                         qint64& count)
{
    for (; right.next(); ++count) {
        if (!left.next()) {
            if (const auto fault = left.fault())
                return copyFailed(*fault);
            return partedHere(table);
        }
        for (int i = 0; i < table.columns; ++i)
            if (left.text(i) != right.text(i))
                return partedHere(table);
    }
    if (const auto fault = right.fault())
        return copyFailed(*fault);
    return {};
}

/// How many rows `to` has then. It has none of the table, or the first of them.
tl::expected<qint64, StoreError> copyTable(const KeptTable& table, const SiteId& site,
                                           Connection& from, Connection& to, int atOnce)
{
    QSet<QString> known;
    const bool isOfCommands = table.name == QLatin1StringView("command");
    if (isOfCommands) {
        auto there = commandsIn(table, site, to, atOnce);
        if (!there)
            return tl::unexpected(there.error());
        known = std::move(*there);
    }
    KeptRows rows(table, site, from, atOnce);
    Writer writer(to);
    qint64 count = 0;
    if (table.clear == nullptr && !isOfCommands) {
        KeptRows there(table, site, to, atOnce);
        if (auto passed = passKnown(table, rows, there, count); !passed)
            return tl::unexpected(passed.error());
    }
    while (rows.next()) {
        ++count;
        if (isOfCommands && known.remove(rows.text(1)))
            continue;
        if (!writer.run(table.write, valuesOf(rows, table.columns)))
            return copyFailed(writer.fault());
    }
    if (const auto fault = rows.fault())
        return copyFailed(*fault);
    if (!known.isEmpty())
        return partedHere(table);
    return count;
}

/// The table again, as `from` has it.
tl::expected<void, StoreError> replaceTable(const KeptTable& table, const SiteId& site,
                                            Connection& from, Connection& to)
{
    if (auto cleared = to.run(table.clear, {site.text}); !cleared)
        return copyFailed(cleared.error());
    return copyTable(table, site, from, to, rowsReadAtOnce).map([](qint64) {});
}

tl::expected<void, StoreError> copyTables(SqlLedger& from, SqlLedger& to, SiteCopied& copied,
                                          int atOnce)
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
    const auto away = movedAway(to.connection(), to.siteId());
    if (!away)
        return copyFailed(away.error());
    if (!streams->isEmpty() && !*away)
        return tl::unexpected(StoreError{
            StoreErrorKind::Conflict,
            QStringLiteral("There is a workshop in that database already. Nothing was changed; "
                           "name an empty one.")});
    for (const KeptTable& table : keptTables) {
        if (table.clear != nullptr) {
            // The seal over them comes along and stays what it was: whether it fits is for the
            // check to say.
            if (auto done = replaceTable(table, from.siteId(), from.connection(), to.connection());
                !done)
                return done;
            continue;
        }
        const auto rows =
            copyTable(table, from.siteId(), from.connection(), to.connection(), atOnce);
        if (!rows)
            return tl::unexpected(rows.error());
        if (table.name == QLatin1StringView("ledger"))
            copied.entries = *rows;
    }
    if (auto committed = writing->commit(); !committed)
        return copyFailed(committed.error());
    return {};
}

/// The table's rows by the text that tells them apart.
tl::expected<QHash<QString, QStringList>, StoreError>
rowsByText(const KeptTable& table, const SiteId& site, Connection& connection)
{
    KeptRows rows(table, site, connection);
    QHash<QString, QStringList> found;
    while (rows.next()) {
        QStringList values;
        for (int i = 2; i < table.columns; ++i)
            values.append(rows.text(i));
        found.insert(rows.text(1), values);
    }
    if (const auto fault = rows.fault())
        return copyFailed(*fault);
    return found;
}

/// As tableDifference(), whatever the order of the rows is.
tl::expected<QString, StoreError> textDifference(const KeptTable& table, const SiteId& site,
                                                 Connection& one, Connection& other)
{
    const auto left = rowsByText(table, site, one);
    if (!left)
        return tl::unexpected(left.error());
    const auto right = rowsByText(table, site, other);
    if (!right)
        return tl::unexpected(right.error());
    const QLatin1StringView name(table.name);
    for (auto row = left->begin(); row != left->end(); ++row)
        if (!right->contains(row.key()))
            return QStringLiteral("%1: one of them has no row %2").arg(name, row.key());
        else if (right->value(row.key()) != row.value())
            return QStringLiteral("%1: row %2 is not the same").arg(name, row.key());
    for (auto row = right->begin(); row != right->end(); ++row)
        if (!left->contains(row.key()))
            return QStringLiteral("%1: one of them has no row %2").arg(name, row.key());
    return QString();
}

/// Words, or nothing where the table holds the same on both sides.
tl::expected<QString, StoreError> tableDifference(const KeptTable& table, const SiteId& site,
                                                  Connection& one, Connection& other)
{
    if (table.byText)
        return textDifference(table, site, one, other);
    KeptRows left(table, site, one);
    KeptRows right(table, site, other);
    for (qint64 row = 1;; ++row) {
        const bool more = left.next();
        const bool isSame = right.next() == more;
        for (const KeptRows* rows : {&left, &right})
            if (const auto fault = rows->fault())
                return copyFailed(*fault);
        if (!isSame)
            return QStringLiteral("%1: one of them has no row %2")
                .arg(QLatin1StringView(table.name))
                .arg(row);
        if (!more)
            return QString();
        for (int i = 0; i < table.columns; ++i)
            if (left.text(i) != right.text(i))
                return QStringLiteral("%1: row %2 is not the same")
                    .arg(QLatin1StringView(table.name))
                    .arg(row);
    }
}

/// The same of a table in which nothing ever changes.
tl::expected<QString, StoreError> countDifference(const KeptTable& table, const SiteId& site,
                                                  Connection& one, Connection& other)
{
    qint64 counts[2] = {0, 0};
    Connection* const both[2] = {&one, &other};
    for (int i = 0; i < 2; ++i) {
        auto rows = both[i]->run(table.count, {site.text});
        if (!rows)
            return copyFailed(rows.error());
        if (rows->next())
            counts[i] = rows->number(0);
    }
    return counts[0] == counts[1] ? QString()
                                  : QStringLiteral("%1: %2 rows and %3")
                                        .arg(QLatin1StringView(table.name))
                                        .arg(counts[0])
                                        .arg(counts[1]);
}

/// Whether it was copied: mustFit, and its seal does not, then it was not.
tl::expected<bool, StoreError> copyStaffIf(Connection& from, SqlLedger& to, bool mustFit)
{
    auto reading = Transaction::read(from);
    if (!reading)
        return copyFailed(reading.error());
    auto writing = Transaction::write(to.connection(), to.siteId());
    if (!writing)
        return copyFailed(writing.error());
    for (const KeptTable& table : keptTables) {
        if (table.clear == nullptr)
            continue;
        if (auto done = replaceTable(table, to.siteId(), from, to.connection()); !done)
            return tl::unexpected(done.error());
    }
    if (mustFit && !staffIsSealed(to.connection(), to.siteId(), to.keeper()))
        return false;
    if (auto committed = writing->commit(); !committed)
        return copyFailed(committed.error());
    return true;
}

} // namespace

tl::expected<SiteCopied, StoreError> copySite(SqlLedger& from, SqlLedger& to, int atOnce)
{
    SiteCopied copied;
    if (auto done = copyTables(from, to, copied, atOnce); !done)
        return tl::unexpected(done.error());
    const auto cars = rebuildReadTables(to);
    if (!cars)
        return tl::unexpected(cars.error());
    copied.cars = *cars;
    return copied;
}

tl::expected<void, StoreError> copyStaff(Connection& from, SqlLedger& to)
{
    return copyStaffIf(from, to, false).map([](bool) {});
}

tl::expected<bool, StoreError> copySealedStaff(Connection& from, SqlLedger& to)
{
    return copyStaffIf(from, to, true);
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

tl::expected<void, StoreError> leaveFor(SqlLedger& from, SqlLedger& to, const SiteMove& move)
{
    const auto reading = Transaction::read(to.connection());
    if (!reading)
        return copyFailed(reading.error());
    // Nobody writes for the site while this one does.
    auto writing = Transaction::write(from.connection(), from.siteId());
    if (!writing)
        return copyFailed(writing.error());
    for (const KeptTable& table : keptTables) {
        // The others only grow.
        const auto difference =
            table.clear != nullptr
                ? tableDifference(table, from.siteId(), from.connection(), to.connection())
                : countDifference(table, from.siteId(), from.connection(), to.connection());
        if (!difference)
            return tl::unexpected(difference.error());
        if (!difference->isEmpty())
            return tl::unexpected(StoreError{
                StoreErrorKind::Conflict,
                QStringLiteral("Somebody worked at another kiosk while the workshop was being "
                               "moved (%1). It stays where it is; close the other kiosks and "
                               "move it again.")
                    .arg(*difference)});
    }
    if (auto marked = markMoved(from.connection(), from.siteId(), move); !marked)
        return copyFailed(marked.error());
    if (auto committed = writing->commit(); !committed)
        return copyFailed(committed.error());
    return {};
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
