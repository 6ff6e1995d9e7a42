// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/houseledger.h"

#include <algorithm>

namespace ramplight::planning {

namespace {

bool hasOpenWork(const CarState& car)
{
    return std::ranges::any_of(car.operations, [](const auto& one) { return one.second.isOpen(); });
}

Moment waitsOver(const CarState& car, Moment since)
{
    for (const auto& [id, operation] : car.operations)
        since = std::max(since, operation.waitUntil);
    return since;
}

} // namespace

tl::expected<HouseLedger, StoreError> houseLedger(Ledger& from, const std::vector<CarId>& cars)
{
    HouseLedger ledger;
    auto site = from.siteHistory();
    if (!site)
        return tl::unexpected(site.error());
    ledger.site = std::move(*site);
    for (const CarId& car : cars) {
        auto entries = from.history(car);
        if (!entries)
            return tl::unexpected(entries.error());
        ledger.cars.insert_or_assign(car, std::move(*entries));
    }
    return ledger;
}

HouseReplay::HouseReplay(const HouseLedger& ledger)
    : m_ledger(ledger)
{
    for (const auto& [id, entries] : ledger.cars)
        m_cars[id].state.id = id;
}

void HouseReplay::goOnTo(Moment until)
{
    m_until = std::max(m_until, until);
    for (; m_nextOfSite < m_ledger.site.size() && m_ledger.site[m_nextOfSite].at < until;
         ++m_nextOfSite)
        apply(m_site, m_ledger.site[m_nextOfSite]);
    for (auto& [id, car] : m_cars) {
        const std::vector<CarEnvelope>& entries = m_ledger.cars.at(id);
        while (car.next < entries.size() && entries[car.next].at < until) {
            const CarEnvelope& entry = entries[car.next++];
            const bool wasReleased = car.state.released.has_value();
            apply(car.state, entry);
            if (!wasReleased && car.state.released && car.isDone)
                car.ready.push_back(*car.isDone);
            // What a signature opens comes in the same command.
            if (car.next < entries.size() && entries[car.next].command == entry.command)
                continue;
            if (!car.state.appraised || hasOpenWork(car.state))
                car.isDone.reset();
            else if (!car.isDone)
                car.isDone = waitsOver(car.state, entry.at);
        }
    }
}

HouseInput HouseReplay::input(std::shared_ptr<const Catalogue> catalogue) const
{
    HouseInput input;
    for (const auto& [id, records] : m_ledger.before)
        input.records.insert(input.records.end(), records.begin(), records.end());
    for (const auto& [id, car] : m_cars) {
        if (car.next == 0)
            continue;
        input.cars.push_back(car.state);
        const std::vector<WorkRecord> records = recordsOf(car.state);
        input.records.insert(input.records.end(), records.begin(), records.end());
    }
    input.site = m_site;
    input.calendar = calendarOf(m_site);
    input.catalogue = std::move(catalogue);
    return input;
}

bool HouseReplay::hasLeft(const CarId& id) const
{
    const auto found = m_cars.find(id);
    return found != m_cars.end() && found->second.state.left.has_value();
}

std::optional<Moment> HouseReplay::readyAfter(const CarId& id, Moment moment) const
{
    const auto found = m_cars.find(id);
    if (found == m_cars.end())
        return {};
    const Car& car = found->second;
    for (const Moment ready : car.ready) {
        if (ready > moment)
            return ready;
    }
    if (car.isDone && *car.isDone > moment && *car.isDone <= m_until)
        return car.isDone;
    return {};
}

} // namespace ramplight::planning
