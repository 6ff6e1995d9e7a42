// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/houseplan.h"

#include "planning/indexing.h"
#include "planning/shopreasons.h"
#include "planning/unplanned.h"

#include <algorithm>

namespace ramplight::planning {

namespace {

/// The number of a job in the previous plan; -1: it was not in it. What was foreseen has no id yet,
/// but there is one of its name on a car.
int sameJob(const HousePlan& previous, const HousePlan& now, int job)
{
    const OperationId id = now.house.jobs[at(job)];
    if (const int known = previous.numberOf(now.carOf(job), id); known >= 0)
        return known;
    const int car = previous.numberOf(now.carOf(job));
    for (std::size_t old = 0; car >= 0 && old < previous.house.jobs.size(); ++old) {
        const ShopJob& was = previous.house.shop.jobs[old];
        if (was.car == car && was.title == now.house.shop.jobs[at(job)].title &&
            (previous.house.jobs[old].isNull() || id.isNull()))
            return static_cast<int>(old);
    }
    return -1;
}

/// The old placements, by job of the new shop and in its minutes.
std::vector<Placement> carriedOver(const HousePlan& now, const HousePlan& previous)
{
    std::vector<Placement> placements(now.house.jobs.size());
    const PlanMinute shift = now.clock().minuteOf(previous.start);
    for (std::size_t job = 0; job < placements.size(); ++job) {
        const int old = sameJob(previous, now, static_cast<int>(job));
        if (old < 0 || !previous.plan.jobs[at(old)].isPlanned())
            continue;
        const Placement& was = previous.plan.jobs[at(old)];
        const auto same = [](const auto& from, int number, const auto& among) {
            return number < 0 ? -1 : placeIn(among, from[at(number)]);
        };
        placements[job] = {same(previous.house.people, was.person, now.house.people),
                           same(previous.house.bays, was.bay, now.house.bays), was.start + shift,
                           was.end + shift, was.clear + shift};
    }
    return placements;
}

bool queuesAlike(const Reason& first, const Reason& second)
{
    return first.wait == second.wait && first.other >= 0 && second.other >= 0 &&
           ((first.wait == WaitFor::Person && first.person == second.person) ||
            (first.wait == WaitFor::Bay && first.bay == second.bay));
}

/// At most three names, and how many more.
QString shortened(const QStringList& names)
{
    constexpr qsizetype named = 3;
    const QString some = names.mid(0, named).join(QStringLiteral(", "));
    return names.size() <= named
               ? some
               : QStringLiteral("%1 and %2 more").arg(some).arg(names.size() - named);
}

std::function<QString(PlanMinute)> sayer(const PlanClock& clock, const SayTime& time)
{
    return [clock, time](PlanMinute minute) {
        return time ? time(clock.momentOf(minute)) : clock.words(minute);
    };
}

/// Why nobody does what stayed unplanned without waiting for something else that did.
std::map<int, QString> nobodyFor(const HousePlan& made, const HouseInput& input)
{
    std::map<int, QString> nobody;
    for (int job = 0; job < static_cast<int>(made.plan.jobs.size()); ++job) {
        if (reasonOf(made.house.shop, made.plan, job).wait != WaitFor::NoOne)
            continue;
        const auto car = std::ranges::find(input.cars, made.carOf(job), &CarState::id);
        if (car == input.cars.end())
            continue;
        if (const Operation* operation = car->operation(made.house.jobs[at(job)]))
            nobody[job] = whyNobody(*car, *operation, input.site, made.clock().dayOf(0));
    }
    return nobody;
}

std::vector<int> inOrder(const HousePlan& plan, int Placement::*where, int number)
{
    std::vector<int> jobs;
    for (std::size_t job = 0; job < plan.plan.jobs.size(); ++job) {
        const Placement& one = plan.plan.jobs[job];
        if (one.isPlanned() && one.*where == number && one.end > 0)
            jobs.push_back(static_cast<int>(job));
    }
    std::stable_sort(jobs.begin(), jobs.end(), [&plan](int a, int b) {
        return plan.plan.jobs[at(a)].start < plan.plan.jobs[at(b)].start;
    });
    return jobs;
}

} // namespace

int HousePlan::numberOf(const CarId& car) const
{
    return placeIn(house.cars, car);
}

int HousePlan::numberOf(const CarId& car, OperationId operation) const
{
    const int number = numberOf(car);
    for (std::size_t job = 0; number >= 0 && !operation.isNull() && job < house.jobs.size();
         ++job) {
        if (house.shop.jobs[job].car == number && house.jobs[job] == operation)
            return static_cast<int>(job);
    }
    return -1;
}

const CarId& HousePlan::carOf(int job) const
{
    return house.cars[at(house.shop.jobs[at(job)].car)];
}

bool HousePlan::isForeseen(int job) const
{
    return house.jobs[at(job)].isNull();
}

bool HousePlan::isLate(int car) const
{
    return forecasts[at(car)].ready50 > house.shop.cars[at(car)].promised;
}

bool HousePlan::hasNoWork(int car) const
{
    return std::ranges::none_of(house.shop.jobs,
                                [car](const ShopJob& job) { return job.car == car; });
}

int HousePlan::stuckOn(int car) const
{
    for (const Reason& reason : reasonsFor(house.shop, plan, car)) {
        if (reason.wait == WaitFor::NoOne)
            return reason.job;
    }
    return -1;
}

QStringList HousePlan::whyWords(int car, const SayTime& time, int steps) const
{
    const auto say = sayer(clock(), time);
    const std::vector<Reason> chain = reasonsFor(house.shop, plan, car, steps);
    const auto carOfOther = [this](const Reason& reason) {
        return house.shop.cars[at(house.shop.jobs[at(reason.other)].car)].name;
    };
    QStringList why;
    for (std::size_t i = 0; i < chain.size(); ++i) {
        const Reason& reason = chain[i];
        if (const auto found = nobody.find(reason.job); found != nobody.end()) {
            why.append(
                QStringLiteral("%1: %2").arg(house.shop.jobs[at(reason.job)].title, found->second));
            continue;
        }
        why.append(words(house.shop, reason, say, car));
        // A queue before one person or bay is said once, and shortly.
        QStringList queue;
        const QString first = reason.other < 0 ? QString() : carOfOther(reason);
        while (i + 1 < chain.size() && queuesAlike(reason, chain[i + 1])) {
            ++i;
            queue.append(carOfOther(chain[i]));
        }
        queue.removeDuplicates();
        queue.removeAll(first);
        if (!queue.isEmpty())
            why.last() += QStringLiteral(", itself behind %1").arg(shortened(queue));
    }
    return why;
}

QString HousePlan::waitWords(int job, const SayTime& time) const
{
    if (house.shop.jobs[at(job)].running)
        return {};
    if (const auto found = nobody.find(job); found != nobody.end())
        return found->second;
    return wordsBehindTitle(house.shop, reasonOf(house.shop, plan, job), sayer(clock(), time));
}

QString HousePlan::ownWaitWords(int job, const SayTime& time) const
{
    if (house.shop.jobs[at(job)].running)
        return {};
    return wordsToPerson(house.shop, reasonOf(house.shop, plan, job), sayer(clock(), time));
}

std::vector<int> HousePlan::jobsOfPerson(int person) const
{
    return inOrder(*this, &Placement::person, person);
}

std::vector<int> HousePlan::jobsOfBay(int bay) const
{
    return inOrder(*this, &Placement::bay, bay);
}

std::vector<int> HousePlan::jobsOf(PersonId person) const
{
    const int number = placeIn(house.people, person);
    return number < 0 ? std::vector<int>() : jobsOfPerson(number);
}

std::vector<int> HousePlan::jobsOf(BayId bay) const
{
    const int number = placeIn(house.bays, bay);
    return number < 0 ? std::vector<int>() : jobsOfBay(number);
}

HousePlan planHouse(const HouseInput& input, Moment now, const PlanEffort& effort,
                    const HousePlan* previous)
{
    // Whole minutes, so that what begins at eight is said to begin at eight.
    const Moment start{now.ms - now.ms % 60'000};
    HousePlan made{.start = start,
                   .rules = input.site.rules,
                   .house =
                       shopOf(input.cars, input.site, input.calendar, start, input.catalogue.get()),
                   .plan = {},
                   .forecasts = {},
                   .calendar = input.calendar};
    Shop& shop = made.house.shop;
    made.faults = faultsOf(shop);
    if (!made.faults.isEmpty()) {
        made.plan.jobs.resize(shop.jobs.size());
        made.plan.ready.assign(shop.cars.size(), never);
        made.forecasts.resize(shop.cars.size());
        return made;
    }
    const MinutesModel model(input.records);
    const ShopChances chances = chancesOf(shop, model, made.house.keys);
    shop = withExpectedMinutes(std::move(shop), chances);
    std::int64_t asked = 0;
    ShopSearch search{
        .budget = effort.search, .seed = effort.seed, .steadyMinutes = effort.steadyMinutes};
    made.schedulesAtMost = effort.search.schedules;
    if (effort.search.stop)
        search.budget.stop = [&] {
            ++asked;
            if (!effort.search.stop())
                return false;
            made.stoppedAt = made.stoppedAt == 0 ? asked : made.stoppedAt;
            return true;
        };
    if (previous != nullptr && previous->faults.isEmpty())
        search.previous = carriedOver(made, *previous);
    made.plan = planShop(shop, search);
    made.forecasts = forecast(shop, made.plan, chances, effort.runs, effort.seed);
    if (const WorkTimes* hours = longestHours(shop))
        for (std::size_t car = 0; car < made.forecasts.size(); ++car)
            made.forecasts[car] = input.hindsight.corrected(std::move(made.forecasts[car]), *hours,
                                                            shop.cars[car].promised);
    made.nobody = nobodyFor(made, input);
    return made;
}

Budget asThoroughAs(const HousePlan& plan, const std::function<bool()>& stop)
{
    // The search copies its budget for its sketches; they count together.
    const auto asked = std::make_shared<std::int64_t>(0);
    return {.schedules = plan.schedulesAtMost, .stop = [asked, stop, last = plan.stoppedAt] {
                ++*asked;
                return (last > 0 && *asked >= last) || (stop && stop());
            }};
}

std::vector<CarShift> shiftsBetween(const HousePlan& before, const HousePlan& after,
                                    int leastMinutes)
{
    std::vector<CarShift> shifts;
    for (std::size_t car = 0; car < before.house.cars.size(); ++car) {
        const int now = after.numberOf(before.house.cars[car]);
        if (now < 0)
            continue;
        const PlanMinute was = before.forecasts[car].ready50;
        const PlanMinute is = after.forecasts[at(now)].ready50;
        // What chance draws differs between two plans in which the car's own times do not.
        const PlanMinute moved = after.plan.ready[at(now)] - before.plan.ready[car];
        if (std::abs(moved) >= leastMinutes && std::abs(is - was) >= leastMinutes)
            shifts.push_back({before.house.cars[car], was, is, before.forecasts[car].ready90,
                              after.forecasts[at(now)].ready90,
                              before.isLate(static_cast<int>(car)), after.isLate(now)});
    }
    std::stable_sort(shifts.begin(), shifts.end(), [](const CarShift& a, const CarShift& b) {
        return a.after - a.before > b.after - b.before;
    });
    return shifts;
}

} // namespace ramplight::planning
