// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/outbox.h"

namespace ramplight {

/// The ledger behind the workshop's door while the server is away: what is decided on the last
/// known state goes into the outbox first and then into the working copy, so that the next command
/// is decided on it. What may not wait is refused. On the copy's thread; all three outlive it.
class OutboxLedger : public Ledger
{
public:
    OutboxLedger(Ledger& copy, Outbox& outbox, const Clock& clock)
        : m_copy(copy)
        , m_outbox(outbox)
        , m_clock(clock)
    {
    }

    /// Also Unavailable: it is nothing that may wait.
    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override;

    [[nodiscard]] tl::expected<CarState, StoreError> car(const CarId& id) override
    {
        return m_copy.car(id);
    }
    [[nodiscard]] tl::expected<std::vector<CarEnvelope>, StoreError>
    history(const CarId& id) override
    {
        return m_copy.history(id);
    }
    [[nodiscard]] tl::expected<std::optional<CarId>, StoreError>
    carByStockNumber(const QString& stockNumber) override
    {
        return m_copy.carByStockNumber(stockNumber);
    }
    [[nodiscard]] tl::expected<SiteState, StoreError> site() override { return m_copy.site(); }
    [[nodiscard]] tl::expected<std::vector<SiteEnvelope>, StoreError> siteHistory() override
    {
        return m_copy.siteHistory();
    }
    [[nodiscard]] tl::expected<bool, StoreError> isKnown(const CommandId& command) override
    {
        return m_copy.isKnown(command);
    }
    [[nodiscard]] tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) override
    {
        return m_copy.runningWork(person);
    }
    [[nodiscard]] tl::expected<std::vector<RunningWork>, StoreError> allRunningWork() override
    {
        return m_copy.allRunningWork();
    }
    [[nodiscard]] tl::expected<Moment, StoreError> busyUntil(PersonId person) override
    {
        return m_copy.busyUntil(person);
    }
    [[nodiscard]] tl::expected<QString, StoreError> bayTakenBy(BayId bay) override
    {
        return m_copy.bayTakenBy(bay);
    }
    [[nodiscard]] tl::expected<Moment, StoreError> nextWorkAfter(PersonId person,
                                                                 Moment after) override
    {
        return m_copy.nextWorkAfter(person, after);
    }

private:
    Ledger& m_copy;
    Outbox& m_outbox;
    const Clock& m_clock;
};

} // namespace ramplight
