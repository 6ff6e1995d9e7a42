// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/changefeed.h"
#include "storage/sqlledger.h"
#include "storage/stafftables.h"
#include "storage/verifier.h"
#include "storage/wallquery.h"

#include <memory>

namespace ramplight {

/// Everything that one database holds for a site, over one connection. Belongs to the thread that
/// opened it.
class Store
{
public:
    /// Fills the read tables anew when an older version of the program filled them. Errors: those
    /// of SqlLedger::open().
    [[nodiscard]] static tl::expected<std::unique_ptr<Store>, StoreError>
    open(const StoreSettings& settings, HeadKeeper keeper);

    [[nodiscard]] SqlLedger& ledger() { return *m_ledger; }
    [[nodiscard]] WallQuery& wall() { return m_wall; }
    [[nodiscard]] SqlCredentials& credentials() { return m_credentials; }
    [[nodiscard]] SqlFailureBook& failures() { return m_failures; }
    [[nodiscard]] SqlSettings& settings() { return m_settings; }
    /// Silent until it is started.
    [[nodiscard]] ChangeFeed& feed() { return m_feed; }

    /// It is a kiosk's working copy for the time without its server: nothing but work is written.
    [[nodiscard]] bool isCopy() const { return m_isCopy; }
    /// Whether names, PINs and badges in it are those that the site's key sealed.
    [[nodiscard]] bool staffIsSealed() const { return m_staffIsSealed; }
    void setCopy(bool staffIsSealed)
    {
        m_isCopy = true;
        m_ledger->setCopy();
        m_staffIsSealed = staffIsSealed;
    }

private:
    explicit Store(std::unique_ptr<SqlLedger> ledger);
    void refillOldReadTables();
    [[nodiscard]] tl::expected<void, StoreError> sealOldStaffTables();

    std::unique_ptr<SqlLedger> m_ledger;
    WallQuery m_wall;
    SqlCredentials m_credentials;
    SqlFailureBook m_failures;
    SqlSettings m_settings;
    ChangeFeed m_feed;
    bool m_isCopy = false;
    bool m_staffIsSealed = true;
};

} // namespace ramplight
