// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storagebench.h"

#include "storage/entrytable.h"

namespace ramplight::test {

/// Somebody who has the database and knows how an entry is made: its hash is true, it follows the
/// one before, and no guard has anything against it.
class Stranger
{
public:
    explicit Stranger(const StoreSettings& settings);

    /// One command with one entry.
    void write(const QString& stream, const CommandId& command, const EncodedEvent& event);
    /// The same, and heads over it: sealed, where the keeper can.
    void writeWithHeads(const QString& stream, const CommandId& command, const EncodedEvent& event,
                        const HeadKeeper& keeper);

private:
    void begin(const CommandId& command, int entries);
    Head add(const QString& stream, const CommandId& command, const EncodedEvent& event);

    std::unique_ptr<Connection> m_connection;
    SiteId m_site;
    Moment m_at{1'940'000'000'000};
    PersonId m_by{1}; ///< in the name of the manager
};

} // namespace ramplight::test
