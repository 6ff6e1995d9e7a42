// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/keptrequest.h"
#include "storage/connection.h"

#include <memory>
#include <vector>

namespace ramplight {

/// What a kiosk keeps while its server is away, in a SQLite file of its own that only this account
/// can read. What a call wrote is on the disk when it returns. Belongs to the thread that opened
/// it. Errors of every call: Unavailable.
class Outbox
{
public:
    /// Opens or makes it, for the requests of one site. Also Damaged, TooNew.
    [[nodiscard]] static tl::expected<std::unique_ptr<Outbox>, StoreError> open(const QString& file,
                                                                                const SiteId& site);

    /// Gives it a number.
    [[nodiscard]] tl::expected<void, StoreError> keep(KeptRequest& request);
    /// In the order in which they were made: what waits, and what was refused and nobody saw yet.
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> kept();
    /// What was refused and somebody took note of, the latest first.
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> seen(int limit = 50);
    /// The server has it, or it came to nothing here.
    [[nodiscard]] tl::expected<void, StoreError> remove(qint64 number);
    [[nodiscard]] tl::expected<void, StoreError> refuse(qint64 number, const QString& words,
                                                        Moment at);
    [[nodiscard]] tl::expected<void, StoreError> note(qint64 number, PersonId seenBy, Moment at);

    /// As of when the copy of the site beside it is whole; null: it never was.
    [[nodiscard]] tl::expected<Moment, StoreError> knownAt();
    [[nodiscard]] tl::expected<void, StoreError> setKnownAt(Moment at);

private:
    Outbox(std::unique_ptr<Connection> connection, SiteId site);
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError>
    read(const char* sql, const QVariantList& values);
    [[nodiscard]] tl::expected<void, StoreError> write(const char* sql, const QVariantList& values);

    std::unique_ptr<Connection> m_connection;
    SiteId m_site;
};

} // namespace ramplight
