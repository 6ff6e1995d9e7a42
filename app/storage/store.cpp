// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/store.h"

#include "storage/readrows.h"
#include "storage/staffseal.h"

#include <spdlog/spdlog.h>

#include <utility>

namespace ramplight {

Store::Store(std::unique_ptr<SqlLedger> ledger)
    : m_ledger(std::move(ledger))
    , m_wall(*m_ledger)
    , m_credentials(*m_ledger)
    , m_failures(*m_ledger)
    , m_settings(*m_ledger)
    , m_feed(*m_ledger)
{
}

tl::expected<std::unique_ptr<Store>, StoreError> Store::open(const StoreSettings& settings,
                                                             HeadKeeper keeper)
{
    auto ledger = SqlLedger::open(settings, std::move(keeper));
    if (!ledger)
        return tl::unexpected(ledger.error());
    std::unique_ptr<Store> store(new Store(std::move(*ledger)));
    store->refillOldReadTables();
    store->sealOldStaffTables();
    return store;
}

void Store::sealOldStaffTables()
{
    Connection& connection = m_ledger->connection();
    const SiteId& site = m_ledger->siteId();
    const auto kept = keptStaffSeal(connection, site);
    if (!kept || !kept->isEmpty())
        return;
    auto transaction = Transaction::write(connection, site);
    if (!transaction || !sealStaff(connection, site, m_ledger->keeper()) || !transaction->commit())
        spdlog::error("staff tables: they could not be sealed");
}

void Store::refillOldReadTables()
{
    static const QString setting = QStringLiteral("read-tables-version");
    const auto filledBy = m_settings.value(setting);
    // What a newer program filled is left to it: the two may share a database for a while.
    if (!filledBy || filledBy->value_or(QString()).toInt() >= readRowsVersion)
        return;
    // A ledger that cannot be replayed is opened all the same: the check of the ledger says more.
    if (const auto cars = rebuildReadTables(*m_ledger); !cars)
        spdlog::error("read tables: {}", cars.error().words.toStdString());
    else if (const auto noted = m_settings.set(setting, QString::number(readRowsVersion)); !noted)
        spdlog::error("read tables: {}", noted.error().words.toStdString());
}

} // namespace ramplight
