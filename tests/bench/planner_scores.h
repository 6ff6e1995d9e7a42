// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/forecast.h"

#include <array>
#include <string>
#include <vector>

// How well forecasts said what came, against the plan as it stands and the usual minutes summed.
namespace ramplight::test {

/// What was said of one car, and what came; in minutes from when it was said.
struct SaidAndCame
{
    const planning::CarForecast& said;
    planning::PlanMinute plan = 0;
    planning::PlanMinute sum = 0;
    planning::PlanMinute came = 0;
};

class Scores
{
public:
    void add(const SaidAndCame& one);
    /// The cars of a house are late together: from here on it is another house.
    void nextHouse();
    void tell(const char* horizon, const char* records) const;
    /// Of the share inside the 50 % interval, in points, by what differs from house to house.
    [[nodiscard]] double standardError() const;

private:
    double m_count = 0;
    std::array<double, 3> m_inside = {};
    std::array<double, 2> m_outside = {}; ///< before the 10 % quantile, after that of 90 %
    std::array<double, 3> m_pinball = {}; ///< at 90 %: forecast, plan, sum
    std::array<double, 3> m_crps = {};    ///< likewise
    double m_countBefore = 0;
    double m_insideBefore = 0;
    std::vector<double> m_byHouse; ///< share inside the 50 % interval
};

/// By how far ahead: the same day, one to three days, more; then all.
class ScoresByHorizon
{
public:
    static void tellHeading();
    void add(const SaidAndCame& one);
    void nextHouse();
    void tell(const std::string& records) const;

private:
    std::array<Scores, 4> m_scores;
};

/// What somebody says who adds up the usual minutes and the waits of a car.
[[nodiscard]] std::vector<planning::PlanMinute> summed(const planning::Shop& shop);

} // namespace ramplight::test
