// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/store.h"

#include <memory>

namespace ramplight {

/// What a kiosk knows of its server: the site's stream, the cars on the wall with their whole
/// streams, and the staff, in a SQLite file that only this account can read. Entries are those of
/// the server, with their hashes. On one thread with the server's ledger. Errors: Unavailable,
/// Damaged; Conflict and Busy where other cars have to be taken over together with these.
class Mirror
{
public:
    /// site: empty for the one that is in it.
    [[nodiscard]] static tl::expected<std::unique_ptr<Mirror>, StoreError>
    open(const QString& file, const HeadKeeper& keeper, const SiteId& site);

    [[nodiscard]] const SiteId& siteId() const { return m_store->ledger().siteId(); }
    [[nodiscard]] const QString& file() const { return m_file; }
    [[nodiscard]] Store& store() { return *m_store; }

    /// The site's stream and the staff.
    [[nodiscard]] tl::expected<void, StoreError> takeSite(SqlLedger& server);
    /// What is new of these cars, all together or not at all.
    [[nodiscard]] tl::expected<void, StoreError> takeCars(SqlLedger& server,
                                                          const QStringList& cars);
    /// Every car of which it has something.
    [[nodiscard]] tl::expected<QStringList, StoreError> cars();

private:
    Mirror(QString file, std::unique_ptr<Store> store);
    /// Takes a stream's new entries over, inside the caller's transaction.
    [[nodiscard]] tl::expected<void, SqlFault> takeStream(SqlLedger& server, Writer& writer,
                                                          const QString& stream);

    QString m_file;
    std::unique_ptr<Store> m_store;
};

} // namespace ramplight
