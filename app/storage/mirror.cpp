// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/mirror.h"

#include "storage/entrytable.h"
#include "storage/privatefile.h"
#include "storage/readtables.h"
#include "storage/storecopy.h"

#include <utility>

namespace ramplight {

Mirror::Mirror(QString file, std::unique_ptr<Store> store)
    : m_file(std::move(file))
    , m_store(std::move(store))
{
}

tl::expected<std::unique_ptr<Mirror>, StoreError>
Mirror::open(const QString& file, const HeadKeeper& keeper, const SiteId& site)
{
    if (auto made = makePrivateFile(file); !made)
        return tl::unexpected(std::move(made.error()));
    StoreSettings settings;
    settings.file = file;
    settings.site = site;
    auto store = Store::open(settings, keeper);
    if (!store)
        return tl::unexpected(store.error());
    return std::unique_ptr<Mirror>(new Mirror(file, std::move(*store)));
}

tl::expected<void, SqlFault> Mirror::takeStream(SqlLedger& server, Writer& writer,
                                                const QString& stream)
{
    const SiteId& site = siteId();
    const auto head = headOf(m_store->ledger().connection(), site, stream);
    if (!head)
        return tl::unexpected(head.error());
    const auto entries = entriesAfter(server.connection(), site, stream, head->seq);
    if (!entries)
        return tl::unexpected(entries.error());
    for (const Entry& entry : *entries) {
        writer.run("INSERT INTO command (site, command, at, actor, entries)"
                   " SELECT ?, ?, ?, ?, 0 WHERE NOT EXISTS"
                   " (SELECT 1 FROM command WHERE site = ? AND command = ?)",
                   {site.text, entry.command.text, entry.at.ms, entry.actor.value, site.text,
                    entry.command.text});
        insertEntry(writer, site, entry);
    }
    if (!writer.good())
        return tl::unexpected(writer.fault());
    return {};
}

tl::expected<void, StoreError> Mirror::takeSite(SqlLedger& server)
{
    {
        auto transaction = Transaction::write(m_store->ledger().connection(), siteId());
        if (!transaction)
            return tl::unexpected(storeError(transaction.error()));
        Writer writer(m_store->ledger().connection());
        if (auto taken = takeStream(server, writer, siteStream()); !taken)
            return tl::unexpected(storeError(taken.error()));
        if (auto committed = transaction->commit(); !committed)
            return tl::unexpected(storeError(committed.error()));
    }
    return copyStaff(server, m_store->ledger());
}

tl::expected<void, StoreError> Mirror::takeCars(SqlLedger& server, const QStringList& cars)
{
    SqlLedger& here = m_store->ledger();
    auto reading = Transaction::read(server.connection());
    if (!reading)
        return tl::unexpected(storeError(reading.error()));
    auto writing = Transaction::write(here.connection(), siteId());
    if (!writing)
        return tl::unexpected(storeError(writing.error()));
    Writer writer(here.connection());
    for (const QString& car : cars) {
        if (auto taken = takeStream(server, writer, carStream(CarId{car})); !taken)
            return tl::unexpected(storeError(taken.error()));
        // First all rows go: cars change places, and people the work that they are on.
        clearCar(writer, siteId(), car);
    }
    const auto site = here.siteView();
    if (!site)
        return tl::unexpected(site.error());
    for (const QString& car : cars)
        if (auto made = rebuildCar(here, writer, *site, CarId{car}); !made)
            return made;
    if (!writer.good())
        return tl::unexpected(storeError(writer.fault()));
    if (auto committed = writing->commit(); !committed)
        return tl::unexpected(storeError(committed.error()));
    return {};
}

tl::expected<QStringList, StoreError> Mirror::cars()
{
    auto cars = carsInReadTables(m_store->ledger().connection(), siteId());
    if (!cars)
        return tl::unexpected(storeError(cars.error()));
    return *cars;
}

} // namespace ramplight
