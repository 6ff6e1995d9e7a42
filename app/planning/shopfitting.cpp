// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Where and when a job can go: the scheduler's questions, which change nothing.
#include "planning/shopscheduler.h"

#include "planning/indexing.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ramplight::planning {

PlanMinute ShopScheduler::earliest(int job) const
{
    PlanMinute from = m_index->m_jobs[at(job)].from;
    for (const int before : m_index->m_precedence.before(job))
        from = std::max(from, m_placements[at(before)].clear);
    return from;
}

// Spans of one person are counted in minutes worked, so that a night is no gap. Few are left then,
// and what is looked for is mostly near the end.
int ShopScheduler::freeFrom(int person, int worked, int minutes) const
{
    const std::vector<Span>& busy = m_busy[at(person)];
    std::size_t next = busy.size();
    while (next > 0 && busy[next - 1].to > worked)
        --next;
    for (; next < busy.size() && busy[next].from < worked + minutes; ++next)
        worked = busy[next].to;
    return worked;
}

Span ShopScheduler::personFit(int person, PlanMinute t, int minutes, Pause pause) const
{
    const WorkTimes& times = m_index->shop().people[at(person)].times;
    int worked = times.workedBefore(t);
    for (;;) {
        worked = freeFrom(person, worked, minutes);
        const WorkTimes::Stretch stretch = times.stretchFrom(worked, minutes, pause);
        if (stretch.worked == worked || stretch.span.from == never)
            return stretch.span;
        worked = stretch.worked;
    }
}

// Each of these answers the end of what is in the way of a span, or its start when nothing is. Gaps
// of fewer minutes are skipped.
PlanMinute ShopScheduler::bayTakenUntil(int bay, Span span, int guest, int minutes) const
{
    const std::vector<Stay>& stays = m_stays[at(bay)];
    auto after = stays.end();
    while (after != stays.begin() && std::prev(after)->span.from >= span.to)
        --after;
    // Stays of different guests never overlap: only those of the last other guest can matter.
    const auto later = after;
    PlanMinute until = span.from;
    std::optional<int> other;
    while (after != stays.begin()) {
        --after;
        if (after->guest == guest)
            continue;
        if (other && *other != after->guest)
            break;
        other = after->guest;
        until = std::max(until, after->span.to);
    }
    if (until == span.from)
        return until;
    for (auto next = later; next != stays.end() && next->guest != guest; ++next) {
        if (next->span.from - until >= minutes)
            break;
        until = std::max(until, next->span.to);
    }
    return until;
}

PlanMinute ShopScheduler::carBusyUntil(int number, Span span, int bay) const
{
    const ShopIndex::Packed& job = m_index->m_jobs[at(number)];
    PlanMinute until = span.from;
    if (m_carFree[at(job.car)] <= span.from)
        return until;
    for (int r = job.firstRival; r < job.endRival; ++r) {
        const ShopIndex::Rival& rival = m_index->m_rivals[at(r)];
        if (!m_placed[at(rival.job)])
            continue;
        const Placement& other = m_placements[at(rival.job)];
        if (other.start >= span.to)
            continue;
        if (rival.always)
            until = std::max(until, other.end);
        if (bay < 0 || other.bay < 0 || other.bay == bay || !job.usesCar)
            continue;
        const ShopIndex::Packed& one = m_index->m_jobs[at(rival.job)];
        if (one.usesCar)
            until = std::max(until, other.end + one.bayMinutes);
    }
    return until;
}

// A person who is the last that could still check some work of the car is kept from doing it.
std::uint64_t ShopScheduler::mayDo(int number) const
{
    const ShopIndex::Packed& job = m_index->m_jobs[at(number)];
    std::uint64_t people =
        job.check >= 0 ? m_checkers[at(job.check)] : m_index->m_masks[at(job.crew)];
    for (int k = job.firstChecked; k < job.endChecked; ++k) {
        const int check = m_index->m_checkedBy[at(k)];
        const int checking = m_index->m_checks[at(check)];
        const std::uint64_t checkers = m_checkers[at(check)];
        if (m_placed[at(checking)]) {
            const int checker = m_placements[at(checking)].person;
            people &= checker < 0 ? ~std::uint64_t{0} : ~(std::uint64_t{1} << checker);
        } else if ((checkers & (checkers - 1)) == 0) {
            people &= ~checkers;
        }
    }
    return people;
}

// Where nothing else is in the way of work of a person: the bay, of those that are free the one
// that the car stood in last, and the start of the span; otherwise a later minute to try.
PlanMinute ShopScheduler::tryAt(int number, Span span, int& bay) const
{
    const ShopIndex::Packed& job = m_index->m_jobs[at(number)];
    bay = -1;
    if (job.bays < 0)
        return carBusyUntil(number, span, -1);
    // Nobody knows yet how long a car stays that will not be moved: nobody comes after it so far.
    const Span stay = {span.from, job.opens >= 0 ? never : span.to + job.bayMinutes};
    const std::vector<int>& group = m_index->shop().bayGroups[at(job.bays)];
    const auto takenUntil = [&](int one) {
        const PlanMinute until =
            std::max(carBusyUntil(number, stay, one), heldUntil(number, stay, one));
        return std::max(until, bayTakenUntil(one, stay, job.guest, job.minutes));
    };
    const int stood = m_lastBay[at(job.car)];
    PlanMinute next = never;
    if (stood >= 0 && contains(group, stood)) {
        next = takenUntil(stood);
        if (next == span.from) {
            bay = stood;
            return next;
        }
    }
    for (const int one : group) {
        if (one == stood)
            continue;
        next = std::min(next, takenUntil(one));
        if (next == span.from) {
            bay = one;
            return next;
        }
    }
    return next;
}

Placement ShopScheduler::fit(int number) const
{
    const ShopIndex::Packed& job = m_index->m_jobs[at(number)];
    const PlanMinute from = earliest(number);
    if (from == never)
        return {};
    int bay = -1;
    const auto placed = [&](int person, Span span) {
        return Placement{person, bay, span.from, span.to, span.to + job.waitMinutes};
    };
    if (job.crew < 0) {
        for (PlanMinute t = from; t != never;) {
            const Span span = {t, t + job.minutes};
            t = tryAt(number, span, bay);
            if (t == span.from)
                return placed(-1, span);
        }
        return {};
    }
    // Of everybody's first chance the one that ends first; who cannot keep it has a later one.
    std::array<int, 64> who;
    std::array<PlanMinute, 64> ends;
    std::array<PlanMinute, 64> starts;
    std::array<int, 64> worth;
    std::size_t count = 0;
    const auto give = [&](std::size_t k, PlanMinute t) {
        const Span span = personFit(who[k], t, job.minutes, job.pause);
        starts[k] = span.from;
        ends[k] = span.to;
    };
    const std::uint64_t people = mayDo(number);
    for (const int person : m_index->m_crews[at(job.crew)]) {
        if (((people >> person) & 1) != 0) {
            who[count] = person;
            worth[count] = m_choice == Choice::SpareScarce ? m_index->m_worth[at(person)] : 0;
            give(count++, from);
        }
    }
    while (count > 0) {
        std::size_t first = 0;
        for (std::size_t k = 1; k < count; ++k)
            first = ends[k] + worth[k] < ends[first] + worth[first] ? k : first;
        const Span span = {starts[first], ends[first]};
        if (span.from == never)
            return {};
        const PlanMinute t = tryAt(number, span, bay);
        if (t == span.from)
            return placed(who[first], span);
        give(first, t);
    }
    return {};
}

} // namespace ramplight::planning
