// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shop.h"
#include "planning/indexing.h"

namespace ramplight::planning {

namespace {

bool isIn(int i, std::size_t size)
{
    return i >= 0 && static_cast<std::size_t>(i) < size;
}

bool hasCycle(const Shop& shop)
{
    const std::size_t n = shop.jobs.size();
    std::vector<std::vector<std::size_t>> next(n);
    std::vector<std::size_t> open(n, 0);
    for (std::size_t i = 0; i < n; ++i) {
        open[i] = shop.jobs[i].after.size();
        for (const int before : shop.jobs[i].after)
            next[static_cast<std::size_t>(before)].push_back(i);
    }
    std::vector<std::size_t> done;
    for (std::size_t i = 0; i < n; ++i) {
        if (open[i] == 0)
            done.push_back(i);
    }
    for (std::size_t k = 0; k < done.size(); ++k) {
        for (const std::size_t i : next[done[k]]) {
            if (--open[i] == 0)
                done.push_back(i);
        }
    }
    return done.size() != n;
}

} // namespace

QStringList faultsOf(const Shop& shop)
{
    QStringList faults;
    if (shop.people.size() > 64)
        faults.append(QStringLiteral("more than 64 people"));
    const auto checkGroups = [&faults](const std::vector<std::vector<int>>& groups,
                                       std::size_t size, const QString& what) {
        for (const std::vector<int>& group : groups) {
            for (const int member : group) {
                if (!isIn(member, size))
                    faults.append(QStringLiteral("there is no %1 %2").arg(what).arg(member));
            }
        }
    };
    checkGroups(shop.crews, shop.people.size(), QStringLiteral("person"));
    checkGroups(shop.bayGroups, shop.bays.size(), QStringLiteral("bay"));
    for (const ShopJob& job : shop.jobs) {
        const auto fault = [&](const QString& words) {
            faults.append(QStringLiteral("%1: %2").arg(job.title, words));
        };
        if (!isIn(job.car, shop.cars.size()))
            fault(QStringLiteral("there is no car %1").arg(job.car));
        if (job.crew >= 0 && !isIn(job.crew, shop.crews.size()))
            fault(QStringLiteral("there is no crew %1").arg(job.crew));
        if (job.bays >= 0 && !isIn(job.bays, shop.bayGroups.size()))
            fault(QStringLiteral("there is no group of bays %1").arg(job.bays));
        if (job.minutes.usual < 0 || job.waitMinutes < 0)
            fault(QStringLiteral("it takes less than no time"));
        for (const std::vector<int>* others :
             {&job.after, &job.apart, &job.checks, &job.staysFor}) {
            for (const int other : *others) {
                if (!isIn(other, shop.jobs.size()))
                    fault(QStringLiteral("there is no job %1").arg(other));
                else if (shop.jobs[static_cast<std::size_t>(other)].car != job.car)
                    fault(QStringLiteral("job %1 is another car's").arg(other));
            }
        }
        for (const int other : job.staysFor) {
            if (isIn(other, shop.jobs.size()) &&
                !contains(shop.jobs[static_cast<std::size_t>(other)].after,
                          static_cast<int>(&job - shop.jobs.data())))
                fault(QStringLiteral("the car stays for job %1, which does not wait for it")
                          .arg(other));
        }
        if (job.running && (!isIn(job.running->person, shop.people.size()) ||
                            (job.running->bay >= 0 && !isIn(job.running->bay, shop.bays.size()))))
            fault(QStringLiteral("it is in hand with nobody or nowhere"));
    }
    if (faults.isEmpty() && hasCycle(shop))
        faults.append(QStringLiteral("jobs wait for each other"));
    return faults;
}

int bayKeptFor(const Shop& shop, const ShopPlan& plan, int job)
{
    const ShopJob& one = shop.jobs[static_cast<std::size_t>(job)];
    if (one.keepsCar)
        return shop.cars[static_cast<std::size_t>(one.car)].bay;
    for (const int before : one.after) {
        if (contains(shop.jobs[static_cast<std::size_t>(before)].staysFor, job))
            return plan.jobs[static_cast<std::size_t>(before)].bay;
    }
    return -1;
}

} // namespace ramplight::planning
