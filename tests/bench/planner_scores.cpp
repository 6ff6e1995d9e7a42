// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/planner_scores.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

using namespace ramplight::planning;

namespace ramplight::test {

namespace {

/// Loss of saying a quantile (Koenker and Bassett 1978), in minutes.
double pinball(double said, double share, double came)
{
    return came >= said ? share * (came - said) : (1 - share) * (said - came);
}

/// Continuous ranked probability score of a sample (Gneiting and Raftery 2007); sorted.
double crps(const std::vector<PlanMinute>& runs, double came)
{
    const double n = double(runs.size());
    double away = 0;
    double spread = 0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        away += std::abs(runs[i] - came) / n;
        spread += (2 * double(i) - n + 1) * runs[i] / (n * n);
    }
    return away - spread;
}

} // namespace

void Scores::add(const SaidAndCame& one)
{
    m_count += 1;
    const std::array intervals = {one.said.within50, one.said.within80, one.said.within90};
    for (std::size_t i = 0; i < intervals.size(); ++i)
        m_inside[i] += one.came >= intervals[i].from && one.came <= intervals[i].to;
    m_outside[0] += one.came < one.said.within80.from;
    m_outside[1] += one.came > one.said.within80.to;
    m_pinball[0] += pinball(one.said.ready90, 0.9, one.came);
    m_pinball[1] += pinball(one.plan, 0.9, one.came);
    m_pinball[2] += pinball(one.sum, 0.9, one.came);
    m_crps[0] += crps(one.said.runs, one.came);
    m_crps[1] += std::abs(one.plan - one.came);
    m_crps[2] += std::abs(one.sum - one.came);
}

void Scores::nextHouse()
{
    if (m_count > m_countBefore)
        m_byHouse.push_back((m_inside[0] - m_insideBefore) / (m_count - m_countBefore));
    m_countBefore = m_count;
    m_insideBefore = m_inside[0];
}

void Scores::tell(const char* horizon, const char* records) const
{
    if (m_count == 0)
        return;
    std::printf(
        "%9s %-9s %6.0f   %4.1f %4.1f %4.1f   %4.1f %4.1f   %5.1f %5.1f %5.1f   %5.0f %5.0f "
        "%5.0f\n",
        records, horizon, m_count, 100 * m_inside[0] / m_count, 100 * m_inside[1] / m_count,
        100 * m_inside[2] / m_count, 100 * m_outside[0] / m_count, 100 * m_outside[1] / m_count,
        m_pinball[0] / m_count, m_pinball[1] / m_count, m_pinball[2] / m_count, m_crps[0] / m_count,
        m_crps[1] / m_count, m_crps[2] / m_count);
}

double Scores::standardError() const
{
    const double n = double(m_byHouse.size());
    const double mean = std::accumulate(m_byHouse.begin(), m_byHouse.end(), 0.0) / n;
    double squares = 0;
    for (const double share : m_byHouse)
        squares += (share - mean) * (share - mean);
    return n < 2 ? 100 : 100 * std::sqrt(squares / (n - 1) / n);
}

void ScoresByHorizon::tellHeading()
{
    std::puts("  records horizon    cars   50 % 80 % 90 %   10 % 90 %   pinball at 90 %     CRPS, "
              "minutes");
    std::puts("                           inside         before after     ours  plan  sum     ours "
              " plan  sum");
}

void ScoresByHorizon::add(const SaidAndCame& one)
{
    const int days = one.said.ready50 / (24 * 60);
    m_scores[days < 1 ? 0 : days < 4 ? 1 : 2].add(one);
    m_scores[3].add(one);
}

void ScoresByHorizon::nextHouse()
{
    for (Scores& scores : m_scores)
        scores.nextHouse();
}

void ScoresByHorizon::tell(const std::string& records) const
{
    m_scores[0].tell("same day", records.c_str());
    m_scores[1].tell("1-3 days", records.c_str());
    m_scores[2].tell("more", records.c_str());
    m_scores[3].tell("all", records.c_str());
    std::printf("          the 50 %% column is known to +- %.1f points (a standard error)\n",
                m_scores[3].standardError());
}

std::vector<PlanMinute> summed(const Shop& shop)
{
    std::vector<PlanMinute> ready;
    for (std::size_t c = 0; c < shop.cars.size(); ++c) {
        int minutes = 0;
        int waits = 0;
        PlanMinute from = std::max(0, shop.cars[c].from);
        for (const ShopJob& job : shop.jobs) {
            if (job.car != static_cast<int>(c))
                continue;
            minutes += job.minutes.usual;
            waits += job.waitMinutes;
            from = std::max(from, job.notBefore);
        }
        // The hours of somebody who is there throughout.
        ready.push_back(shop.people.front().times.fit(from, minutes, Pause::Overnight).to + waits);
    }
    return ready;
}

} // namespace ramplight::test
