// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/ports.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <functional>

// Where a workshop's ledger is kept. Plain values, any thread.
namespace ramplight {

enum class StoreKind { Sqlite, PostgreSql };

/// A server of the house. Passwords are better kept in the account's ~/.pgpass.
struct PostgresAddress
{
    QString host;
    int port = 5432;
    QString database;
    QString user;
    QString password;
    QString options; ///< further libpq keywords, "sslmode=verify-full;connect_timeout=5"
    QString schema;  ///< empty: the server's default

    /// From a libpq keyword string: host=... port=... dbname=... user=... Values may be quoted.
    /// Error: what could not be read, in words.
    [[nodiscard]] static tl::expected<PostgresAddress, QString> parse(const QString& text);
    friend bool operator==(const PostgresAddress&, const PostgresAddress&) = default;
};

struct StoreSettings
{
    StoreKind kind = StoreKind::Sqlite;
    QString file; ///< SQLite: made when it is missing; its folder must exist
    PostgresAddress server;
    /// Empty: the only site that the database knows; a new one when it knows none.
    SiteId site;
};

/// Seals the heads of the streams with the site's key (access supplies it). Without a digest heads
/// are kept unsealed, and verify says so.
struct HeadKeeper
{
    QString keyId;                                       ///< kept beside each seal
    std::function<QByteArray(const QByteArray&)> digest; ///< HMAC-SHA-256, 32 bytes

    [[nodiscard]] bool canSeal() const { return static_cast<bool>(digest); }
};

} // namespace ramplight
