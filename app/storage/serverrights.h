// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"
#include "storage/migrator.h"
#include "storage/storesettings.h"

#include <QString>

#include <tl/expected.hpp>

// Two accounts on a server: one owns the database and migrates it, the other is the kiosks' and can
// add to the ledger but neither change nor remove an entry.
namespace ramplight {

/// As the owner: brings the database to this program's schema and gives the kiosks' account its
/// rights (db/rights/postgresql.sql). May be repeated, and must be after each new version. Errors:
/// Unavailable (also: no such account, or one that could do whatever the owner can), Damaged,
/// TooNew. Blocks.
[[nodiscard]] tl::expected<MigrationResult, StoreError> prepareServer(const StoreSettings& owner,
                                                                      const QString& kiosk);

/// Whether the connection's own account could change or remove what is in the ledger, as the
/// owner's can; never of a file. In words for whoever looks after the server; empty: it could not,
/// or nobody can say.
[[nodiscard]] QString warningOfRights(Connection& connection);

} // namespace ramplight
