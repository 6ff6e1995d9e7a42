// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/serverrights.h"

#include "log/log.h"
#include "storage/connection.h"

#include <QFile>

namespace ramplight {
namespace {

tl::unexpected<StoreError> unavailable(const QString& words)
{
    return tl::unexpected(StoreError{StoreErrorKind::Unavailable, words});
}

tl::unexpected<StoreError> rightsFailed(const SqlFault& fault)
{
    log::error(QStringLiteral("rights: %1").arg(fault.text));
    return tl::unexpected(storeError(fault));
}

QString quotedName(QString name)
{
    return QStringLiteral("\"%1\"").arg(name.replace(QLatin1String("\""), QLatin1String("\"\"")));
}

/// An account of its own that is not the owner under another name.
tl::expected<void, StoreError> isKiosksOwn(Connection& connection, const QString& kiosk)
{
    auto rows = connection.run("SELECT CAST(pg_has_role(rolname, current_user, 'MEMBER') AS int)"
                               " FROM pg_roles WHERE rolname = ?",
                               {kiosk});
    if (!rows)
        return rightsFailed(rows.error());
    if (!rows->next())
        return unavailable(QStringLiteral("The server has no account %1. Nothing was changed; make "
                                          "it first (createuser --pwprompt %1).")
                               .arg(kiosk));
    if (rows->whole(0) != 0)
        return unavailable(QStringLiteral("The account %1 could do whatever the owner can. Nothing "
                                          "was changed; make one for the kiosks alone.")
                               .arg(kiosk));
    return {};
}

tl::expected<void, StoreError> grant(Connection& connection, const QString& schema,
                                     const QString& kiosk)
{
    QFile file(QStringLiteral(":/ramplight/rights/postgresql.sql"));
    if (!file.open(QIODevice::ReadOnly))
        return unavailable(QStringLiteral("This program was built without db/rights. Nothing was "
                                          "changed; install it again."));
    QString text = QString::fromUtf8(file.readAll());
    text.replace(QLatin1String(":\"schema\""), quotedName(schema));
    text.replace(QLatin1String(":\"kiosk\""), quotedName(kiosk));
    auto transaction = Transaction::write(connection, {});
    if (!transaction)
        return rightsFailed(transaction.error());
    for (const QString& statement : Migration::fromText(0, {}, text).statements)
        if (auto done = connection.plain(statement); !done)
            return rightsFailed(done.error());
    // What came to it by another way, from a group that it belongs to.
    auto rows = connection.run(
        "SELECT CAST(has_table_privilege(CAST(? AS name), c.oid,"
        " 'UPDATE, DELETE, TRUNCATE, TRIGGER') AS int)"
        " FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace"
        " WHERE n.nspname = ? AND c.relname IN ('ledger', 'command', 'site', 'site_move')",
        {kiosk, schema});
    if (!rows)
        return rightsFailed(rows.error());
    while (rows->next())
        if (rows->whole(0) != 0)
            return unavailable(
                QStringLiteral("The account %1 can still change the ledger, by a group that it "
                               "belongs to. Nothing was changed; take it out of that group.")
                    .arg(kiosk));
    if (auto committed = transaction->commit(); !committed)
        return rightsFailed(committed.error());
    return {};
}

} // namespace

tl::expected<MigrationResult, StoreError> prepareServer(const StoreSettings& owner,
                                                        const QString& kiosk)
{
    if (owner.kind != StoreKind::PostgreSql)
        return unavailable(QStringLiteral("Only a server has accounts. Nothing was changed."));
    auto connection = Connection::open(owner);
    if (!connection)
        return tl::unexpected(connection.error());
    if (auto own = isKiosksOwn(**connection, kiosk); !own)
        return tl::unexpected(own.error());
    MigrationResult migrated =
        migrate(**connection, migrationsIn((*connection)->dialect().migrations()));
    if (const auto fault = migrationError(migrated))
        return tl::unexpected(*fault);
    QString schema;
    if (auto rows = (*connection)->run("SELECT current_schema()"); !rows)
        return rightsFailed(rows.error());
    else if (rows->next())
        schema = rows->text(0);
    if (auto granted = grant(**connection, schema, kiosk); !granted)
        return tl::unexpected(granted.error());
    return migrated;
}

QString warningOfRights(Connection& connection)
{
    const char* question = connection.dialect().couldChangeLedger();
    if (question == nullptr)
        return {};
    auto rows = connection.run(question);
    if (!rows || !rows->next() || rows->whole(0) == 0)
        return {};
    return QStringLiteral("The account that this kiosk has at the server could change and remove "
                          "entries of the ledger. Give the kiosks one that cannot: ramplight "
                          "prepare-server.");
}

} // namespace ramplight
