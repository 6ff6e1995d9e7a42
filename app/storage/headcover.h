// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"
#include "storage/entry.h"

// Who may add to a ledger can write an entry with a true hash; only who has the site's key can seal
// the heads over it. On the connection's thread.
namespace ramplight {

/// Number of the last entry of a stream (0: it is empty) for who is about to write upon it. The
/// command that wrote it has to have written the heads that name it as well, under a seal of the
/// site: its key's, or one from before the keys were renewed; without a key the seal is not looked
/// at. Errors: Damaged, in words for a person, where it has not; those of the database.
[[nodiscard]] tl::expected<qint64, StoreError> tipUnderItsHeads(Connection& connection,
                                                                const SiteId& site,
                                                                const HeadKeeper& keeper,
                                                                const QString& stream);

/// Whether the heads were sealed as the entry of the heads stream that they stand in; also with a
/// key from before the site's keys were renewed.
[[nodiscard]] bool isSealedBy(const HeadKeeper& keeper, const SiteId& site, const Entry& entry,
                              const Heads& heads);

} // namespace ramplight
