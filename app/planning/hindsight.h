// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/forecast.h"
#include "planning/worktimes.h"

#include <array>
#include <optional>
#include <vector>

// What a forecast does not know it learns from what came of earlier ones: cars that are sent in
// meanwhile, work that is found, days on which other things went first. Each quantile is stretched
// by what it would have had to be stretched by until now, so that it held as often as it says
// (conformalised quantiles: Romano, Patterson and Candes 2019, here as ratios and side by side).
namespace ramplight::planning {

/// What was said of a car some morning and what came, in minutes at work from then on.
struct SaidThen
{
    static constexpr std::array levels{0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95};

    std::array<double, levels.size()> said = {};
    double came = 0;

    /// From the runs of a forecast, uncorrected; hours: of somebody who is there throughout. None
    /// where it has no end.
    [[nodiscard]] static std::optional<SaidThen> of(const CarForecast& forecast,
                                                    const WorkTimes& hours, PlanMinute came);
};

/// Of whoever works most in a month from now; null where nobody does.
[[nodiscard]] const WorkTimes* longestHours(const Shop& shop);

class Hindsight
{
public:
    /// Without anything to look back on: what workshops have in common.
    Hindsight();
    explicit Hindsight(const std::vector<SaidThen>& past);
    /// Leaves a forecast as it was drawn.
    [[nodiscard]] static Hindsight none();

    /// The forecast with its runs stretched and all that follows from them; promised: of the car.
    [[nodiscard]] CarForecast corrected(CarForecast forecast, const WorkTimes& hours,
                                        PlanMinute promised) const;

    /// By how far ahead the middle of what is said lies: the same day, one to three days, more.
    static constexpr std::size_t horizons = 3;
    using Stretches = std::array<std::array<double, SaidThen::levels.size()>, horizons>;
    [[nodiscard]] const Stretches& stretches() const { return m_stretches; }

private:
    Stretches m_stretches;
};

} // namespace ramplight::planning
