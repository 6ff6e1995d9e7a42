// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/dialect.h"
#include "storage/hangguard.h"
#include "storage/storesettings.h"

#include <QHash>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QVariant>

#include <tl/expected.hpp>

#include <atomic>
#include <memory>
#include <optional>
#include <utility>

// One connection with its prepared statements. Belongs to the thread that opened it.
namespace ramplight {

/// The answer to a statement. Gives the statement back when it goes; the same statement may not be
/// run again before that.
class Rows
{
public:
    /// damaged: set where the database is found damaged on the way to a row; it outlives the rows.
    Rows(QSqlQuery* query, const Dialect& dialect, bool& damaged)
        : m_query(query)
        , m_dialect(dialect)
        , m_damaged(damaged)
    {
    }
    Rows(Rows&& other) noexcept
        : m_query(std::exchange(other.m_query, nullptr))
        , m_dialect(other.m_dialect)
        , m_damaged(other.m_damaged)
    {
    }
    Rows& operator=(Rows&&) = delete;
    Rows(const Rows&) = delete;
    Rows& operator=(const Rows&) = delete;
    ~Rows();

    [[nodiscard]] bool next();
    /// After next() said no: it was not the end of them, but a fault of the database or its disk.
    [[nodiscard]] bool brokeOff() const;
    [[nodiscard]] QString text(int column) const { return m_query->value(column).toString(); }
    [[nodiscard]] qint64 number(int column) const { return m_query->value(column).toLongLong(); }
    [[nodiscard]] int whole(int column) const { return m_query->value(column).toInt(); }
    /// As the database gave it: to be handed on.
    [[nodiscard]] QVariant value(int column) const { return m_query->value(column); }
    [[nodiscard]] bool isNull(int column) const { return m_query->isNull(column); }
    [[nodiscard]] int changed() const { return m_query->numRowsAffected(); }

private:
    QSqlQuery* m_query;
    const Dialect& m_dialect;
    bool& m_damaged;
};

/// From here on each statement that a database has carried out or refused on this thread is counted
/// there: whoever waits for this thread can tell long work from none. It outlives the thread's
/// connections.
void countStatements(std::atomic<quint64>& into);

class Connection
{
public:
    /// Opens, refuses what is not ours, sets up the connection; migrating is the caller's.
    [[nodiscard]] static tl::expected<std::unique_ptr<Connection>, StoreError>
    open(const StoreSettings& settings);
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    ~Connection();

    [[nodiscard]] const Dialect& dialect() const { return *m_dialect; }
    [[nodiscard]] QSqlDatabase& database() { return m_database; }

    /// sql is a literal (it is prepared once and kept under its address) with ? for each value.
    /// A null text is written as an empty one; QVariant() is null.
    [[nodiscard]] tl::expected<Rows, SqlFault> run(const char* sql,
                                                   const QVariantList& values = {});
    /// A statement without values that is not prepared.
    [[nodiscard]] tl::expected<void, SqlFault> plain(const QString& sql);

    [[nodiscard]] tl::expected<void, SqlFault> begin(const char* how);
    [[nodiscard]] tl::expected<void, SqlFault> commit();
    void rollBack();
    /// A number that changes when another connection wrote; nothing: the database tells by itself.
    [[nodiscard]] tl::expected<std::optional<qint64>, SqlFault> writesOfOthers();
    /// Transactions that were committed here.
    [[nodiscard]] quint64 commits() const { return m_commits; }

    /// The server went away. Nothing brings this connection back: open another one.
    [[nodiscard]] bool isLost() const { return m_lost; }
    /// Some statement found the database damaged, or somebody who looked at it otherwise.
    [[nodiscard]] bool isDamaged() const { return m_damaged; }
    void markDamaged() { m_damaged = true; }
    /// While it lives, what is done on database() itself counts as one call that the server has to
    /// answer within the patience of the settings, and so much more.
    [[nodiscard]] HangGuard::Watch watch(std::chrono::milliseconds more = {});
    /// The same around a statement that waits until somebody else gives a lock free.
    [[nodiscard]] HangGuard::Watch watchLock();
    /// Long work of its own is not taken for a server that hangs.
    void waitAsLongAsItTakes() { m_guard.reset(); }
    void waitAsTheSettingsSay();
    /// Calls that are answered late, one after the other, count as a lost server, too.
    void addUpWaits();
    /// So long from now on, where the settings have a patience at all.
    void waitFor(std::chrono::milliseconds patience);

private:
    Connection(std::unique_ptr<Dialect> dialect, StoreSettings settings);
    [[nodiscard]] tl::expected<void, StoreError> openDatabase();
    [[nodiscard]] SqlFault faultOf(const QSqlQuery& query);
    /// Begins or ends a transaction.
    [[nodiscard]] tl::expected<void, SqlFault> turn(const char* sql);

    std::unique_ptr<Dialect> m_dialect;
    StoreSettings m_settings;
    QString m_name;
    QSqlDatabase m_database;
    QHash<const char*, QSqlQuery*> m_prepared;
    bool m_lost = false;
    bool m_damaged = false;
    quint64 m_commits = 0;
    std::unique_ptr<HangGuard> m_guard; ///< null: it waits for ever
};

/// Rolled back unless committed.
class Transaction
{
public:
    [[nodiscard]] static tl::expected<Transaction, SqlFault> read(Connection& connection);
    [[nodiscard]] static tl::expected<Transaction, SqlFault> write(Connection& connection,
                                                                   const SiteId& site);
    /// Without the site's lock: for tables that no position in the ledger depends on.
    [[nodiscard]] static tl::expected<Transaction, SqlFault> writeAside(Connection& connection);
    Transaction(Transaction&& other) noexcept
        : m_connection(std::exchange(other.m_connection, nullptr))
    {
    }
    Transaction& operator=(Transaction&&) = delete;
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();

    [[nodiscard]] tl::expected<void, SqlFault> commit();

private:
    explicit Transaction(Connection& connection)
        : m_connection(&connection)
    {
    }
    Connection* m_connection;
};

/// Several statements in a row: after the first fault the others are not run.
class Writer
{
public:
    explicit Writer(Connection& connection)
        : m_connection(connection)
    {
    }

    bool run(const char* sql, const QVariantList& values);
    /// How many rows the statement changed; 0 after a fault.
    [[nodiscard]] int change(const char* sql, const QVariantList& values);
    [[nodiscard]] bool good() const { return !m_fault; }
    [[nodiscard]] const SqlFault& fault() const { return *m_fault; }

private:
    Connection& m_connection;
    std::optional<SqlFault> m_fault;
};

} // namespace ramplight
