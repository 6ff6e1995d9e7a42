// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"

namespace ramplight {

/// A ledger in front of another one, for who changes one of its answers: all else is the other
/// one's. On the other one's thread.
class ForwardingLedger : public Ledger
{
public:
    /// behind outlives this.
    explicit ForwardingLedger(Ledger& behind)
        : m_behind(behind)
    {
    }

    [[nodiscard]] tl::expected<CarState, StoreError> car(const CarId& id) override
    {
        return m_behind.car(id);
    }
    [[nodiscard]] tl::expected<std::vector<CarEnvelope>, StoreError>
    history(const CarId& id) override
    {
        return m_behind.history(id);
    }
    [[nodiscard]] tl::expected<std::optional<CarId>, StoreError>
    carByStockNumber(const QString& stockNumber) override
    {
        return m_behind.carByStockNumber(stockNumber);
    }
    [[nodiscard]] tl::expected<SiteAndCar, StoreError> siteAndCar(const CarId& id) override
    {
        return m_behind.siteAndCar(id);
    }
    [[nodiscard]] tl::expected<const SiteState*, StoreError> currentSite() override
    {
        return m_behind.currentSite();
    }
    [[nodiscard]] tl::expected<std::vector<SiteEnvelope>, StoreError> siteHistory() override
    {
        return m_behind.siteHistory();
    }
    [[nodiscard]] tl::expected<bool, StoreError> isKnown(const CommandId& command) override
    {
        return m_behind.isKnown(command);
    }
    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override
    {
        return m_behind.append(append);
    }
    [[nodiscard]] tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) override
    {
        return m_behind.runningWork(person);
    }
    [[nodiscard]] tl::expected<std::vector<RunningWork>, StoreError> allRunningWork() override
    {
        return m_behind.allRunningWork();
    }
    [[nodiscard]] tl::expected<Moment, StoreError> busyUntil(PersonId person) override
    {
        return m_behind.busyUntil(person);
    }
    [[nodiscard]] tl::expected<QString, StoreError> bayTakenBy(BayId bay) override
    {
        return m_behind.bayTakenBy(bay);
    }
    [[nodiscard]] tl::expected<std::set<PersonId>, StoreError> peopleWithPin() override
    {
        return m_behind.peopleWithPin();
    }
    [[nodiscard]] tl::expected<Moment, StoreError> nextWorkAfter(PersonId person,
                                                                 Moment after) override
    {
        return m_behind.nextWorkAfter(person, after);
    }

protected:
    [[nodiscard]] Ledger& behind() { return m_behind; }

private:
    Ledger& m_behind;
};

} // namespace ramplight
