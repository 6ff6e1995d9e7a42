// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"

#include <functional>
#include <map>
#include <memory>
#include <set>

namespace ramplight::test {

/// A clock that stands still until a test moves it, or goes on a little with each look at it; it
/// can be set back, too.
class StillClock : public Clock
{
public:
    [[nodiscard]] Moment now() const override { return {m_now.ms += m_step}; }
    void set(Moment now) { m_now = now; }
    void goOnWithEachLook() { m_step = 1; }
    void pass(int minutes) { m_now = m_now.plusMinutes(minutes); }
    /// Somebody sets it: no time goes by.
    void putBy(int minutes)
    {
        m_now = m_now.plusMinutes(minutes);
        m_put -= qint64{minutes} * 60'000;
    }
    [[nodiscard]] qint64 steadyMs() const override { return m_now.ms + m_put; }

private:
    qint64 m_put = 0;
    mutable Moment m_now{1'930'000'000'000}; // a Wednesday in 2031
    qint64 m_step = 0;
};

/// The ledger of a test: no disk, the same promises. It applies the events itself and refuses what
/// the real one would refuse: a stream that went on meanwhile, two timers of a person, two cars in
/// a bay, a stock number twice, and a state handed over that its events do not make.
class MemoryLedger : public Ledger
{
public:
    [[nodiscard]] tl::expected<CarState, StoreError> car(const CarId& id) override;
    [[nodiscard]] tl::expected<std::vector<CarEnvelope>, StoreError>
    history(const CarId& id) override;
    [[nodiscard]] tl::expected<std::optional<CarId>, StoreError>
    carByStockNumber(const QString& stockNumber) override;
    [[nodiscard]] tl::expected<const SiteState*, StoreError> currentSite() override;
    [[nodiscard]] tl::expected<std::vector<SiteEnvelope>, StoreError> siteHistory() override;
    [[nodiscard]] tl::expected<bool, StoreError> isKnown(const CommandId& command) override;
    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override;
    [[nodiscard]] tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) override;
    [[nodiscard]] tl::expected<std::vector<RunningWork>, StoreError> allRunningWork() override;
    [[nodiscard]] tl::expected<Moment, StoreError> busyUntil(PersonId person) override;
    [[nodiscard]] tl::expected<QString, StoreError> bayTakenBy(BayId bay) override;
    [[nodiscard]] tl::expected<std::set<PersonId>, StoreError> peopleWithPin() override;
    [[nodiscard]] tl::expected<Moment, StoreError> nextWorkAfter(PersonId person,
                                                                 Moment after) override;

    /// Every call fails with this until it is cleared.
    void failWith(std::optional<StoreErrorKind> kind) { m_fault = kind; }
    /// Everything is asked and decided as ever, and nothing is written: append() fails with
    /// Unavailable.
    void takeNothing() { m_takesNothing = true; }
    /// Everybody has a PIN otherwise.
    void takePinFrom(PersonId person) { m_withoutPin.insert(person); }
    /// Runs before each append, once; lets a test write first, as another kiosk would.
    void beforeNextAppend(std::function<void()> hook) { m_hook = std::move(hook); }

    [[nodiscard]] const std::map<CarId, CarState>& cars() const { return m_cars; }
    /// How often an append was accepted.
    [[nodiscard]] int appends() const { return static_cast<int>(m_accepted.size()); }
    /// What was accepted, in order, without the states: another ledger can be given the same.
    [[nodiscard]] std::vector<Append> accepted() const;

private:
    [[nodiscard]] std::optional<StoreError> fault() const;
    [[nodiscard]] std::vector<RunningWork> running(std::optional<PersonId> person) const;
    [[nodiscard]] bool startsInThePast(const Append& append) const;
    [[nodiscard]] std::optional<StoreError> clash(const std::map<CarId, CarState>& changed) const;

    std::map<CarId, CarState> m_cars;
    std::map<CarId, std::vector<std::shared_ptr<const CarEnvelope>>>
        m_histories; ///< shared: see m_accepted
    SiteState m_site;
    SiteState m_named; ///< the same with people's names
    std::vector<SiteEnvelope> m_siteHistory;
    std::map<PersonId, QString> m_names;
    std::set<PersonId> m_withoutPin;
    std::set<CommandId> m_commands;
    std::optional<StoreErrorKind> m_fault;
    bool m_takesNothing = false;
    std::function<void()> m_hook;
    std::vector<std::shared_ptr<const Append>> m_accepted; ///< shared: ledgers are copied often
};

} // namespace ramplight::test
