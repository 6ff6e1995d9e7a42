// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopreasons.h"
#include "planning/indexing.h"

#include <algorithm>

namespace ramplight::planning {

namespace {

PlanMinute leavesBay(const ShopJob& job, const Placement& placement)
{
    return job.waitsInBay ? placement.clear : placement.end;
}

/// Whichever of what a job waits for is over last.
class Latest
{
public:
    void offer(const Reason& reason)
    {
        if (reason.until > m_latest.until || m_latest.wait == WaitFor::Nothing)
            m_latest = reason.until > 0 ? reason : m_latest;
    }
    [[nodiscard]] const Reason& reason() const { return m_latest; }

private:
    Reason m_latest;
};

} // namespace

Reason reasonOf(const Shop& shop, const ShopPlan& plan, int number)
{
    const ShopJob& job = shop.jobs[at(number)];
    const Placement& here = plan.jobs[at(number)];
    const Reason base{.job = number, .person = here.person, .bay = here.bay};
    const auto with = [&base](WaitFor wait, PlanMinute until, int other) {
        Reason reason = base;
        reason.wait = wait;
        reason.until = until;
        reason.other = other;
        return reason;
    };
    if (!here.isPlanned()) {
        for (const int before : job.after) {
            if (!plan.jobs[at(before)].isPlanned())
                return with(WaitFor::EarlierJob, never, before);
        }
        return with(WaitFor::NoOne, never, -1);
    }
    if (job.running)
        return with(WaitFor::InHand, 0, -1);
    Latest latest;
    latest.offer(with(WaitFor::Arrival, shop.cars[at(job.car)].from, -1));
    latest.offer(with(WaitFor::Part, job.notBefore, -1));
    for (const int before : job.after)
        latest.offer(with(WaitFor::EarlierJob, plan.jobs[at(before)].clear, before));
    const PlanMinute ownEarliest = latest.reason().until;
    for (int other = 0; other < static_cast<int>(shop.jobs.size()); ++other) {
        const ShopJob& one = shop.jobs[at(other)];
        const Placement& there = plan.jobs[at(other)];
        if (other == number || !there.isPlanned() || there.start >= here.start)
            continue;
        const auto blocks = [&](PlanMinute until) {
            return until <= here.start && until > ownEarliest;
        };
        if (here.person >= 0 && there.person == here.person && blocks(there.end))
            latest.offer(with(WaitFor::Person, there.end, other));
        const bool sameGuest = one.car == job.car && one.usesCar && job.usesCar;
        const PlanMinute leaves = leavesBay(one, there);
        if (here.bay >= 0 && there.bay == here.bay && !sameGuest && blocks(leaves))
            latest.offer(with(WaitFor::Bay, leaves, other));
        if (here.bay >= 0 && one.car != job.car && blocks(there.end) &&
            bayKeptFor(shop, plan, other) == here.bay)
            latest.offer(with(WaitFor::Bay, there.end, other));
        if (one.car != job.car)
            continue;
        const bool apart = contains(one.apart, number) || contains(job.apart, other);
        const bool away = sameGuest && here.bay >= 0 && there.bay >= 0 && there.bay != here.bay;
        if ((apart || away) && blocks(away ? leaves : there.end))
            latest.offer(with(WaitFor::Elsewhere, away ? leaves : there.end, other));
    }
    Reason reason = latest.reason();
    if (reason.until < here.start && here.person >= 0) {
        // Whoever is at work all the while is not waited for: it only stayed where it was planned.
        const PlanMinute atWork =
            shop.people[at(here.person)].times.minutesIn({reason.until, here.start});
        if (atWork < job.minutes.usual && atWork < here.start - reason.until)
            return with(WaitFor::WorkTimes, here.start, reason.other);
    }
    if (reason.job < 0)
        reason = with(WaitFor::Nothing, 0, -1);
    return reason;
}

namespace {

QString nameOf(const Shop& shop, int job)
{
    return shop.cars[at(shop.jobs[at(job)].car)].name;
}

bool isOfSameCar(const Shop& shop, const Reason& reason)
{
    return shop.jobs[at(reason.job)].car == shop.jobs[at(reason.other)].car;
}

/// What has a person or a bay first: another car, or other work of the same one.
QString firstInTurn(const Shop& shop, const Reason& reason)
{
    return isOfSameCar(shop, reason)
               ? QStringLiteral("after %1 on the same car").arg(shop.jobs[at(reason.other)].title)
               : QStringLiteral("behind %1").arg(nameOf(shop, reason.other));
}

} // namespace

std::vector<Reason> reasonsFor(const Shop& shop, const ShopPlan& plan, int car, int steps)
{
    int last = -1;
    for (int i = 0; i < static_cast<int>(shop.jobs.size()); ++i) {
        if (shop.jobs[at(i)].car == car &&
            (last < 0 || plan.jobs[at(i)].clear > plan.jobs[at(last)].clear))
            last = i;
    }
    std::vector<Reason> chain;
    for (int job = last; job >= 0 && static_cast<int>(chain.size()) < steps;) {
        chain.push_back(reasonOf(shop, plan, job));
        job = chain.back().other;
    }
    return chain;
}

QString words(const Shop& shop, const Reason& reason,
              const std::function<QString(PlanMinute)>& time, int car)
{
    const ShopJob& job = shop.jobs[at(reason.job)];
    const QString said =
        reason.wait == WaitFor::NoOne
            ? QStringLiteral("nobody can do %1").arg(job.title)
            : QStringLiteral("%1 %2").arg(job.title, wordsBehindTitle(shop, reason, time));
    return job.car == car ? said : QStringLiteral("%1: %2").arg(nameOf(shop, reason.job), said);
}

QString wordsBehindTitle(const Shop& shop, const Reason& reason,
                         const std::function<QString(PlanMinute)>& time)
{
    const QString until = reason.until == never ? QString() : time(reason.until);
    switch (reason.wait) {
    case WaitFor::Nothing:
        return QStringLiteral("can begin now");
    case WaitFor::InHand:
        return QStringLiteral("is in hand");
    case WaitFor::EarlierJob: {
        const QString earlier = shop.jobs[at(reason.other)].title;
        if (reason.until == never)
            return QStringLiteral("waits for %1").arg(earlier);
        return QStringLiteral("waits for %1 until %2").arg(earlier, until);
    }
    case WaitFor::Part:
        return QStringLiteral("waits for its part until %1").arg(until);
    case WaitFor::Arrival:
        return QStringLiteral("waits for the car until %1").arg(until);
    case WaitFor::Person:
        return QStringLiteral("waits for %1 until %2, %3")
            .arg(shop.people[at(reason.person)].name, until, firstInTurn(shop, reason));
    case WaitFor::Bay:
        return QStringLiteral("waits for %1 until %2, %3")
            .arg(shop.bays[at(reason.bay)].name, until, firstInTurn(shop, reason));
    case WaitFor::Elsewhere:
        return QStringLiteral("waits until %1 for %2, which does not go together with it")
            .arg(until, shop.jobs[at(reason.other)].title);
    case WaitFor::WorkTimes:
        return QStringLiteral("waits until %1 for %2 to be at work")
            .arg(until, shop.people[at(reason.person)].name);
    case WaitFor::NoOne:
        return QStringLiteral("can be done by nobody");
    }
    return {};
}

QString wordsToPerson(const Shop& shop, const Reason& reason,
                      const std::function<QString(PlanMinute)>& time)
{
    if (reason.wait == WaitFor::Person) {
        const QString first = shop.jobs[at(reason.other)].title;
        return isOfSameCar(shop, reason)
                   ? QStringLiteral("after %1 on this car").arg(first)
                   : QStringLiteral("after %1 on %2").arg(first, nameOf(shop, reason.other));
    }
    if (reason.wait == WaitFor::WorkTimes)
        return QStringLiteral("waits until %1, when you are at work for long enough")
            .arg(time(reason.until));
    return wordsBehindTitle(shop, reason, time);
}

} // namespace ramplight::planning
