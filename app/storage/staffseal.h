// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"
#include "storage/storesettings.h"

// What is kept outside the ledger so that it can be changed and erased (names, PINs, badges, wrong
// PINs, settings) has no chain. One seal over all of it, made anew with each change in the same
// transaction, tells what was changed behind the program's back. On the connection's thread.
namespace ramplight {

/// The seal of these rows as they are: "key:" and lower-case hex HMAC-SHA-256 with the site's key
/// ("plain:" and SHA-256 without one) over "ramplight-staff-1", the site, and of each table its
/// name, number of rows and their values in order, each length-prefixed as in entry.h.
[[nodiscard]] tl::expected<QString, SqlFault> staffSeal(Connection& connection, const SiteId& site,
                                                        const HeadKeeper& keeper);

/// How often the seal was made; 0: nobody counted yet. It is one of the settings that are sealed,
/// and stands in the sealed heads of each append: where the heads know of more, an earlier state of
/// the rows was put back with the seal of that time.
[[nodiscard]] tl::expected<qint64, SqlFault> staffNumber(Connection& connection,
                                                         const SiteId& site);

/// Whether it was made with a key: without that it can be neither made nor checked.
[[nodiscard]] inline bool needsKey(const QString& seal)
{
    return seal.startsWith(QLatin1StringView("key:"));
}

/// Before something is changed, in the same transaction: whether the rows are as they were sealed
/// last, or were never. Otherwise a seal over them would vouch for what somebody else wrote.
[[nodiscard]] tl::expected<bool, SqlFault>
maySealStaffAgain(Connection& connection, const SiteId& site, const HeadKeeper& keeper);

/// In the transaction that changed something; its number is higher than any that the ledger knows
/// of. wasWhole: what maySealStaffAgain() said before; when
/// not, the seal stays, and tells.
[[nodiscard]] tl::expected<void, SqlFault> sealStaff(Connection& connection, const SiteId& site,
                                                     const HeadKeeper& keeper,
                                                     bool wasWhole = true);

/// Whether the rows are those of some seal, of whatever time; not when there is none, or no key to
/// check it.
[[nodiscard]] tl::expected<bool, SqlFault>
staffFitsItsSeal(Connection& connection, const SiteId& site, const HeadKeeper& keeper);

/// Of a restore, whose ledger came further than its staff: what is there stays on purpose, and is
/// sealed beyond what the ledger knows of. Does nothing where the rows are those of no seal.
[[nodiscard]] tl::expected<void, SqlFault>
sealEarlierStaff(Connection& connection, const SiteId& site, const HeadKeeper& keeper);

/// Whether that is the last one that the ledger knows of, too.
[[nodiscard]] bool staffIsSealed(Connection& connection, const SiteId& site,
                                 const HeadKeeper& keeper);

/// Whether its staff ever was: there is a seal, or the ledger or a setting tells of one.
[[nodiscard]] tl::expected<bool, SqlFault> wasStaffSealed(Connection& connection,
                                                          const SiteId& site);

/// There is none, and the house is one whose staff was sealed: it was taken away or damaged.
[[nodiscard]] tl::expected<bool, SqlFault> lostStaffSeal(Connection& connection,
                                                         const SiteId& site);

/// What is kept as the seal; empty when there is none yet.
[[nodiscard]] tl::expected<QString, SqlFault> keptStaffSeal(Connection& connection,
                                                            const SiteId& site);

} // namespace ramplight
