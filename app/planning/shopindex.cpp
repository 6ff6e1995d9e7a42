// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopindex.h"
#include "planning/indexing.h"

#include <algorithm>
#include <span>
#include <utility>

namespace ramplight::planning {

namespace {

/// Minutes; of 0, 60, 240, 350, 500 and 1,200 the best on 20 workshops (seeds 1 to 20).
constexpr double busiestIsWorth = 500;

std::vector<std::vector<int>> successorsOf(const Shop& shop)
{
    std::vector<std::vector<int>> all(shop.jobs.size());
    for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
        for (const int before : shop.jobs[i].after)
            all[at(before)].push_back(static_cast<int>(i));
    }
    // While a car stays somewhere it cannot be worked on elsewhere: what its stay waits for, and
    // does not come behind its beginning, comes before that.
    for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
        if (shop.jobs[i].staysFor.empty())
            continue;
        const std::vector<int> behind = reached(
            {static_cast<int>(i)}, [&all](int job) { return std::span<const int>(all[at(job)]); });
        const std::vector<int> waitedFor = reached(shop.jobs[i].staysFor, [&shop](int job) {
            return std::span<const int>(shop.jobs[at(job)].after);
        });
        for (const int job : waitedFor) {
            const bool isKnown =
                contains(behind, job) || contains(all[at(job)], static_cast<int>(i));
            if (!isKnown)
                all[at(job)].push_back(static_cast<int>(i));
        }
    }
    return all;
}

} // namespace

