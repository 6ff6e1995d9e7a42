// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/store.h"

#include "log/log.h"
#include "storage/readrows.h"
#include "storage/sitekeycheck.h"
#include "storage/staffseal.h"

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
    // Before anything is sealed: two kiosks at their first start may have made a key file each.
    if (auto fits = checkKeys((*ledger)->connection(), (*ledger)->siteId(), (*ledger)->keeper());
        !fits)
        return tl::unexpected(fits.error());
    std::unique_ptr<Store> store(new Store(std::move(*ledger)));
    if (auto sealed = store->sealOldStaffTables(); !sealed)
        return tl::unexpected(sealed.error());
    store->refillOldReadTables();
    return store;
}

tl::expected<void, StoreError> Store::sealOldStaffTables()
{
    Connection& connection = m_ledger->connection();
    const SiteId& site = m_ledger->siteId();
    const auto kept = keptStaffSeal(connection, site);
    if (!kept || !kept->isEmpty())
        return {};
    // It had one: whatever stands there now is not to be vouched for.
    if (lostStaffSeal(connection, site).value_or(true)) {
        log::error(QStringLiteral("staff tables: their seal is not there any more"));
        return {};
    }
    auto transaction = Transaction::write(connection, site);
    if (!transaction) {
        log::error(QStringLiteral("staff tables: they could not be sealed"));
        return {};
    }
    // Now that nobody else can: another kiosk may have been quicker, with keys of its own.
    if (const auto now = keptStaffSeal(connection, site); now && !now->isEmpty())
        return checkKeys(connection, site, m_ledger->keeper());
    if (!sealStaff(connection, site, m_ledger->keeper()) || !transaction->commit())
        log::error(QStringLiteral("staff tables: they could not be sealed"));
    return {};
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
        log::error(QStringLiteral("read tables: %1").arg(cars.error().words));
    else if (const auto noted = m_settings.set(setting, QString::number(readRowsVersion)); !noted)
        log::error(QStringLiteral("read tables: %1").arg(noted.error().words));
}

} // namespace ramplight
