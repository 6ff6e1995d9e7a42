// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/lookback.h"

#include <algorithm>

namespace ramplight::planning {

LookBack::LookBack(int mornings)
    : m_most(mornings)
{
}

void LookBack::keep(const HousePlan& said)
{
    const WorkTimes* hours = longestHours(said.house.shop);
    if (hours == nullptr)
        return;
    Morning morning{said.start, said.clock(), *hours, {}};
    for (std::size_t car = 0; car < said.house.cars.size(); ++car) {
        if (!said.hasNoWork(static_cast<int>(car)))
            morning.said.push_back({said.house.cars[car], said.forecasts[car]});
    }
    m_mornings.push_back(std::move(morning));
    while (std::ssize(m_mornings) > m_most)
        m_mornings.pop_front();
}

std::vector<SaidThen> LookBack::knownBy(const HouseReplay& now) const
{
    std::vector<SaidThen> past;
    for (const Morning& morning : m_mornings) {
        for (const Said& said : morning.said) {
            const std::optional<Moment> ready = now.readyAfter(said.car, morning.at);
            const PlanMinute came = morning.clock.minuteOf(ready.value_or(now.until()));
            if (!ready && (came <= said.forecast.ready50 || now.hasLeft(said.car)))
                continue;
            if (const auto one = SaidThen::of(said.forecast, morning.hours, came))
                past.push_back(*one);
        }
    }
    return past;
}

std::vector<Moment> morningsBefore(Moment now, const SiteState& site, int most)
{
    constexpr int farthest = 120;
    const HouseCalendar calendar = calendarOf(site);
    const PlanClock clock(now, site.rules);
    const QDate today = clock.dayOf(0);
    std::vector<Moment> mornings;
    for (int back = 1; back <= farthest && std::ssize(mornings) < most; ++back) {
        const QDate day = today.addDays(-back);
        if (const DayTimes* times = openOn(calendar, day))
            mornings.push_back(clock.momentOf(clock.minuteOf(day, times->opens)));
    }
    std::ranges::reverse(mornings);
    return mornings;
}

Hindsight lookBack(const HouseLedger& ledger, const std::shared_ptr<const Catalogue>& catalogue,
                   Moment now, const LookBackEffort& effort, const std::function<bool()>& stop)
{
    SiteState site;
    for (const SiteEnvelope& entry : ledger.site)
        apply(site, entry);
    HouseReplay replay(ledger);
    LookBack looking(effort.mornings);
    for (const Moment morning : morningsBefore(now, site, effort.mornings)) {
        if (stop && stop())
            return {};
        replay.goOnTo(morning);
        HouseInput input = replay.input(catalogue);
        if (input.cars.empty())
            continue;
        input.hindsight = Hindsight::none();
        const HousePlan said = planHouse(input, morning, effort.ofEach);
        if (said.faults.isEmpty())
            looking.keep(said);
    }
    replay.goOnTo(now);
    return Hindsight(looking.knownBy(replay));
}

} // namespace ramplight::planning