ShopIndex::ShopIndex(const Shop& shop, int crowd)
    : m_shop(&shop)
    , m_crowd(crowd)
    , m_precedence(successorsOf(shop))
{
    const std::size_t n = shop.jobs.size();
    m_tails.assign(n, 0);
    std::vector<std::vector<Rival>> rivals(n);
    std::vector<std::vector<int>> checkedBy(n);
    m_jobsOf.resize(shop.cars.size());
    for (const std::vector<int>& crew : shop.crews) {
        m_masks.push_back(0);
        for (const int person : crew)
            m_masks.back() |= std::uint64_t{1} << person;
    }
    for (std::size_t i = 0; i < n; ++i) {
        const ShopJob& job = shop.jobs[i];
        m_jobsOf[at(job.car)].push_back(static_cast<int>(i));
        if (job.checks.empty() || job.crew < 0)
            continue;
        for (const int checked : job.checks)
            checkedBy[at(checked)].push_back(static_cast<int>(m_checks.size()));
        m_checks.push_back(static_cast<int>(i));
    }
    // Who can do little else goes first, so that the others stay free for what only they can do.
    std::vector<int> usefulness(shop.people.size(), 0);
    for (const ShopJob& job : shop.jobs) {
        if (job.crew < 0)
            continue;
        for (const int person : shop.crews[at(job.crew)])
            usefulness[at(person)] += job.minutes.usual;
    }
    // Who would be busiest if each crew shared its work alike is kept for what only they can do.
    std::vector<double> load(shop.people.size(), 0);
    for (const ShopJob& job : shop.jobs) {
        if (job.crew < 0)
            continue;
        const std::vector<int>& crew = shop.crews[at(job.crew)];
        for (const int person : crew)
            load[at(person)] += double(job.minutes.usual) / double(crew.size());
    }
    double most = 1;
    for (const double one : load)
        most = std::max(most, one);
    for (const double one : load)
        m_worth.push_back(static_cast<int>(busiestIsWorth * one / most));
    m_crews = shop.crews;
    for (std::vector<int>& crew : m_crews) {
        std::stable_sort(crew.begin(), crew.end(), [&usefulness](int a, int b) {
            return usefulness[at(a)] < usefulness[at(b)];
        });
    }
    for (const ShopPerson& person : shop.people) {
        if (!person.times.spans().empty())
            m_horizon = std::max(m_horizon, person.times.spans().back().to);
    }
    // Jobs of a car by what lies behind them: those behind one never overlap it.
    for (const std::vector<int>& jobs : m_jobsOf) {
        std::vector<int> order;
        std::vector<std::vector<char>> behind(jobs.size(), std::vector<char>(jobs.size(), 0));
        std::vector<int> local(n, -1);
        for (std::size_t k = 0; k < jobs.size(); ++k)
            local[at(jobs[k])] = static_cast<int>(k);
        std::vector<int> open(jobs.size(), 0);
        for (std::size_t k = 0; k < jobs.size(); ++k) {
            open[k] = static_cast<int>(m_precedence.after(jobs[k]).size());
            if (open[k] == 0)
                order.push_back(static_cast<int>(k));
        }
        for (std::size_t done = 0; done < order.size(); ++done) {
            const std::size_t k = at(order[done]);
            for (const int before : m_precedence.before(jobs[k])) {
                const std::size_t b = at(local[at(before)]);
                behind[b][k] = 1;
                for (std::size_t far = 0; far < jobs.size(); ++far)
                    behind[b][far] = static_cast<char>(behind[b][far] | behind[k][far]);
                const ShopJob& job = shop.jobs[at(jobs[k])];
                m_tails[at(before)] =
                    std::max(m_tails[at(before)],
                             m_tails[at(jobs[k])] + job.minutes.usual + job.waitMinutes);
                if (--open[b] == 0)
                    order.push_back(static_cast<int>(b));
            }
        }
        for (std::size_t k = 0; k < jobs.size(); ++k) {
            const ShopJob& job = shop.jobs[at(jobs[k])];
            for (std::size_t o = 0; o < jobs.size(); ++o) {
                const ShopJob& other = shop.jobs[at(jobs[o])];
                if (o == k || behind[k][o] || behind[o][k])
                    continue;
                const bool apart = contains(job.apart, jobs[o]) || contains(other.apart, jobs[k]);
                const bool twoBays =
                    job.usesCar && other.usesCar && job.bays >= 0 && other.bays >= 0;
                if (apart || twoBays)
                    rivals[at(jobs[k])].push_back({jobs[o], apart});
            }
        }
    }
    for (std::size_t i = 0; i < n; ++i) {
        const ShopJob& job = shop.jobs[i];
        Packed packed{.car = job.car,
                      .guest = job.usesCar ? job.car : ~static_cast<int>(i),
                      .crew = job.crew,
                      .bays = job.bays,
                      .minutes = job.minutes.usual,
                      .waitMinutes = job.waitMinutes,
                      .bayMinutes = job.waitsInBay ? job.waitMinutes : 0,
                      .from = std::max({0, job.notBefore, shop.cars[at(job.car)].from}),
                      .pause = job.pause,
                      .usesCar = job.usesCar};
        packed.firstRival = static_cast<int>(m_rivals.size());
        m_rivals.insert(m_rivals.end(), rivals[i].begin(), rivals[i].end());
        packed.endRival = static_cast<int>(m_rivals.size());
        packed.firstChecked = static_cast<int>(m_checkedBy.size());
        m_checkedBy.insert(m_checkedBy.end(), checkedBy[i].begin(), checkedBy[i].end());
        packed.endChecked = static_cast<int>(m_checkedBy.size());
        m_jobs.push_back(packed);
    }
    for (std::size_t i = 0; i < n; ++i) {
        const ShopJob& job = shop.jobs[i];
        if (!job.running)
            continue;
        const Span left =
            shop.people[at(job.running->person)].times.fit(0, job.minutes.usual, Pause::Overnight);
        const PlanMinute end = left.from == never ? job.minutes.usual : left.to;
        m_inHand.push_back({static_cast<int>(i),
                            {job.running->person, job.running->bay, std::min(0, job.running->began),
                             end, end + job.waitMinutes}});
    }
    for (std::size_t check = 0; check < m_checks.size(); ++check)
        m_jobs[at(m_checks[check])].check = static_cast<int>(check);
    findHolds();
}

void ShopIndex::findHolds()
{
    const Shop& shop = *m_shop;
    for (std::size_t c = 0; c < shop.cars.size(); ++c) {
        const ShopCar& car = shop.cars[c];
        Hold now{.car = static_cast<int>(c), .until = car.staysUntil};
        for (const int job : m_jobsOf[c]) {
            if (shop.jobs[at(job)].keepsCar)
                now.ends.push_back(job);
            const std::vector<int>& ends = shop.jobs[at(job)].staysFor;
            if (ends.empty() || shop.jobs[at(job)].bays < 0)
                continue;
            m_jobs[at(job)].opens = static_cast<int>(m_holds.size());
            m_holds.push_back({.car = static_cast<int>(c), .opener = job, .ends = ends});
        }
        if (car.bay >= 0 && (car.staysUntil > 0 || !now.ends.empty()))
            m_holds.push_back(std::move(now));
    }
    for (Hold& hold : m_holds) {
        // Of jobs that wait for each other the one that more lies before is the later.
        const auto before = [this](int job) {
            return std::span<const int>(m_precedence.before(job));
        };
        std::vector<std::pair<std::size_t, int>> block;
        for (const int job : reached(hold.ends, before))
            block.emplace_back(reached({job}, before).size(), job);
        std::sort(block.begin(), block.end());
        for (const auto& one : block)
            hold.block.push_back(one.second);
    }
}

} // namespace ramplight::planning
