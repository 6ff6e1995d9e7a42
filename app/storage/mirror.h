// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/entry.h"
#include "storage/store.h"

#include <QSet>

#include <memory>
#include <vector>

namespace ramplight {

/// Whether a copy of the staff is without the seal that came with it. A store that is opened on one
/// would seal whatever stands there. Errors: those of Connection::open().
[[nodiscard]] tl::expected<bool, StoreError> lacksStaffSeal(const StoreSettings& copy);

/// What a kiosk knows of its server: the site's stream, the cars on the wall with their whole
/// streams, and the staff, in a SQLite file that only this account can read. Entries are those of
/// the server, with their hashes. On one thread with the server's ledger. Errors: Unavailable;
/// Damaged, also where the server's streams are not those that were taken over; Conflict and Busy
/// where other cars have to be taken over together with these.
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
    /// Every car of which it has something, and whatever else its entries take for one.
    [[nodiscard]] tl::expected<QStringList, StoreError> cars();

    /// SQLite's own check of the file. Error: Damaged.
    [[nodiscard]] tl::expected<void, StoreError> check();
    /// Whether each stream ends where it was taken over to: a chain does not tell that its end is
    /// missing. Error: Damaged.
    [[nodiscard]] tl::expected<void, StoreError> checkHeads();

    /// As of when it is whole; null: it never was.
    [[nodiscard]] Moment knownAt();
    [[nodiscard]] bool setKnownAt(Moment at);

    /// Entries that are as they were written and that the server does not have, in the order of
    /// their time: a backup was brought back there.
    [[nodiscard]] tl::expected<std::vector<Entry>, StoreError> missingOn(SqlLedger& server);

private:
    Mirror(QString file, std::unique_ptr<Store> store);
    struct Taken
    {
        qint64 last = 0;             ///< number of the stream's last entry here
        bool isDamagedThere = false; ///< what the server has does not hold by itself: nothing taken
    };
    /// Takes a stream's new entries over, inside the caller's transaction.
    [[nodiscard]] tl::expected<Taken, StoreError> takeStream(SqlLedger& server, Writer& writer,
                                                             const QString& stream);
    [[nodiscard]] QString sealOfKnown(qint64 at) const;
    [[nodiscard]] tl::expected<void, SqlFault> findMissing(SqlLedger& server, const QString& stream,
                                                           std::vector<Entry>& missing);

    QString m_file;
    QSet<QString> m_damagedThere; ///< cars, told once
    std::unique_ptr<Store> m_store;
};

} // namespace ramplight
