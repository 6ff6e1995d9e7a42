// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/forwardingledger.h"
#include "storage/photooutbox.h"
#include "storage/sqlledger.h"

namespace ramplight {

/// The ledger of a server that keeps the photos, too: no entry names a photo whose bytes the server
/// has not. What waits here is brought first, on the ledger's own connection, so that both are lost
/// together or neither. On the ledger's thread; both outlive it.
class PhotosFirstLedger : public ForwardingLedger
{
public:
    PhotosFirstLedger(SqlLedger& server, PhotoOutbox& photos)
        : ForwardingLedger(server)
        , m_server(server)
        , m_photos(photos)
    {
    }

    /// Also PhotoGone.
    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override;

private:
    SqlLedger& m_server;
    PhotoOutbox& m_photos;
};

} // namespace ramplight
