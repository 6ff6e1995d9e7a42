// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/migrator.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QScopeGuard>
#include <QSqlQuery>

#include <optional>

namespace ramplight {
namespace {

struct Versions
{
    int count = 0;
    int highest = 0;
};

tl::expected<Versions, SqlFault> versionsOf(Connection& connection)
{
    {
        auto there = connection.run(connection.dialect().versionTable());
        if (!there)
            return tl::unexpected(there.error());
        if (!there->next() || there->whole(0) == 0)
            return Versions{};
    }
    auto rows = connection.run("SELECT count(*), coalesce(max(version), 0) FROM schema_version");
    if (!rows)
        return tl::unexpected(rows.error());
    if (!rows->next())
        return Versions{};
    return Versions{rows->whole(0), rows->whole(1)};
}

tl::expected<void, SqlFault> applyOne(Connection& connection, const Migration& migration)
{
    for (const QString& statement : migration.statements)
        if (auto done = connection.plain(statement); !done)
            return done;
    auto row =
        connection.run("INSERT INTO schema_version (version, name, applied_at)"
                       " VALUES (?, ?, ?)",
                       {migration.version, migration.name, QDateTime::currentMSecsSinceEpoch()});
    if (!row)
        return tl::unexpected(row.error());
    return {};
}

/// What keeps a step from being made. What may be tried again is not wrong in the database.
MigrationOutcome outcomeOf(const SqlFault& fault)
{
    if (fault.kind == SqlFault::Kind::NotAllowed)
        return MigrationOutcome::NotOurs;
    const bool isForNow = fault.kind != SqlFault::Kind::Other &&
                          storeError(fault).kind == StoreErrorKind::Unavailable;
    return isForNow ? MigrationOutcome::NotNow : MigrationOutcome::Broken;
}

/// For a person.
QString wordsOf(const SqlFault& fault)
{
    if (fault.kind == SqlFault::Kind::NotAllowed)
        return QStringLiteral("The server's database has to be prepared for this version of the "
                              "program by the account that owns it. Nothing was changed; run "
                              "\"ramplight prepare-server\" there.");
    return storeError(fault).words;
}

/// One step in its own transaction; a step that another program made meanwhile is left out.
tl::expected<void, SqlFault> step(Connection& connection, const Migration& migration)
{
    if (auto begun = connection.begin(connection.dialect().beginWrite()); !begun)
        return begun;
    const auto inside = [&]() -> tl::expected<void, SqlFault> {
        if (const char* lock = connection.dialect().lockSchema())
            if (auto locked = connection.plain(QString::fromLatin1(lock)); !locked)
                return locked;
        const auto now = versionsOf(connection);
        if (!now)
            return tl::unexpected(now.error());
        if (now->highest >= migration.version)
            return {};
        if (auto made = connection.plain(versionTableSql()); !made)
            return made;
        return applyOne(connection, migration);
    };
    auto done = inside();
    if (done)
        done = connection.commit();
    if (!done)
        connection.rollBack();
    return done;
}

} // namespace

QString versionTableSql()
{
    return QStringLiteral("CREATE TABLE IF NOT EXISTS schema_version (version BIGINT NOT NULL "
                          "PRIMARY KEY, name TEXT NOT NULL, applied_at BIGINT NOT NULL)");
}

Migration Migration::fromText(int version, const QString& name, const QString& text)
{
    Migration migration{version, name, {}};
    std::optional<QString> statement;
    const auto finish = [&] {
        if (statement && !statement->trimmed().isEmpty())
            migration.statements.append(statement->trimmed());
    };
    for (const QString& line : text.split(QLatin1Char('\n'))) {
        if (line.startsWith(QLatin1StringView("-- step"))) {
            finish();
            statement = QString();
        } else if (statement) {
            *statement += line + QLatin1Char('\n');
        }
    }
    finish();
    return migration;
}

std::vector<Migration> migrationsIn(const QString& folder)
{
    std::vector<Migration> migrations;
    const QDir dir(folder);
    for (const QString& name : dir.entryList({QStringLiteral("*.sql")}, QDir::Files, QDir::Name)) {
        QFile file(dir.filePath(name));
        if (!file.open(QIODevice::ReadOnly))
            continue;
        migrations.push_back(Migration::fromText(name.left(3).toInt(), name.mid(4).chopped(4),
                                                 QString::fromUtf8(file.readAll())));
    }
    return migrations;
}

std::optional<StoreError> migrationError(const MigrationResult& result)
{
    switch (result.outcome) {
    case MigrationOutcome::Fresh:
    case MigrationOutcome::UpToDate:
    case MigrationOutcome::Upgraded:
        break;
    case MigrationOutcome::TooNew:
        return StoreError{StoreErrorKind::TooNew, result.words};
    case MigrationOutcome::NotNow:
        return StoreError{StoreErrorKind::Unavailable, result.words};
    case MigrationOutcome::NotOurs:
        return toBeSeenTo(result.words);
    case MigrationOutcome::Broken:
        return StoreError{StoreErrorKind::Damaged, result.words};
    }
    return std::nullopt;
}

MigrationResult migrate(Connection& connection, const std::vector<Migration>& migrations)
{
    MigrationResult result;
    const auto left = [&](MigrationOutcome outcome, const QString& words) {
        result.outcome = outcome;
        result.words = words;
        return result;
    };
    if (migrations.empty())
        return left(MigrationOutcome::Broken,
                    QStringLiteral("This program was built without its database schema. Nothing "
                                   "was changed; install it again."));
    const auto before = versionsOf(connection);
    if (!before)
        return left(outcomeOf(before.error()), wordsOf(before.error()));
    result.from = result.to = before->highest;
    const int newest = migrations.back().version;
    if (before->highest > newest)
        return left(MigrationOutcome::TooNew,
                    QStringLiteral("This database was made by a newer version of the program "
                                   "(schema %1, this program knows %2). It was left as it is; "
                                   "install the newer version.")
                        .arg(before->highest)
                        .arg(newest));
    if (before->count != before->highest)
        return left(MigrationOutcome::Broken,
                    QStringLiteral("The database's list of schema versions has gaps. It was left "
                                   "as it is; bring back a backup."));
    connection.waitAsLongAsItTakes();
    const auto asBefore = qScopeGuard([&] { connection.waitAsTheSettingsSay(); });
    for (const Migration& migration : migrations) {
        if (migration.version <= before->highest)
            continue;
        const auto done = step(connection, migration);
        if (!done) {
            const MigrationOutcome outcome = outcomeOf(done.error());
            if (outcome == MigrationOutcome::NotOurs)
                return left(outcome, wordsOf(done.error()));
            const bool isForNow = outcome == MigrationOutcome::NotNow;
            return left(outcome, QStringLiteral("The database could not be brought to schema %1 "
                                                "(%2). It stays at schema %3, with everything in "
                                                "it. %4")
                                     .arg(migration.version)
                                     .arg(migration.name)
                                     .arg(result.to)
                                     .arg(isForNow ? wordsOf(done.error()) : done.error().text));
        }
        result.to = migration.version;
    }
    if (result.to == result.from)
        result.outcome = MigrationOutcome::UpToDate;
    else
        result.outcome = result.from == 0 ? MigrationOutcome::Fresh : MigrationOutcome::Upgraded;
    return result;
}

} // namespace ramplight
