// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchhouse.h"

#include "storage/storecopy.h"

// The house that moves to a server.
namespace ramplight::test {

void BenchHouse::moveToServer(const StoreSettings& server, const StoreSettings& kiosk)
{
    m_backups.reset();
    m_desk.reset();
    m_store.reset();
    {
        auto from = SqlLedger::open(ownFile(), keeper());
        StoreSettings target = server;
        target.site = (*from)->siteId();
        auto to = SqlLedger::open(target, keeper());
        if (!to || !copySite(**from, **to))
            qFatal("the house cannot move to the server");
    }
    m_server = kiosk;
    openStore();
}

} // namespace ramplight::test
