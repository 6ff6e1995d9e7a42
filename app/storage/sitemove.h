// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"
#include "storage/connection.h"

#include <optional>

// A site that was moved out of a database is left there as it was and marked: whoever opens it is
// told where it is now, and nothing more is written for it, or its history would part in two. Other
// sites in the same database go on. On the connection's thread.
namespace ramplight {

struct SiteMove
{
    Moment at;
    QString to; ///< for a person: the file and its machine
};

/// Where the site is now; nothing: it is here.
[[nodiscard]] tl::expected<std::optional<SiteMove>, SqlFault> movedAway(Connection& connection,
                                                                        const SiteId& site);

/// For who is about to write for it, in the same transaction. Error: Moved, with words for a
/// person.
[[nodiscard]] tl::expected<void, SqlFault> checkIsHere(Connection& connection, const SiteId& site);

/// In the caller's transaction: from here on the site is elsewhere.
[[nodiscard]] tl::expected<void, SqlFault> markMoved(Connection& connection, const SiteId& site,
                                                     const SiteMove& move);

/// In the caller's transaction: it is here again, from the place that is named.
[[nodiscard]] tl::expected<void, SqlFault> unmarkMoved(Connection& connection, const SiteId& site,
                                                       const SiteMove& back);

} // namespace ramplight
