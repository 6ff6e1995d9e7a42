// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopsketch.h"

#include "planning/indexing.h"
#include "planning/shopscheduler.h"

#include <algorithm>
#include <functional>

namespace ramplight::planning {

ShopSketch::ShopSketch(const ShopIndex& whole, std::span<const Fixed> fixed, double scarceFrom)
    : m_whole(whole)
{
    const Shop& shop = whole.shop();
    findScarce(scarceFrom);
    m_shop.people = shop.people;
    m_shop.bays = shop.bays;
    m_shop.crews = shop.crews;
    m_shop.bayGroups = shop.bayGroups;
    m_shop.cars = shop.cars;
    for (ShopCar& car : m_shop.cars)
        car.staysUntil = 0;
    m_shop.objective = shop.objective;
    std::vector<Span> atWork;
    for (const ShopPerson& person : shop.people)
        atWork.insert(atWork.end(), person.times.spans().begin(), person.times.spans().end());
    m_shop.people.push_back({{}, WorkTimes(std::move(atWork))});
    m_shop.crews.push_back({crowd()});
    m_sketched.assign(shop.jobs.size(), -1);
    m_last.assign(shop.cars.size(), -1);
    for (int car = 0; car < static_cast<int>(shop.cars.size()); ++car)
        keepCar(car, fixed);
}

// What there is little of: minutes of work by person and by bay, as if those who can do the same
// shared it alike.
void ShopSketch::findScarce(double scarceFrom)
{
    const Shop& shop = m_whole.shop();
    std::vector<double> people(shop.people.size(), 0);
    std::vector<double> bays(shop.bays.size(), 0);
    for (const ShopJob& job : shop.jobs) {
        const double stays = job.minutes.usual + (job.waitsInBay ? job.waitMinutes : 0);
        if (job.crew >= 0) {
            for (const int person : shop.crews[at(job.crew)])
                people[at(person)] +=
                    double(job.minutes.usual) / double(shop.crews[at(job.crew)].size());
        }
        if (job.bays >= 0) {
            for (const int bay : shop.bayGroups[at(job.bays)])
                bays[at(bay)] += stays / double(shop.bayGroups[at(job.bays)].size());
        }
    }
    double most = 1;
    for (const std::vector<double>* loads : {&people, &bays}) {
        for (const double load : *loads)
            most = std::max(most, load);
    }
    const auto areScarce = [most, scarceFrom](const std::vector<int>& some,
                                              const std::vector<double>& loads) {
        return std::ranges::all_of(some,
                                   [&](int one) { return loads[at(one)] >= scarceFrom * most; });
    };
    for (const ShopJob& job : shop.jobs)
        m_isScarce.push_back(
            (job.crew >= 0 && areScarce(shop.crews[at(job.crew)], people)) ||
                    (job.bays >= 0 && areScarce(shop.bayGroups[at(job.bays)], bays))
                ? 1
                : 0);
}

// A car's jobs, each after those it waits for.
std::vector<int> ShopSketch::inOrder(int car) const
{
    std::vector<int> order;
    const std::function<void(int)> visit = [&](int job) {
        if (contains(order, job))
            return;
        for (const int before : m_whole.precedence().before(job))
            visit(before);
        order.push_back(job);
    };
    for (const int job : m_whole.jobsOf(car))
        visit(job);
    return order;
}

void ShopSketch::keepCar(int car, std::span<const Fixed> fixed)
{
    const Shop& shop = m_whole.shop();
    const std::vector<int>& jobs = m_whole.jobsOf(car);
    if (std::ranges::none_of(jobs, [this](int job) { return m_isScarce[at(job)] != 0; }))
        return;
    ShopScheduler alone(m_whole);
    alone.begin(fixed);
    const ShopScheduler start = alone;
    std::vector<char> isBetween(shop.jobs.size(), 0); // comes before something scarce
    ShopJob last{.title = {},
                 .kind = {},
                 .car = car,
                 .crew = static_cast<int>(shop.crews.size()),
                 .minutes = {}};
    const std::vector<int> order = inOrder(car);
    std::vector<std::vector<int>> behind(shop.jobs.size()); // numbers here that come before it
    const auto add = [](std::vector<int>& to, int one) {
        if (!contains(to, one))
            to.push_back(one);
    };
    for (auto job = order.rbegin(); job != order.rend(); ++job) {
        for (const int next : m_whole.precedence().after(*job))
            if (isBetween[at(next)] != 0 || m_isScarce[at(next)] != 0)
                isBetween[at(*job)] = 1;
    }
    for (const int job : order) {
        std::vector<int>& before = behind[at(job)];
        PlanMinute from = 0;
        for (const int one : m_whole.precedence().before(job)) {
            if (m_isScarce[at(one)])
                add(before, m_sketched[at(one)]);
            else
                from = std::max(from, alone.isPlaced(one) ? alone.placement(one).clear : 0);
            for (const int further : behind[at(one)])
                add(before, further);
        }
        const ShopJob& one = shop.jobs[at(job)];
        if (m_isScarce[at(job)]) {
            const int number = static_cast<int>(m_shop.jobs.size());
            ShopJob kept = one;
            kept.after = before;
            kept.notBefore = std::max(kept.notBefore, from == never ? 0 : from);
            kept.apart.clear();
            kept.checks.clear();
            kept.staysFor.clear();
            kept.keepsCar = false;
            for (const int other : jobs) {
                const bool apart =
                    contains(one.apart, other) || contains(shop.jobs[at(other)].apart, job);
                if (apart && m_sketched[at(other)] >= 0)
                    kept.apart.push_back(m_sketched[at(other)]);
            }
            if (start.isPlaced(job) && !one.running)
                m_fixed.push_back({number, start.placement(job)});
            m_sketched[at(job)] = number;
            m_kept.push_back(job);
            m_shop.jobs.push_back(std::move(kept));
            last.after.push_back(number);
        } else if (before.empty()) {
            if (!alone.isPlaced(job))
                alone.place(job);
        } else if (!isBetween[at(job)]) {
            last.notBefore = std::max(last.notBefore, from == never ? 0 : from);
            last.minutes.usual += one.minutes.usual;
            last.waitMinutes += one.waitMinutes;
        }
    }
    m_last[at(car)] = static_cast<int>(m_shop.jobs.size());
    m_kept.push_back(-1);
    m_shop.jobs.push_back(std::move(last));
}

std::vector<double> ShopSketch::latestStarts(const ShopPlan& plan) const
{
    const Shop& shop = m_whole.shop();
    std::vector<double> starts(shop.jobs.size(), -1);
    std::vector<char> known(shop.jobs.size(), 0);
    const std::function<double(int)> startOf = [&](int job) {
        if (known[at(job)])
            return starts[at(job)];
        known[at(job)] = 1;
        const ShopJob& one = shop.jobs[at(job)];
        const int last = m_last[at(one.car)];
        double start = last < 0 ? shop.cars[at(one.car)].promised : plan.jobs[at(last)].clear;
        start -= one.minutes.usual + one.waitMinutes;
        for (const int next : m_whole.precedence().after(job))
            start = std::min(start, startOf(next) - one.minutes.usual - one.waitMinutes);
        if (m_sketched[at(job)] >= 0)
            start = plan.jobs[at(m_sketched[at(job)])].start;
        return starts[at(job)] = start;
    };
    for (int job = 0; job < static_cast<int>(shop.jobs.size()); ++job)
        startOf(job);
    return starts;
}

} // namespace ramplight::planning
