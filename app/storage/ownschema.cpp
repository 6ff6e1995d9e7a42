// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/ownschema.h"

#include "storage/migrator.h"

#include <QRegularExpression>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QUuid>
#include <QVariant>

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace ramplight {
namespace {

/// Of each statement's answer; the database's words where it has none.
std::optional<QString> eachRow(QSqlDatabase& database, const char* sql,
                               const std::function<void(const QSqlQuery&)>& take)
{
    QSqlQuery query(database);
    if (!query.exec(QString::fromLatin1(sql)))
        return query.lastError().databaseText();
    while (query.next())
        take(query);
    return std::nullopt;
}

struct SchemaRow
{
    QString table;
    QString sql;
    friend bool operator==(const SchemaRow&, const SchemaRow&) = default;
};

/// By what it is and its name: "trigger ledger_follows".
using SchemaRows = std::map<QString, SchemaRow>;

tl::expected<SchemaRows, QString> schemaOf(QSqlDatabase& database)
{
    SchemaRows rows;
    // What somebody's ANALYZE counted tells the query planner of rows and changes none.
    const auto fault =
        eachRow(database,
                "SELECT type, name, tbl_name, sql FROM sqlite_master"
                " WHERE name NOT LIKE 'sqlite!_stat%' ESCAPE '!'",
                [&rows](const QSqlQuery& row) {
                    rows[row.value(0).toString() + QLatin1Char(' ') + row.value(1).toString()] = {
                        row.value(2).toString(), row.value(3).toString().simplified()};
                });
    if (fault)
        return tl::unexpected(*fault);
    return rows;
}

/// What the migrations make; empty where they could not.
SchemaRows schemaOfMigrations()
{
    const QString name = QStringLiteral("schema-") + QUuid::createUuid().toString(QUuid::Id128);
    SchemaRows made;
    {
        QSqlDatabase memory = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        memory.setDatabaseName(QStringLiteral(":memory:"));
        QStringList statements{versionTableSql()};
        for (const Migration& migration :
             migrationsIn(QStringLiteral(":/ramplight/migrations/sqlite")))
            statements += migration.statements;
        bool isMade = memory.open();
        for (const QString& statement : statements)
            isMade = isMade && QSqlQuery(memory).exec(statement);
        if (isMade)
            made = schemaOf(memory).value_or(SchemaRows{});
    }
    QSqlDatabase::removeDatabase(name);
    return made;
}

/// What the migrations say of the server's guards.
struct Guards
{
    QStringList tables;
    std::map<QString, std::map<QString, QString>> triggers; ///< by table and name
    std::map<QString, QString> functions;                   ///< their bodies
};

Guards guardsOfMigrations()
{
    static const QRegularExpression table(QStringLiteral("^CREATE TABLE (\\w+) "),
                                          QRegularExpression::MultilineOption);
    static const QRegularExpression trigger(
        QStringLiteral("^CREATE TRIGGER (\\w+) .* ON (\\w+)\\s"),
        QRegularExpression::MultilineOption);
    static const QRegularExpression function(
        QStringLiteral("^CREATE (?:OR REPLACE )?FUNCTION (\\w+)\\(\\).*\\$\\$(.*)\\$\\$"),
        QRegularExpression::MultilineOption | QRegularExpression::DotMatchesEverythingOption);
    Guards guards;
    guards.tables.append(QStringLiteral("schema_version"));
    for (const Migration& migration :
         migrationsIn(QStringLiteral(":/ramplight/migrations/postgresql")))
        for (const QString& statement : migration.statements) {
            if (const auto found = table.match(statement); found.hasMatch())
                guards.tables.append(found.captured(1));
            if (const auto found = trigger.match(statement); found.hasMatch())
                guards.triggers[found.captured(2)][found.captured(1)] =
                    statement.mid(found.capturedStart()).simplified().chopped(1);
            if (const auto found = function.match(statement); found.hasMatch())
                guards.functions[found.captured(1)] = found.captured(2);
        }
    return guards;
}

class ServerSchema
{
public:
    explicit ServerSchema(QSqlDatabase& database)
        : m_database(database)
        , m_guards(guardsOfMigrations())
    {
    }

    QStringList faults()
    {
        readTables();
        for (const QString& table : m_guards.tables)
            if (!m_roots.contains(table))
                m_faults.append(QStringLiteral("the table %1 is not there").arg(table));
        readTriggers();
        for (const auto& [table, root] : m_roots)
            for (const auto& [name, made] : triggersOf(root))
                if (!m_found.contains({table, name}))
                    m_faults.append(
                        QStringLiteral("the trigger %1 of %2 is not there").arg(name, table));
        readRules();
        return std::move(m_faults);
    }

private:
    void ask(const char* sql, const std::function<void(const QSqlQuery&)>& take)
    {
        if (const auto fault = eachRow(m_database, sql, take))
            m_faults.append(*fault);
    }

    [[nodiscard]] const std::map<QString, QString>& triggersOf(const QString& table) const
    {
        static const std::map<QString, QString> none;
        const auto found = m_guards.triggers.find(table);
        return found == m_guards.triggers.end() ? none : found->second;
    }

    /// The program's own, and their shards.
    void readTables()
    {
        ask("SELECT c.relname, coalesce(root.relname, c.relname), CAST(c.relkind AS TEXT),"
            " CAST(c.relrowsecurity AS int)"
            " FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace"
            " LEFT JOIN pg_class root ON root.oid = pg_partition_root(c.oid)"
            " WHERE n.nspname = current_schema() AND c.relkind IN ('r', 'p', 'v', 'm', 'f')",
            [this](const QSqlQuery& row) {
                const QString table = row.value(0).toString();
                const QString root = row.value(1).toString();
                const QString kind = row.value(2).toString();
                if (!m_guards.tables.contains(root))
                    return;
                if (kind == QLatin1StringView("r") || kind == QLatin1StringView("p"))
                    m_roots[table] = root;
                if (row.value(3).toInt() != 0)
                    m_faults.append(
                        QStringLiteral("a policy says which rows of %1 are shown").arg(table));
            });
    }

    void readTriggers()
    {
        ask("SELECT c.relname, t.tgname, CAST(t.tgenabled IN ('O', 'A') AS int),"
            " CAST(t.tgisinternal AND t.tgconstraint <> 0 AS int), pg_get_triggerdef(t.oid, true),"
            " p.proname, p.prosrc, l.lanname"
            " FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid"
            " JOIN pg_namespace n ON n.oid = c.relnamespace"
            " JOIN pg_proc p ON p.oid = t.tgfoid JOIN pg_language l ON l.oid = p.prolang"
            " WHERE n.nspname = current_schema() ORDER BY c.relname, t.tgname",
            [this](const QSqlQuery& row) {
                if (const auto table = m_roots.find(row.value(0).toString());
                    table != m_roots.end())
                    checkTrigger(table->first, table->second, row);
            });
    }

    void checkTrigger(const QString& table, const QString& root, const QSqlQuery& row)
    {
        const QString name = row.value(1).toString();
        const auto wrong = [&](const char* words) {
            m_faults.append(QStringLiteral("the trigger %1 of %2 %3")
                                .arg(name, table, QString::fromUtf8(words)));
        };
        const bool isOn = row.value(2).toInt() != 0;
        // The server's own, behind a reference from table to table.
        if (row.value(3).toInt() != 0) {
            if (!isOn)
                wrong("is switched off");
            return;
        }
        const auto& ours = triggersOf(root);
        const auto made = ours.find(name);
        if (made == ours.end()) {
            wrong("is none of the program's");
            return;
        }
        m_found.insert({table, name});
        QString expected = made->second;
        expected.replace(QStringLiteral(" ON %1 ").arg(root), QStringLiteral(" ON %1 ").arg(table));
        const auto body = m_guards.functions.find(row.value(5).toString());
        if (!isOn)
            wrong("is switched off");
        else if (row.value(4).toString() != expected)
            wrong("is not as the program makes it");
        else if (body == m_guards.functions.end() || row.value(6).toString() != body->second ||
                 row.value(7).toString() != QLatin1StringView("plpgsql"))
            wrong("has another function than the program gives it");
    }

    void readRules()
    {
        ask("SELECT c.relname, r.rulename FROM pg_rewrite r JOIN pg_class c ON c.oid = r.ev_class"
            " JOIN pg_namespace n ON n.oid = c.relnamespace"
            " WHERE n.nspname = current_schema() AND c.relkind IN ('r', 'p')"
            " ORDER BY c.relname, r.rulename",
            [this](const QSqlQuery& row) {
                if (const QString table = row.value(0).toString(); m_roots.contains(table))
                    m_faults.append(QStringLiteral("the rule %1 of %2 is none of the program's")
                                        .arg(row.value(1).toString(), table));
            });
    }

    QSqlDatabase& m_database;
    const Guards m_guards;
    std::map<QString, QString> m_roots; ///< each table, and which it is a shard of (or itself)
    std::set<std::pair<QString, QString>> m_found; ///< triggers, by table and name
    QStringList m_faults;
};

} // namespace

QStringList sqliteSchemaFaults(QSqlDatabase& database)
{
    static const SchemaRows ours = schemaOfMigrations();
    const auto is = schemaOf(database);
    if (!is)
        return {is.error()};
    QStringList faults;
    for (const auto& [name, row] : ours)
        if (const auto found = is->find(name); found == is->end())
            faults.append(QStringLiteral("the %1 is not there").arg(name));
        else if (found->second != row)
            faults.append(QStringLiteral("the %1 is not as the program makes it").arg(name));
    for (const auto& [name, row] : *is)
        if (!ours.contains(name))
            faults.append(
                QStringLiteral("the %1 of %2 is none of the program's").arg(name, row.table));
    return faults;
}

QStringList postgresqlSchemaFaults(QSqlDatabase& database)
{
    return ServerSchema(database).faults();
}

} // namespace ramplight
