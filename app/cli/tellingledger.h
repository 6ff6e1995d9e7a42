// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"

#include <functional>
#include <utility>

namespace ramplight {

/// A ledger in front of another one that says what was kept, once it is kept. For who wants to
/// follow the demo workshop's play, or to hold the store to its word. On the other one's thread.
class TellingLedger : public Ledger
{
public:
    using Told = std::function<void(const Append& kept)>;

    /// behind outlives this. told is called after each append that behind accepted.
    TellingLedger(Ledger& behind, Told told)
        : m_behind(behind)
        , m_told(std::move(told))
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
    [[nodiscard]] tl::expected<SiteState, StoreError> site() override { return m_behind.site(); }
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
        auto kept = m_behind.append(append);
        if (kept && m_told)
            m_told(append);
        return kept;
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
    [[nodiscard]] tl::expected<Moment, StoreError> nextWorkAfter(PersonId person,
                                                                 Moment after) override
    {
        return m_behind.nextWorkAfter(person, after);
    }

private:
    Ledger& m_behind;
    Told m_told;
};

} // namespace ramplight
