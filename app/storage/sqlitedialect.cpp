// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/sqlitedialect.h"

#include "storage/ownschema.h"

#include <QFileInfo>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QVariant>

#include <array>
#include <utility>

namespace ramplight {
namespace {

// "RAMP" in ASCII; the first migration writes it.
constexpr int applicationId = 0x52414d50;

// Primary result codes of SQLite (sqlite.org/rescode.html); the low byte of the extended ones.
enum SqliteCode {
    Error = 1,
    Permission = 3,
    Busy = 5,
    Locked = 6,
    ReadOnly = 8,
    InputOutput = 10,
    Corrupt = 11,
    Full = 13,
    CannotOpen = 14,
    Constraint = 19,
    NotADatabase = 26,
};

SqlFault::Kind sqliteConstraint(const QString& text)
{
    using Kind = SqlFault::Kind;
    static constexpr std::array table{
        std::pair{"ramplight: entry taken", Kind::EntryTaken},
        std::pair{"ramplight: chain broken", Kind::ChainBroken},
        std::pair{"ramplight: append only", Kind::AppendOnly},
        std::pair{"ramplight: command known", Kind::CommandKnown},
        std::pair{"ledger.site, ledger.stream, ledger.seq", Kind::EntryTaken},
        std::pair{"command.site, command.command", Kind::CommandKnown},
        std::pair{"work_segment.site, work_segment.person", Kind::PersonBusy},
        std::pair{"car.site, car.bay", Kind::BayTaken},
        std::pair{"car.site, car.stock_number", Kind::StockTaken},
    };
    for (const auto& [part, kind] : table)
        if (text.contains(QLatin1StringView(part)))
            return kind;
    return Kind::Other;
}

QVariant answer(QSqlDatabase& database, const QString& sql)
{
    QSqlQuery query(database);
    if (!query.exec(sql) || !query.next())
        return {};
    return query.value(0);
}

struct Pragma
{
    const char* name;
    const char* set;
    const char* expected;
};

} // namespace

QString SqliteDialect::driver() const
{
    return QStringLiteral("QSQLITE");
}

QString SqliteDialect::migrations() const
{
    return QStringLiteral(":/ramplight/migrations/sqlite");
}

void SqliteDialect::address(QSqlDatabase& database, const StoreSettings& settings) const
{
    database.setDatabaseName(settings.file);
    database.setConnectOptions(QStringLiteral("QSQLITE_BUSY_TIMEOUT=5000"));
}

tl::expected<void, StoreError> SqliteDialect::inspect(QSqlDatabase& database) const
{
    const QString path = database.databaseName();
    const auto refuse = [&](StoreErrorKind kind, const QString& words) {
        return tl::unexpected(StoreError{kind, words.arg(path)});
    };
    QSqlQuery query(database);
    if (!query.exec(QStringLiteral("SELECT count(*) FROM sqlite_master")) || !query.next()) {
        const SqlFault fault = classify(query.lastError());
        StoreError error = storeError(fault);
        error.words = QStringLiteral("%1: %2").arg(path, error.words);
        return tl::unexpected(error);
    }
    const bool hasTables = query.value(0).toInt() > 0;
    query.finish();
    const int id = answer(database, QStringLiteral("PRAGMA application_id")).toInt();
    if (hasTables && id != applicationId)
        return refuse(StoreErrorKind::Damaged,
                      QStringLiteral("%1 is a database of another program. It was left as it is; "
                                     "choose another file."));
    return {};
}

tl::expected<void, StoreError> SqliteDialect::configure(QSqlDatabase& database,
                                                        const StoreSettings& settings) const
{
    static constexpr std::array pragmas{
        Pragma{"journal_mode", "WAL", "wal"},
        Pragma{"synchronous", "FULL", "2"},
        Pragma{"foreign_keys", "ON", "1"},
        Pragma{"trusted_schema", "OFF", "0"},
        Pragma{"recursive_triggers", "ON", "1"},
        Pragma{"cell_size_check", "ON", "1"},
        Pragma{"busy_timeout", "5000", "5000"},
        // 16 MiB: the wall and the cars in prep many times over. With the default of 2 a walk
        // through a car's stream reads its pages anew; with 64 a kiosk grew for a day before it was
        // warm.
        Pragma{"cache_size", "-16384", "-16384"},
    };
    for (const Pragma& pragma : pragmas) {
        const QString name = QString::fromLatin1(pragma.name);
        QSqlQuery query(database);
        if (!query.exec(QStringLiteral("PRAGMA %1=%2").arg(name, QLatin1StringView(pragma.set)))) {
            StoreError error = storeError(classify(query.lastError()));
            error.words = QStringLiteral("%1: %2").arg(settings.file, error.words);
            return tl::unexpected(error);
        }
        query.finish();
        const QString is = answer(database, QStringLiteral("PRAGMA %1").arg(name)).toString();
        if (is != QLatin1StringView(pragma.expected))
            return tl::unexpected(
                StoreError{StoreErrorKind::Unavailable,
                           QStringLiteral("%1: the setting %2 could not be made (it is \"%3\"). "
                                          "Nothing was changed; put the file on a local disk.")
                               .arg(settings.file, name, is)});
    }
    return {};
}

const char* SqliteDialect::beginRead() const
{
    return "BEGIN";
}

const char* SqliteDialect::beginWrite() const
{
    return "BEGIN IMMEDIATE";
}

const char* SqliteDialect::couldChangeLedger() const
{
    return nullptr;
}

const char* SqliteDialect::lockSite() const
{
    return nullptr;
}

const char* SqliteDialect::versionTable() const
{
    return "SELECT count(*) FROM sqlite_master WHERE name = 'schema_version'";
}

const char* SqliteDialect::lockSchema() const
{
    return nullptr;
}

const char* SqliteDialect::notify() const
{
    return nullptr;
}

const char* SqliteDialect::changeCounter() const
{
    return "PRAGMA data_version";
}

bool SqliteDialect::readsForwardOnly() const
{
    return true;
}

bool SqliteDialect::preparesTransactions() const
{
    return true;
}

int SqliteDialect::socketOf(const QSqlDatabase& database) const
{
    Q_UNUSED(database)
    return -1;
}

SqlFault SqliteDialect::classify(const QSqlError& error) const
{
    using Kind = SqlFault::Kind;
    const QString text = error.databaseText();
    const int code = error.nativeErrorCode().toInt() & 0xff;
    Kind kind = Kind::Other;
    switch (code) {
    case SqliteCode::Constraint:
        kind = sqliteConstraint(text);
        break;
    case SqliteCode::Busy:
    case SqliteCode::Locked:
        kind = Kind::Locked;
        break;
    case SqliteCode::ReadOnly:
    case SqliteCode::Permission:
        kind = Kind::ReadOnly;
        break;
    case SqliteCode::Full:
        kind = Kind::Full;
        break;
    case SqliteCode::InputOutput:
        kind = Kind::InputOutput;
        break;
    case SqliteCode::Corrupt:
        kind = Kind::Corrupt;
        break;
    case SqliteCode::NotADatabase:
        kind = Kind::NotADatabase;
        break;
    case SqliteCode::CannotOpen:
        kind = Kind::CannotOpen;
        break;
    default:
        break;
    }
    return {kind, text};
}

QStringList SqliteDialect::ownCheck(QSqlDatabase& database) const
{
    QStringList faults;
    const auto collect = [&](const char* sql, auto&& words) {
        QSqlQuery query(database);
        if (!query.exec(QString::fromLatin1(sql))) {
            faults.append(query.lastError().databaseText());
            return;
        }
        while (query.next())
            if (const QString fault = words(query); !fault.isEmpty())
                faults.append(fault);
    };
    collect("PRAGMA integrity_check", [](const QSqlQuery& row) {
        const QString text = row.value(0).toString();
        return text == QLatin1StringView("ok") ? QString() : text;
    });
    collect("PRAGMA foreign_key_check", [](const QSqlQuery& row) {
        return QStringLiteral("a row of %1 refers to a row of %2 that is not there")
            .arg(row.value(0).toString(), row.value(2).toString());
    });
    return faults;
}

QStringList SqliteDialect::foreignSchema(QSqlDatabase& database) const
{
    return sqliteSchemaFaults(database);
}

} // namespace ramplight
