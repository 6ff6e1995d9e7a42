// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/postgresqldialect.h"

#include "storage/ownschema.h"

#include <QLibrary>
#include <QSqlDatabase>
#include <QSqlDriver>
#include <QSqlError>
#include <QSqlQuery>
#include <QVariant>

#include <algorithm>
#include <array>
#include <utility>

namespace ramplight {
namespace {

// The version that the project is tested on (Debian 12).
constexpr int oldestServer = 150000;

SqlFault::Kind postgresConstraint(const QString& text)
{
    using Kind = SqlFault::Kind;
    // By the index; a shard's own (db/distributed) is called after the shard, and what it is about
    // stands behind the words, in any language: "car_7_site_bay_idx" ... (site, bay)=(...).
    struct Rule
    {
        const char* index;
        const char* shard;
        const char* columns;
        Kind kind;
    };
    static constexpr std::array table{
        Rule{"\"ledger_entry\"", "\"ledger_", "(site, stream, seq)=", Kind::EntryTaken},
        Rule{"\"command_known\"", "\"command_", "(site, command)=", Kind::CommandKnown},
        Rule{"\"one_running_segment_per_person\"", "\"work_segment_",
             "(site, person)=", Kind::PersonBusy},
        Rule{"\"one_car_per_bay\"", "\"car_", "(site, bay)=", Kind::BayTaken},
        Rule{"\"one_car_per_stock_number\"", "\"car_", "(site, stock_number)=", Kind::StockTaken},
    };
    const auto says = [&](const char* part) { return text.contains(QLatin1StringView(part)); };
    for (const Rule& rule : table)
        if (says(rule.index) || (says(rule.shard) && says(rule.columns)))
            return rule.kind;
    return Kind::Other;
}

/// What libpq and the TLS library behind it say when no connection comes about, and the server.
/// Those two speak English here; a server speaks as it was set up, so that what is not known is its
/// word.
SqlFault::Kind connectionFault(const QString& text, bool isOpening)
{
    using Kind = SqlFault::Kind;
    static constexpr std::array table{
        std::pair{"server does not support SSL", Kind::Unencrypted},
        std::pair{"root certificate file", Kind::NoRoot},
        std::pair{"certificate verify failed", Kind::OtherRoot},
        std::pair{"does not match host name", Kind::OtherName},
        // Also where it ends in the middle of work.
        std::pair{"Connection refused", Kind::Lost},
        std::pair{"timeout expired", Kind::Lost},
        std::pair{"could not translate host name", Kind::Lost},
        std::pair{"closed the connection", Kind::Lost},
        std::pair{"could not connect", Kind::Lost},
        std::pair{"could not send", Kind::Lost},
        std::pair{"could not receive", Kind::Lost},
        std::pair{"No such file or directory", Kind::Lost},
        std::pair{"No route to host", Kind::Lost},
        std::pair{"unreachable", Kind::Lost},
        std::pair{"Connection reset", Kind::Lost},
        std::pair{"Connection timed out", Kind::Lost},
        std::pair{"SSL SYSCALL error", Kind::Lost},
        std::pair{"no connection to the server", Kind::Lost},
        std::pair{"too many clients", Kind::Crowded},
        std::pair{"too many connections", Kind::Crowded},
        std::pair{"connection slots are reserved", Kind::Crowded},
        std::pair{"database system is", Kind::Crowded},
    };
    for (const auto& [part, kind] : table)
        if (text.contains(QLatin1StringView(part)))
            return kind;
    return isOpening ? Kind::Refused : Kind::Lost;
}

/// Schema names become part of a statement: letters, digits and underscores only.
bool isPlainName(const QString& name)
{
    return std::all_of(name.begin(), name.end(), [](QChar c) {
        return c == QLatin1Char('_') || (c.unicode() < 128 && c.isLetterOrNumber());
    });
}

} // namespace

QString PostgresqlDialect::driver() const
{
    return QStringLiteral("QPSQL");
}

QString PostgresqlDialect::migrations() const
{
    return QStringLiteral(":/ramplight/migrations/postgresql");
}

void PostgresqlDialect::address(QSqlDatabase& database, const StoreSettings& settings) const
{
    const PostgresAddress& server = settings.server;
    database.setHostName(server.host);
    database.setPort(server.port);
    database.setDatabaseName(server.database);
    database.setUserName(server.user);
    database.setPassword(server.password);
    database.setConnectOptions(server.connectOptions());
}

tl::expected<void, StoreError> PostgresqlDialect::inspect(QSqlDatabase& database) const
{
    QSqlQuery query(database);
    if (!query.exec(QStringLiteral("SHOW server_version_num")) || !query.next())
        return tl::unexpected(storeError(classify(query.lastError())));
    if (query.value(0).toInt() < oldestServer)
        return tl::unexpected(
            toBeSeenTo(QStringLiteral("The server is older than PostgreSQL 15. Nothing was "
                                      "changed; use a newer server.")));
    return {};
}

tl::expected<void, StoreError> PostgresqlDialect::configure(QSqlDatabase& database,
                                                            const StoreSettings& settings) const
{
    if (!isPlainName(settings.server.schema))
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("\"%1\" cannot be the name of a schema. Nothing was changed; use "
                           "letters, digits and underscores.")
                .arg(settings.server.schema)});
    QStringList statements{
        QStringLiteral("SET synchronous_commit TO on"),
        // Shorter than a kiosk's patience: a lock that somebody holds is no lost server.
        QStringLiteral("SET lock_timeout TO '2s'"),
        QStringLiteral("SET client_min_messages TO warning"),
        QStringLiteral("SET application_name TO 'ramplight'")};
    if (!settings.server.schema.isEmpty())
        statements.append(QStringLiteral("SET search_path TO %1").arg(settings.server.schema));
    for (const QString& statement : statements) {
        QSqlQuery query(database);
        if (!query.exec(statement))
            return tl::unexpected(storeError(classify(query.lastError())));
    }
    return {};
}

