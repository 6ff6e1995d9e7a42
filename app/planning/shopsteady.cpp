// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopsteady.h"

#include "planning/indexing.h"
#include "planning/shopscheduler.h"

#include <algorithm>
#include <iterator>
#include <span>

namespace ramplight::planning {

namespace {

/// Where a job was to begin, or the first minute from now on at which that person is at work: what
/// was to begin a minute ago and has not been taken up is still theirs.
PlanMinute startNow(const Shop& shop, const Placement& was)
{
    if (was.start >= 0)
        return was.start;
    return was.person < 0 ? 0 : shop.people[at(was.person)].times.nextWork(0);
}

/// Puts a job where it was; what follows work that begins later than it was to, follows it.
bool placeSteadily(ShopScheduler& scheduler, int jobs, int job, const Placement& was,
                   PlanMinute start, PlanMinute slip)
{
    std::vector<PlanMinute> starts = {start};
    for (int one = 0; one < jobs && slip > 0; ++one) {
        const Placement& placed = scheduler.placement(one);
        for (const PlanMinute over : {placed.end, placed.clear}) {
            if (scheduler.isPlaced(one) && over > start && over <= start + slip)
                starts.push_back(over);
        }
    }
    std::ranges::sort(starts);
    return std::ranges::any_of(starts, [&](PlanMinute from) {
        Placement there = was;
        there.start = from;
        return scheduler.placeAt(job, there);
    });
}

} // namespace

std::vector<Fixed> steadyJobs(const ShopIndex& index, const ShopSearch& search)
{
    const Shop& shop = index.shop();
    std::vector<Fixed> steady;
    if (search.previous.size() != shop.jobs.size())
        return steady;
    std::vector<int> soon;
    PlanMinute slip = 0;
    for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
        const Placement& was = search.previous[i];
        // What nobody took up for as long as a plan is kept is planned anew.
        if (shop.jobs[i].running || was.start >= search.steadyMinutes ||
            was.start <= -search.steadyMinutes)
            continue;
        soon.push_back(static_cast<int>(i));
        if (const PlanMinute start = startNow(shop, was); start != never)
            slip = std::max(slip, start - was.start);
    }
    std::stable_sort(soon.begin(), soon.end(), [&search](int a, int b) {
        return search.previous[at(a)].start < search.previous[at(b)].start;
    });
    ShopScheduler scheduler(index);
    scheduler.begin({});
    for (const int job : soon) {
        const std::span<const int> after = index.precedence().before(job);
        const bool isOpen = std::all_of(after.begin(), after.end(),
                                        [&](int before) { return scheduler.isPlaced(before); });
        if (!isOpen || scheduler.isPlaced(job))
            continue;
        const std::vector<int>& jobs = index.jobsOf(shop.jobs[at(job)].car);
        std::vector<int> placed;
        std::ranges::copy_if(jobs, std::back_inserter(placed),
                             [&](int one) { return !scheduler.isPlaced(one); });
        const Placement& was = search.previous[at(job)];
        if (!placeSteadily(scheduler, static_cast<int>(shop.jobs.size()), job, was,
                           startNow(shop, was), slip))
            continue;
        for (const int one : placed) {
            if (scheduler.isPlaced(one))
                steady.push_back({one, scheduler.placement(one)});
        }
    }
    return steady;
}

} // namespace ramplight::planning
