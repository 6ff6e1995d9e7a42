// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"

#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

// Brings a database to the schema of this program. Forward only: numbered files, each applied
// together with its version row in one transaction.
namespace ramplight {

struct Migration
{
    int version = 0;
    QString name;
    QStringList statements;

    /// From a file "NNN_name.sql": the statements stand after lines that begin with "-- step".
    [[nodiscard]] static Migration fromText(int version, const QString& name, const QString& text);
};

/// The files of a folder (of the resources), in the order of their numbers.
[[nodiscard]] std::vector<Migration> migrationsIn(const QString& folder);

enum class MigrationOutcome {
    Fresh,    ///< there was nothing; all of it was made
    UpToDate, ///< nothing to do
    Upgraded, ///< some steps were missing and were made
    TooNew,   ///< made by a newer program; it was left alone
    NotNow,   ///< line, disk or another program in the way; the last good state was kept
    NotOurs,  ///< steps are missing, and this account may not make them; it was left alone
    Broken,   ///< a step failed, or the versions make no sense; the last good state was kept
};

struct MigrationResult
{
    MigrationOutcome outcome = MigrationOutcome::Broken;
    int from = 0;
    int to = 0;    ///< what the database has now
    QString words; ///< for a person, when it is none of the first three
};

/// Makes the table of the steps that were made, in which no step stands.
[[nodiscard]] QString versionTableSql();

/// What keeps the database from being used; nothing when it has this program's schema.
[[nodiscard]] std::optional<StoreError> migrationError(const MigrationResult& result);

/// The connection is only used during the call. Two programs may do this at once.
[[nodiscard]] MigrationResult migrate(Connection& connection,
                                      const std::vector<Migration>& migrations);

} // namespace ramplight
