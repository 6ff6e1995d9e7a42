// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/keptrequest.h"
#include "storage/connection.h"

#include <tl/expected.hpp>

#include <vector>

// The rows of an outbox as they are written, before anything is made of them. On the connection's
// thread.
namespace ramplight {

struct OutboxRow
{
    qint64 number = 0; ///< 0: the file gives one
    QString site;      ///< empty: it is about the kiosk itself
    QString command;
    qint64 at = 0;
    QString request; ///< or a trouble
    QString works;
    QString refusal;
    qint64 refusedAt = 0;
    qint64 seenBy = 0;
    qint64 seenAt = 0;
    QString seal;

    /// It is what was written.
    [[nodiscard]] bool holds() const;
};

/// Lower-case hex SHA-256 over "ramplight-kept-1" and the fields in their order but the seal, each
/// length-prefixed as in entry.h. Without the site's key: that lies in the same folder for the same
/// account, so that who can write the one can read the other; and what waits stays good when the
/// keys are renewed.
[[nodiscard]] QString sealOf(const OutboxRow& row);

/// What it says to a person, and to the server where it holds.
[[nodiscard]] KeptRequest keptRequestOf(const OutboxRow& row);

/// In the order of their numbers. A fault also where they end before their end.
[[nodiscard]] tl::expected<std::vector<OutboxRow>, SqlFault> outboxRows(Connection& connection);
/// The first column is the number, the others follow as above.
[[nodiscard]] OutboxRow outboxRowOf(const Rows& rows);
/// Nothing of it is looked at; a row without a number gets one, and its seal.
[[nodiscard]] tl::expected<void, SqlFault> insertOutboxRow(Connection& connection, OutboxRow& row);
/// What changes in a row's life, sealed anew.
[[nodiscard]] tl::expected<void, SqlFault> updateOutboxRow(Connection& connection,
                                                           const OutboxRow& row);

} // namespace ramplight