const char* PostgresqlDialect::beginRead() const
{
    return "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY";
}

const char* PostgresqlDialect::beginWrite() const
{
    // A kiosk that froze or was cut off in the middle of a change does not keep the others waiting.
    return "BEGIN; SET LOCAL idle_in_transaction_session_timeout TO '5s'";
}

const char* PostgresqlDialect::couldChangeLedger() const
{
    return "SELECT CAST(has_table_privilege('ledger', 'UPDATE, DELETE, TRUNCATE') AS int)";
}

const char* PostgresqlDialect::lockSite() const
{
    return "SELECT pg_advisory_xact_lock(hashtextextended(?, 7))";
}

const char* PostgresqlDialect::versionTable() const
{
    return "SELECT count(to_regclass('schema_version'))";
}

const char* PostgresqlDialect::lockSchema() const
{
    // An arbitrary number that only the migrations use.
    return "SELECT pg_advisory_xact_lock(1380011344)";
}

const char* PostgresqlDialect::notify() const
{
    return "SELECT pg_notify(?, ?)";
}

const char* PostgresqlDialect::changeCounter() const
{
    return nullptr;
}

bool PostgresqlDialect::readsForwardOnly() const
{
    // Forward-only answers occupy the connection until they are read to their end.
    return false;
}

bool PostgresqlDialect::preparesTransactions() const
{
    return false;
}

int PostgresqlDialect::socketOf(const QSqlDatabase& database) const
{
    // Of the libpq that Qt's driver has loaded; nothing else of it is used here.
    using SocketOf = int (*)(const void* connection);
    static const auto ask =
        reinterpret_cast<SocketOf>(QLibrary(QStringLiteral("pq"), 5).resolve("PQsocket"));
    const QVariant handle = database.driver()->handle();
    // PGconn* by its own name, or by that of the struct behind it.
    const QByteArrayView name(handle.typeName());
    if (ask == nullptr || !handle.isValid() || (name != "PGconn*" && name != "pg_conn*"))
        return -1;
    const void* connection = *static_cast<void* const*>(handle.constData());
    return connection == nullptr ? -1 : ask(connection);
}

SqlFault PostgresqlDialect::classify(const QSqlError& error) const
{
    using Kind = SqlFault::Kind;
    // SQLSTATE (postgresql.org/docs/15/errcodes-appendix.html)
    const QString state = error.nativeErrorCode();
    const QString text = error.databaseText();
    const auto is = [&](const char* start) { return state.startsWith(QLatin1StringView(start)); };
    Kind kind = Kind::Other;
    if (is("23505"))
        kind = postgresConstraint(text);
    else if (text.contains(QLatin1StringView("ramplight: append only")))
        kind = Kind::AppendOnly;
    else if (text.contains(QLatin1StringView("ramplight: chain broken")))
        kind = Kind::ChainBroken;
    else if (is("55P03") || is("57014") || is("40"))
        kind = Kind::Locked;
    else if (is("25006"))
        kind = Kind::ReadOnly;
    else if (is("42501") || is("3F000"))
        kind = Kind::NotAllowed;
    else if (is("53100"))
        kind = Kind::Full;
    else if (is("58"))
        kind = Kind::InputOutput;
    else if (is("XX001") || is("XX002"))
        kind = Kind::Corrupt;
    else if (is("53300"))
        kind = Kind::Crowded;
    else if (is("28") || is("3D"))
        kind = Kind::CannotOpen;
    else if (is("08") || is("57P"))
        kind = Kind::Lost;
    else if (state.isEmpty())
        kind = connectionFault(text, error.type() == QSqlError::ConnectionError);
    return {kind, text};
}

QStringList PostgresqlDialect::ownCheck(QSqlDatabase& database) const
{
    Q_UNUSED(database)
    return {};
}

QStringList PostgresqlDialect::foreignSchema(QSqlDatabase& database) const
{
    QStringList faults = postgresqlSchemaFaults(database);
    for (const char* index :
         {"ledger_entry", "ledger_position", "command_known", "one_running_segment_per_person",
          "one_car_per_bay", "one_car_per_stock_number"}) {
        QSqlQuery query(database);
        query.prepare(
            QStringLiteral("SELECT 1 FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid"
                           " JOIN pg_namespace n ON n.oid = c.relnamespace"
                           " WHERE n.nspname = current_schema() AND i.indisvalid AND i.indisunique"
                           " AND c.relname = ?"));
        query.addBindValue(QString::fromLatin1(index));
        if (!query.exec() || !query.next())
            faults.append(
                QStringLiteral("the index %1 is not there").arg(QLatin1StringView(index)));
    }
    return faults;
}

} // namespace ramplight
