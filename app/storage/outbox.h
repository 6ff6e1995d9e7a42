// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/keptrequest.h"
#include "storage/connection.h"
#include "storage/outboxrow.h"

#include <functional>
#include <memory>
#include <vector>

namespace ramplight {

/// What a kiosk keeps while its server is away, in a SQLite file of its own that only this account
/// can read. What a call wrote is on the disk when it returns. Each row carries a seal: one that is
/// not what was written is never sent, and told instead. Belongs to the thread that opened it.
/// Errors of every call: Unavailable, Damaged.
class Outbox
{
public:
    /// Opens or makes it, for the requests of one site; empty: of any. Also TooNew. A file that is
    /// refused is left as it is.
    [[nodiscard]] static tl::expected<std::unique_ptr<Outbox>, StoreError> open(const QString& file,
                                                                                const SiteId& site);

    /// It was not known which one yet.
    void setSite(const SiteId& site) { m_site = site; }

    /// Gives it a number.
    [[nodiscard]] tl::expected<void, StoreError> keep(KeptRequest& request);
    /// Something for a person to read.
    [[nodiscard]] tl::expected<void, StoreError> tell(const KeptTrouble& trouble, Moment at);
    /// In the order in which they were made: what waits, and what somebody has to read and nobody
    /// saw yet. Rows that are not what was written are there whatever they say of themselves.
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> kept();
    /// What somebody took note of, the latest first.
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> seen();
    /// The server has it, or it came to nothing here.
    [[nodiscard]] tl::expected<void, StoreError> remove(qint64 number);
    [[nodiscard]] tl::expected<void, StoreError> refuse(qint64 number, const QString& words,
                                                        Moment at);
    /// Nothing happens to what waits. What was noted stays for a year, and the last 500 at most.
    [[nodiscard]] tl::expected<void, StoreError> note(qint64 number, PersonId seenBy, Moment at);

    /// Takes rows over as they are. How many could not be taken.
    [[nodiscard]] tl::expected<int, StoreError> takeOver(const std::vector<OutboxRow>& rows);

    /// As of when a program that kept it here knew its copy of the site as whole; null: none did.
    [[nodiscard]] Moment formerKnownAt();
    void forgetKnownAt();

private:
    Outbox(std::unique_ptr<Connection> connection, SiteId site);
    [[nodiscard]] tl::expected<void, StoreError> sealRowsFromBefore();
    /// Those that hold and that somebody took note of, the latest first.
    [[nodiscard]] tl::expected<std::vector<OutboxRow>, StoreError> seenRows();
    [[nodiscard]] tl::expected<void, StoreError> removeOldSeen(Moment now);
    [[nodiscard]] tl::expected<void, StoreError> add(OutboxRow& row);
    [[nodiscard]] tl::expected<void, StoreError>
    change(qint64 number, const std::function<bool(OutboxRow& row)>& how);

    std::unique_ptr<Connection> m_connection;
    SiteId m_site;
};

} // namespace ramplight
