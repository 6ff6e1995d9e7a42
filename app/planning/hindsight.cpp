// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/hindsight.h"

#include <algorithm>
#include <cmath>

namespace ramplight::planning {

namespace {

/// Added to both sides of a ratio: nobody says ten minutes to the minute.
constexpr double slack = 30;
constexpr double minutesOfADay = 480;
/// What workshops have in common counts as much as so many forecasts.
constexpr double commonForecasts = 40;

/// By tests/bench/planner_replay, houses 3001 to 3024 and 4001 to 4020.
constexpr Hindsight::Stretches common{{
    {0.97, 1.00, 1.05, 1.11, 1.21, 1.40, 1.54},
    {0.74, 0.83, 0.96, 1.07, 1.19, 1.43, 1.57},
    {0.72, 0.80, 0.92, 1.03, 1.12, 1.30, 1.42},
}};

std::size_t horizonOf(double median)
{
    return median < minutesOfADay ? 0 : median < 4 * minutesOfADay ? 1 : 2;
}

double ratio(double came, double said)
{
    return (came + slack) / (said + slack);
}

} // namespace

std::optional<SaidThen> SaidThen::of(const CarForecast& forecast, const WorkTimes& hours,
                                     PlanMinute came)
{
    SaidThen then;
    for (std::size_t i = 0; i < levels.size(); ++i) {
        const PlanMinute at = quantileOf(forecast.runs, levels[i]);
        if (at >= never)
            return {};
        then.said[i] = hours.workedBefore(at);
    }
    then.came = hours.workedBefore(came);
    return then;
}

const WorkTimes* longestHours(const Shop& shop)
{
    constexpr PlanMinute month = 30 * 24 * 60;
    const WorkTimes* longest = nullptr;
    int most = 0;
    for (const ShopPerson& person : shop.people) {
        const int worked = person.times.workedBefore(month);
        if (worked > most) {
            longest = &person.times;
            most = worked;
        }
    }
    return longest;
}

Hindsight::Hindsight()
    : m_stretches(common)
{
}

Hindsight::Hindsight(const std::vector<SaidThen>& past)
    : m_stretches(common)
{
    constexpr std::size_t middle = SaidThen::levels.size() / 2;
    for (std::size_t horizon = 0; horizon < horizons; ++horizon) {
        std::vector<const SaidThen*> alike;
        for (const SaidThen& one : past) {
            if (horizonOf(one.said[middle]) == horizon)
                alike.push_back(&one);
        }
        if (alike.empty())
            continue;
        const double count = double(alike.size());
        for (std::size_t i = 0; i < SaidThen::levels.size(); ++i) {
            std::vector<double> ratios;
            ratios.reserve(alike.size());
            for (const SaidThen* one : alike)
                ratios.push_back(ratio(one->came, one->said[i]));
            const auto place =
                static_cast<std::ptrdiff_t>(std::lround(SaidThen::levels[i] * (count - 1)));
            std::nth_element(ratios.begin(), ratios.begin() + place, ratios.end());
            const double seen = std::log(std::max(ratios[static_cast<std::size_t>(place)], 0.05));
            m_stretches[horizon][i] =
                std::exp((count * seen + commonForecasts * std::log(common[horizon][i])) /
                         (count + commonForecasts));
        }
    }
}

Hindsight Hindsight::none()
{
    Hindsight none;
    for (auto& horizon : none.m_stretches)
        horizon.fill(1);
    return none;
}

CarForecast Hindsight::corrected(CarForecast forecast, const WorkTimes& hours,
                                 PlanMinute promised) const
{
    // What takes no chances, a wait or nothing at all, comes as it is said.
    if (forecast.runs.empty() || forecast.runs.back() >= never ||
        forecast.runs.front() == forecast.runs.back())
        return forecast;
    const auto& levels = SaidThen::levels;
    const auto& stretches =
        m_stretches[horizonOf(hours.workedBefore(quantileOf(forecast.runs, 0.5)))];
    const double last = double(std::max<std::size_t>(1, forecast.runs.size() - 1));
    PlanMinute before = 0;
    for (std::size_t run = 0; run < forecast.runs.size(); ++run) {
        const double share = double(run) / last;
        const auto above = std::upper_bound(levels.begin(), levels.end(), share);
        double stretch = stretches.front();
        if (above == levels.end()) {
            stretch = stretches.back();
        } else if (above != levels.begin()) {
            const auto i = static_cast<std::size_t>(above - levels.begin());
            const double way = (share - levels[i - 1]) / (levels[i] - levels[i - 1]);
            stretch = stretches[i - 1] + way * (stretches[i] - stretches[i - 1]);
        }
        PlanMinute& at = forecast.runs[run];
        const double worked = hours.workedBefore(at);
        const double wanted = std::max(1.0, (worked + slack) * stretch - slack);
        if (std::abs(wanted - worked) >= 1) {
            const PlanMinute moved =
                hours.fit(0, static_cast<int>(std::lround(wanted)), Pause::Overnight).to;
            at = moved < never ? moved : at + static_cast<int>(3 * (wanted - worked));
        }
        // What is more likely later never comes sooner.
        at = std::max(at, before);
        before = at;
    }
    tell(forecast, promised);
    return forecast;
}

} // namespace ramplight::planning
