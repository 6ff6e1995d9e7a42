// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/ports.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <chrono>
#include <functional>

// Where a workshop's ledger is kept. Plain values, any thread.
namespace ramplight {

enum class StoreKind { Sqlite, PostgreSql };

/// A server of the house. Without a password libpq looks into the account's ~/.pgpass.
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
    /// options, and what makes a lost server known within seconds where they do not say it:
    /// connect_timeout (3 s), tcp_user_timeout (3,000 ms) and keepalives.
    [[nodiscard]] QString connectOptions() const;
    friend bool operator==(const PostgresAddress&, const PostgresAddress&) = default;
};

/// How long a kiosk waits for its server's answer: asked once a second, a server that is away is
/// known within five.
inline constexpr std::chrono::milliseconds kioskPatience{3000};

struct StoreSettings
{
    StoreKind kind = StoreKind::Sqlite;
    QString file; ///< SQLite: made when it is missing; its folder must exist
    PostgresAddress server;
    /// How long a server may take to answer one statement before it counts as lost; 0: for ever.
    std::chrono::milliseconds patience{0};
    /// Folder for what a kiosk knows and keeps while the server is away; empty: it does not.
    QString standby;
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
