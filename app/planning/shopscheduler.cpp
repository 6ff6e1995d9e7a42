// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopscheduler.h"
#include "planning/dice.h"
#include "planning/indexing.h"

#include <algorithm>
#include <utility>

namespace ramplight::planning {

namespace {

/// What cannot be planned still counts, and more than anything that can.
constexpr int beyondHorizon = 100'000;

std::uint64_t printOf(int what, int who, int where, int when)
{
    const auto word = [](int value) {
        return static_cast<std::uint64_t>(static_cast<std::uint32_t>(value));
    };
    return mixed((word(what) << 32 | word(when)) + mixed(word(who) << 32 | word(where)));
}

} // namespace

ShopScheduler::ShopScheduler(const ShopIndex& index, Choice choice)
    : m_index(&index)
    , m_choice(choice)
    , m_placements(index.shop().jobs.size())
    , m_placed(index.shop().jobs.size(), 0)
    , m_busy(index.shop().people.size())
    , m_stays(index.shop().bays.size())
    , m_held(index.holds().size())
    , m_checkers(index.m_checks.size(), 0)
    , m_readyAtLeast(index.shop().cars.size(), 0)
    , m_carFree(index.shop().cars.size(), 0)
    , m_lastBay(index.shop().cars.size(), -1)
{
}

void ShopScheduler::begin(std::span<const Fixed> fixed)
{
    const Shop& shop = m_index->shop();
    std::fill(m_placed.begin(), m_placed.end(), char{0});
    for (std::vector<Span>& busy : m_busy)
        busy.clear();
    for (std::vector<Stay>& stays : m_stays)
        stays.clear();
    for (std::size_t check = 0; check < m_checkers.size(); ++check)
        m_checkers[check] =
            m_index->m_masks[at(m_index->m_jobs[at(m_index->m_checks[check])].crew)];
    std::fill(m_held.begin(), m_held.end(), Held{});
    m_cost = 0;
    m_print = 0;
    for (std::size_t c = 0; c < shop.cars.size(); ++c) {
        m_readyAtLeast[c] = shop.cars[c].from;
        m_carFree[c] = 0;
        m_lastBay[c] = shop.cars[c].bay;
        for (const int job : m_index->m_jobsOf[c]) {
            const ShopJob& one = shop.jobs[at(job)];
            m_readyAtLeast[c] =
                std::max(m_readyAtLeast[c], std::max(shop.cars[c].from, one.notBefore) +
                                                (one.running ? 0 : one.minutes.usual) +
                                                one.waitMinutes + m_index->tail(job));
        }
        m_cost += latenessOf(shop.cars[c], m_readyAtLeast[c]);
        m_cost += shop.objective.readyMinute * double(m_readyAtLeast[c]);
    }
    for (const Fixed& one : m_index->m_inHand)
        put(one.job, one.placement);
    // Where a car may not be moved, its bay is not to be had before it is done.
    const std::vector<Hold>& holds = m_index->holds();
    for (std::size_t h = 0; h < holds.size(); ++h) {
        if (holds[h].opener < 0)
            m_held[h] = {shop.cars[at(holds[h].car)].bay, {0, never}};
    }
    // What was fixed beside the work that this takes must still fit, whoever is chosen otherwise.
    const Choice choice = std::exchange(m_choice, Choice::FirstDone);
    for (int hold = nextOpen(); hold >= 0; hold = nextOpen())
        finish(hold);
    for (const Fixed& one : fixed) {
        if (!m_placed[at(one.job)])
            put(one.job, one.placement);
    }
    for (int hold = nextOpen(); hold >= 0; hold = nextOpen())
        finish(hold);
    m_choice = choice;
}

// A stay without an end so far, if possible one whose work needs no bay of another such; -1: none.
int ShopScheduler::nextOpen() const
{
    const std::vector<Hold>& holds = m_index->holds();
    const auto isOpen = [this](std::size_t h) {
        return m_held[h].bay >= 0 && m_held[h].span.to == never;
    };
    int open = -1;
    for (std::size_t h = 0; h < holds.size(); ++h) {
        if (!isOpen(h))
            continue;
        const auto isFree = [&](int bay) {
            for (std::size_t other = 0; other < holds.size(); ++other) {
                if (isOpen(other) && m_held[other].bay == bay && holds[other].car != holds[h].car)
                    return false;
            }
            return true;
        };
        const auto canBeDone = [&](int job) {
            const int bays = m_index->m_jobs[at(job)].bays;
            return m_placed[at(job)] || bays < 0 ||
                   std::ranges::any_of(m_index->shop().bayGroups[at(bays)], isFree);
        };
        if (std::ranges::all_of(holds[h].block, canBeDone))
            return static_cast<int>(h);
        open = open < 0 ? static_cast<int>(h) : open;
    }
    return open;
}

// All that the car stays for, and with it the end of its stay.
void ShopScheduler::finish(int number)
{
    const Hold& hold = m_index->holds()[at(number)];
    for (const int job : hold.block)
        place(job);
    PlanMinute until = hold.until;
    for (const int job : hold.ends) {
        if (m_placements[at(job)].isPlanned())
            until = std::max(until, m_placements[at(job)].end);
    }
    m_held[at(number)].span.to = until;
}

PlanMinute ShopScheduler::heldUntil(int number, Span stay, int bay) const
{
    const ShopIndex::Packed& job = m_index->m_jobs[at(number)];
    PlanMinute until = stay.from;
    for (std::size_t h = 0; h < m_held.size(); ++h) {
        const Held& held = m_held[h];
        if (held.bay < 0 || held.span.from >= stay.to || held.span.to <= stay.from)
            continue;
        const bool isOwn = m_index->holds()[h].car == job.car;
        if (isOwn ? job.usesCar && held.bay != bay : held.bay == bay)
            until = std::max(until, held.span.to);
    }
    return until;
}

void ShopScheduler::place(int job)
{
    if (m_placed[at(job)])
        return;
    put(job, fit(job));
    const int hold = m_index->m_jobs[at(job)].opens;
    if (hold >= 0 && m_held[at(hold)].bay >= 0)
        finish(hold);
}

bool ShopScheduler::placeAt(int number, const Placement& wanted)
{
    const Shop& shop = m_index->shop();
    const ShopJob& job = shop.jobs[at(number)];
    if (!wanted.isPlanned() || wanted.start < earliest(number))
        return false;
    if ((wanted.person < 0) != (job.crew < 0) || (wanted.bay < 0) != (job.bays < 0))
        return false;
    Span span = {wanted.start, wanted.start + job.minutes.usual};
    if (wanted.person >= 0) {
        if (((mayDo(number) >> wanted.person) & 1) == 0)
            return false;
        span = shop.people[at(wanted.person)].times.fit(wanted.start, job.minutes.usual, job.pause);
        const int worked = shop.people[at(wanted.person)].times.workedBefore(span.from);
        if (span.from != wanted.start ||
            freeFrom(wanted.person, worked, job.minutes.usual) != worked)
            return false;
    }
    Span stay = span;
    if (wanted.bay >= 0) {
        if (!contains(shop.bayGroups[at(job.bays)], wanted.bay))
            return false;
        stay.to = m_index->m_jobs[at(number)].opens >= 0 ? never
                  : job.waitsInBay                       ? stay.to + job.waitMinutes
                                                         : stay.to;
        if (heldUntil(number, stay, wanted.bay) != span.from)
            return false;
        if (bayTakenUntil(wanted.bay, stay, job.usesCar ? job.car : ~number, 0) != span.from)
            return false;
    }
    if (carBusyUntil(number, stay, wanted.bay) != span.from)
        return false;
    put(number, {wanted.person, wanted.bay, span.from, span.to, span.to + job.waitMinutes});
    const int hold = m_index->m_jobs[at(number)].opens;
    if (hold >= 0 && m_held[at(hold)].bay >= 0)
        finish(hold);
    return true;
}

void ShopScheduler::keepBusy(const Placement& placement)
{
    if (placement.person == m_index->m_crowd)
        return;
    const WorkTimes& times = m_index->shop().people[at(placement.person)].times;
    const Span span = {times.workedBefore(placement.start), times.workedBefore(placement.end)};
    if (span.to == span.from)
        return;
    std::vector<Span>& busy = m_busy[at(placement.person)];
    auto next = busy.end();
    while (next != busy.begin() && std::prev(next)->from > span.from)
        --next;
    const bool joinsBefore = next != busy.begin() && std::prev(next)->to == span.from;
    const bool joinsAfter = next != busy.end() && next->from == span.to;
    if (joinsBefore && joinsAfter) {
        std::prev(next)->to = next->to;
        busy.erase(next);
    } else if (joinsBefore) {
        std::prev(next)->to = span.to;
    } else if (joinsAfter) {
        next->from = span.from;
    } else {
        busy.insert(next, span);
    }
}

void ShopScheduler::put(int number, const Placement& placement)
{
    const Shop& shop = m_index->shop();
    const ShopIndex::Packed& job = m_index->m_jobs[at(number)];
    m_placements[at(number)] = placement;
    m_placed[at(number)] = 1;
    m_print += printOf(number, placement.person, placement.bay, placement.start);
    PlanMinute ready = m_index->horizon() + beyondHorizon;
    if (placement.isPlanned()) {
        ready = placement.clear + m_index->tail(number);
        if (placement.person >= 0)
            keepBusy(placement);
        if (placement.person >= 0) {
            for (int k = job.firstChecked; k < job.endChecked; ++k)
                m_checkers[at(m_index->m_checkedBy[at(k)])] &=
                    ~(std::uint64_t{1} << placement.person);
        }
        if (job.opens >= 0 && placement.bay >= 0)
            m_held[at(job.opens)] = {placement.bay, {placement.start, never}};
        PlanMinute& carFree = m_carFree[at(job.car)];
        carFree = std::max(carFree, placement.end + job.bayMinutes);
        if (placement.bay >= 0) {
            std::vector<Stay>& stays = m_stays[at(placement.bay)];
            const Span span = {placement.start, placement.end + job.bayMinutes};
            if (span.to > span.from) {
                auto next = stays.end();
                while (next != stays.begin() && std::prev(next)->span.from > span.from)
                    --next;
                stays.insert(next, {span, job.guest});
            }
            int& stands = m_lastBay[at(job.car)];
            if (job.usesCar && stands != placement.bay) {
                m_print += printOf(~job.car, 0, placement.bay, 0) - printOf(~job.car, 0, stands, 0);
                stands = placement.bay;
            }
        }
    }
    PlanMinute& atLeast = m_readyAtLeast[at(job.car)];
    if (ready > atLeast) {
        const ShopCar& car = shop.cars[at(job.car)];
        m_cost += latenessOf(car, ready) - latenessOf(car, atLeast) +
                  shop.objective.readyMinute * (double(ready) - double(atLeast));
        atLeast = ready;
    }
}

int ShopScheduler::movesOf(int car) const
{
    const Shop& shop = m_index->shop();
    std::vector<std::pair<PlanMinute, int>> stays;
    for (const int job : m_index->m_jobsOf[at(car)]) {
        const Placement& one = m_placements[at(job)];
        if (m_placed[at(job)] && one.bay >= 0 && shop.jobs[at(job)].usesCar)
            stays.emplace_back(one.start, one.bay);
    }
    std::sort(stays.begin(), stays.end());
    int bay = shop.cars[at(car)].bay;
    int moves = 0;
    for (const auto& stay : stays) {
        moves += stay.second != bay ? 1 : 0;
        bay = stay.second;
    }
    return moves;
}

double ShopScheduler::finalCost() const
{
    int moves = 0;
    for (std::size_t c = 0; c < m_lastBay.size(); ++c)
        moves += movesOf(static_cast<int>(c));
    return m_cost + m_index->shop().objective.move * moves;
}

ShopPlan ShopScheduler::plan() const
{
    const Shop& shop = m_index->shop();
    ShopPlan plan;
    plan.jobs = m_placements;
    plan.cost = finalCost();
    for (std::size_t c = 0; c < shop.cars.size(); ++c) {
        PlanMinute ready = std::max(0, shop.cars[c].from);
        for (const int job : m_index->m_jobsOf[c])
            ready = std::max(ready, m_placements[at(job)].clear);
        plan.ready.push_back(ready);
        plan.lateness +=
            latenessOf(shop.cars[c], ready == never ? m_index->horizon() + beyondHorizon : ready);
        plan.moves += movesOf(static_cast<int>(c));
    }
    return plan;
}

} // namespace ramplight::planning
