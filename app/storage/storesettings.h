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
#include <vector>

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
    /// Of mode 0600, its first line; read anew for each connection, so that it may change. Empty:
    /// password holds.
    QString passwordFile = {};

    /// From a libpq keyword string: host=... port=... dbname=... user=... Values may be quoted.
    /// Error: what could not be read, in words.
    [[nodiscard]] static tl::expected<PostgresAddress, QString> parse(const QString& text);
    /// options, and what makes a lost server known within seconds where they do not say it:
    /// connect_timeout (3 s), tcp_user_timeout (3,000 ms) and keepalives. To another machine the
    /// line is encrypted, or there is none (sslmode=require), where nothing else is said.
    [[nodiscard]] QString connectOptions() const;
    /// The server is, or may be, another machine: not the loopback, and no socket's folder.
    [[nodiscard]] bool isElsewhere() const;
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
    /// Folder for photos that wait for the server; empty: it does not keep the house's photos.
    QString keptPhotos;
    /// Empty: the only site that the database knows; a new one when it knows none.
    SiteId site;
    /// A site that is not there is told, not made; also where none is named and none is there.
    bool siteMustBeThere = false;
    /// The same of a site that is not from the settings: this kiosk worked for it before.
    bool siteIsRemembered = false;
    /// Also a site that was moved out of the database: to move it back. Nothing is appended to it.
    bool mayBeMoved = false;
    /// Words: why nothing may be opened at all; empty: it may.
    QString hindrance;
};

/// Seals the heads of the streams with the site's key (access supplies it). Without a digest heads
/// are kept unsealed, and verify says so.
struct HeadKeeper
{
    using Digest = std::function<QByteArray(const QByteArray&)>;
    /// A key of the time before the site's keys were renewed: it opens what it sealed.
    struct Past
    {
        QString keyId;
        Digest digest;
    };

    QString keyId;               ///< kept beside each seal
    Digest digest;               ///< HMAC-SHA-256, 32 bytes
    std::vector<Past> past = {}; ///< in the order of their time
    QString keyFile = {};        ///< where the keys lie, for who has to do something about them

    [[nodiscard]] bool canSeal() const { return static_cast<bool>(digest); }
    /// Its place in time: past ones count from 0, this one follows; -1: unknown here.
    [[nodiscard]] int ageOf(const QString& id) const;
    /// As it was while the key of that id sealed; without any when it is unknown here.
    [[nodiscard]] HeadKeeper with(const QString& id) const;
};

} // namespace ramplight
