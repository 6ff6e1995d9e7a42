// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QStringList>

class QSqlDatabase;

// A guard that is there by its name alone guards nothing, and one more can undo what was kept: so
// the schema as it is, against the one that this program's own migrations make. On the thread that
// owns the connection.
namespace ramplight {

/// Of a file: every table, index, trigger and view, by the words that made it, against a store
/// that is made in memory. Names what is extra, missing or other; empty: it is the program's.
[[nodiscard]] QStringList sqliteSchemaFaults(QSqlDatabase& database);

/// Of a server's schema: that the program's tables are tables, and of them and their shards which
/// triggers they have, switched on, each as the migrations word it and with the function that they
/// word; no rule and no policy. Other programs' tables beside them are their own business.
[[nodiscard]] QStringList postgresqlSchemaFaults(QSqlDatabase& database);

} // namespace ramplight
