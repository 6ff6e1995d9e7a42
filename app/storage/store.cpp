// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/store.h"

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
    return std::unique_ptr<Store>(new Store(std::move(*ledger)));
}

} // namespace ramplight
