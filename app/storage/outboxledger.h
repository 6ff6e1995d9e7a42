// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/forwardingledger.h"
#include "domain/startedtimers.h"
#include "storage/outbox.h"

namespace ramplight {

/// The ledger behind the workshop's door while the server is away: what is decided on the last
/// known state goes into the outbox first and then into the working copy, so that the next command
/// is decided on it. What may not wait is refused. On the copy's thread; all four outlive it.
class OutboxLedger : public ForwardingLedger
{
public:
    OutboxLedger(Ledger& copy, Outbox& outbox, const Clock& clock, const StartedTimers& timers)
        : ForwardingLedger(copy)
        , m_outbox(outbox)
        , m_clock(clock)
        , m_timers(timers)
    {
    }

    /// Also Unavailable: it is nothing that may wait.
    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override;
    /// What is asked from here on was asked of the server before, and its answer was lost.
    void setInDoubt(bool inDoubt) { m_inDoubt = inDoubt; }

private:
    Outbox& m_outbox;
    const Clock& m_clock;
    const StartedTimers& m_timers;
    bool m_inDoubt = false;
};

} // namespace ramplight
