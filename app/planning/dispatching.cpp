// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/dispatching.h"
#include "planning/indexing.h"

#include <algorithm>
#include <cmath>

namespace ramplight::planning {

namespace {

/// Smaller goes first.
double priority(const ShopIndex& index, int number, Rule rule, PlanMinute now, double meanMinutes)
{
    const ShopJob& job = index.shop().jobs[at(number)];
    const ShopCar& car = index.shop().cars[at(job.car)];
    const double left = job.minutes.usual + job.waitMinutes + index.tail(number);
    const double slack = double(car.promised) - double(now) - left;
    switch (rule) {
    case Rule::FirstCome:
        return car.arrived;
    case Rule::EarliestPromise:
        return car.promised;
    case Rule::LeastSlack:
        return slack;
    case Rule::TardinessCost: {
        constexpr double lookAhead = 2;
        const double urgency = std::exp(-std::max(0.0, slack) / (lookAhead * meanMinutes));
        return -car.weight / std::max(1.0, left) * urgency;
    }
    }
    return 0;
}

} // namespace

ShopPlan dispatched(const ShopIndex& index, Rule rule, std::span<const Fixed> fixed, Choice choice)
{
    const Shop& shop = index.shop();
    const int n = static_cast<int>(shop.jobs.size());
    ShopScheduler scheduler(index, choice);
    scheduler.begin(fixed);
    double meanMinutes = 1;
    for (int i = 0; i < n; ++i)
        meanMinutes += double(shop.jobs[at(i)].minutes.usual + index.tail(i)) / n;

    struct Ready
    {
        int job = 0;
        Placement fit;
    };
    std::vector<Ready> ready;
    std::vector<int> open(at(n), 0);
    const auto offer = [&](int job) { ready.push_back({job, scheduler.fit(job)}); };
    for (int i = 0; i < n; ++i) {
        for (const int before : index.precedence().before(i))
            open[at(i)] += scheduler.isPlaced(before) ? 0 : 1;
        if (open[at(i)] == 0 && !scheduler.isPlaced(i))
            offer(i);
    }
    while (!ready.empty()) {
        // The earliest that anything can begin; of what can begin then, what the rule puts first.
        std::size_t chosen = 0;
        double first = 0;
        PlanMinute start = never;
        for (std::size_t k = 0; k < ready.size(); ++k) {
            if (ready[k].fit.start > start)
                continue;
            const double rank =
                priority(index, ready[k].job, rule, ready[k].fit.start, meanMinutes);
            if (ready[k].fit.start < start || k == 0 || rank < first) {
                chosen = k;
                first = rank;
                start = ready[k].fit.start;
            }
        }
        const Ready taken = ready[chosen];
        ready[chosen] = ready.back();
        ready.pop_back();
        const int car = shop.jobs[at(taken.job)].car;
        std::vector<int> placed; // with what the car stays in its bay for
        for (const int job : index.jobsOf(car)) {
            if (!scheduler.isPlaced(job))
                placed.push_back(job);
        }
        scheduler.place(taken.job);
        std::erase_if(placed, [&scheduler](int job) { return !scheduler.isPlaced(job); });
        std::erase_if(ready, [&](const Ready& one) { return scheduler.isPlaced(one.job); });
        for (Ready& other : ready) {
            const auto isInWay = [&](int job) {
                const Placement& one = scheduler.placement(job);
                return other.fit.person == one.person ||
                       (other.fit.bay >= 0 && other.fit.bay == one.bay);
            };
            if (shop.jobs[at(other.job)].car == car || std::ranges::any_of(placed, isInWay))
                other.fit = scheduler.fit(other.job);
        }
        for (const int job : placed) {
            for (const int next : index.precedence().after(job)) {
                if (--open[at(next)] == 0 && !scheduler.isPlaced(next))
                    offer(next);
            }
        }
    }
    ShopPlan plan = scheduler.plan();
    plan.schedules = 1;
    return plan;
}

} // namespace ramplight::planning
