// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"
#include "storage/entry.h"
#include "storage/storesettings.h"

#include <optional>

// Whether the keys of a key file are those of a site: what the site has sealed last says with
// which. On the connection's thread; nothing is changed but by renewKeys().
namespace ramplight {

/// The last entry of the heads; nothing: there is none. One that cannot be read is blank: that is
/// for the check of the ledger to tell.
[[nodiscard]] tl::expected<std::optional<Heads>, SqlFault> lastHeads(Connection& connection,
                                                                     const SiteId& site);

enum class KeyFit {
    Fits,
    Other,   ///< of another site, or they were renewed since
    Nothing, ///< the site has sealed nothing yet
};

[[nodiscard]] tl::expected<KeyFit, SqlFault> keyFit(Connection& connection, const SiteId& site,
                                                    const HeadKeeper& keeper);

/// The same of a database that the settings name, on a connection of its own: nothing is made there
/// and nothing migrated. Nothing also where there is no such site. Errors: those of
/// Connection::open(); Unavailable also where it holds several sites and none is named.
[[nodiscard]] tl::expected<KeyFit, StoreError> keyFit(const StoreSettings& settings,
                                                      const HeadKeeper& keeper);

/// Whether a database has the site that the settings name, or any where they name none. Errors:
/// those of Connection::open().
[[nodiscard]] tl::expected<bool, StoreError> isSiteThere(const StoreSettings& settings);

/// Errors: WrongKeys, with what to do; Unavailable. No error without a key: then nothing is sealed.
[[nodiscard]] tl::expected<void, StoreError> checkKeys(Connection& connection, const SiteId& site,
                                                       const HeadKeeper& keeper);

/// What an append asks the settings before it seals.
struct SealsNow
{
    bool isCurrent = true;  ///< the keeper's key is the site's
    qint64 staffNumber = 0; ///< of the seal over the staff (staffseal.h)
};
[[nodiscard]] tl::expected<SealsNow, SqlFault> sealsNow(Connection& connection, const SiteId& site,
                                                        const HeadKeeper& keeper);

/// Whether nobody has renewed the site's keys since these were read; for who is about to seal.
[[nodiscard]] tl::expected<bool, SqlFault> isCurrent(Connection& connection, const SiteId& site,
                                                     const HeadKeeper& keeper);

/// What was renewed: from here on the site seals with the keeper's key and nobody has a PIN.
/// Errors: Unavailable; nothing was changed then.
[[nodiscard]] tl::expected<void, StoreError> renewKeys(Connection& connection, const SiteId& site,
                                                       const HeadKeeper& keeper);

/// For a person.
[[nodiscard]] StoreError wrongKeys(const HeadKeeper& keeper);

} // namespace ramplight
