// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/plancheck.h"

#include <algorithm>
#include <cmath>

using namespace ramplight::planning;

namespace ramplight::test {

namespace {

bool contains(const std::vector<int>& some, int one)
{
    return std::find(some.begin(), some.end(), one) != some.end();
}

bool overlap(int from, int to, int otherFrom, int otherTo)
{
    return std::max(from, otherFrom) < std::min(to, otherTo);
}

/// Minutes of work of a person inside a stretch, and the longest time off that it has inside.
struct Worked
{
    int minutes = 0;
    int longestGap = 0;
    bool startsAtWork = false;
    bool endsAtWork = false;
};

Worked workedIn(const ShopPerson& person, int from, int to)
{
    Worked worked;
    int lastEnd = from;
    for (const Span& span : person.times.spans()) {
        worked.startsAtWork = worked.startsAtWork || (span.from <= from && from < span.to);
        worked.endsAtWork = worked.endsAtWork || (span.from < to && to <= span.to);
        const int begin = std::max(span.from, from);
        const int end = std::min(span.to, to);
        if (begin >= end)
            continue;
        worked.minutes += end - begin;
        worked.longestGap = std::max(worked.longestGap, begin - lastEnd);
        lastEnd = end;
    }
    return worked;
}

class Check
{
public:
    Check(const Shop& shop, const ShopPlan& plan)
        : m_shop(shop)
        , m_plan(plan)
    {
    }

    QStringList run()
    {
        if (m_plan.jobs.size() != m_shop.jobs.size() || m_plan.ready.size() != m_shop.cars.size())
            return {QStringLiteral("the plan has other jobs or cars")};
        const int n = static_cast<int>(m_shop.jobs.size());
        for (int i = 0; i < n; ++i) {
            if (!placement(i).isPlanned()) {
                couldBePlanned(i);
                continue;
            }
            alone(i);
            order(i);
            for (int other = i + 1; other < n; ++other) {
                if (placement(other).isPlanned())
                    together(i, other);
            }
        }
        for (int i = 0; i < n; ++i)
            stays(i);
        for (std::size_t c = 0; c < m_shop.cars.size(); ++c)
            kept(static_cast<int>(c), m_shop.cars[c].bay, 0, m_shop.cars[c].staysUntil);
        cars();
        return m_faults;
    }

private:
    const ShopJob& job(int i) const { return m_shop.jobs[static_cast<std::size_t>(i)]; }
    const Placement& placement(int i) const { return m_plan.jobs[static_cast<std::size_t>(i)]; }
    const std::vector<int>& crew(int i) const
    {
        return m_shop.crews[static_cast<std::size_t>(job(i).crew)];
    }
    const ShopPerson& person(int i) const { return m_shop.people[static_cast<std::size_t>(i)]; }
    const ShopCar& carOf(int i) const { return m_shop.cars[static_cast<std::size_t>(job(i).car)]; }
    void fault(int i, const QString& words)
    {
        m_faults.append(QStringLiteral("%1: %2").arg(job(i).title, words));
    }

    void alone(int i)
    {
        const ShopJob& one = job(i);
        const Placement& at = placement(i);
        if (at.clear != at.end + one.waitMinutes)
            fault(i, QStringLiteral("its waiting time is not kept"));
        if (one.running) {
            if (at.person != one.running->person || at.bay != one.running->bay || at.start > 0)
                fault(i, QStringLiteral("it is in hand and was moved"));
            if (workedIn(person(at.person), 0, at.end).minutes != one.minutes.usual)
                fault(i, QStringLiteral("what is left of it is not done"));
            return;
        }
        if (at.start < 0 || at.start < one.notBefore || at.start < carOf(i).from)
            fault(i, QStringLiteral("it starts before it can"));
        if ((one.bays < 0) != (at.bay < 0) ||
            (one.bays >= 0 &&
             !contains(m_shop.bayGroups[static_cast<std::size_t>(one.bays)], at.bay)))
            fault(i, QStringLiteral("it is in a bay that does not serve it"));
        if (one.crew < 0) {
            if (at.person >= 0 || at.end != at.start + one.minutes.usual)
                fault(i, QStringLiteral("it needs nobody and has somebody"));
            return;
        }
        if (!contains(crew(i), at.person))
            return fault(i, QStringLiteral("its person may not do it"));
        if (one.minutes.usual == 0)
            return;
        const Worked worked = workedIn(person(at.person), at.start, at.end);
        if (worked.minutes != one.minutes.usual || !worked.startsAtWork || !worked.endsAtWork)
            fault(i, QStringLiteral("its person does not work then"));
        if ((one.pause == Pause::Never && worked.longestGap > 0) ||
            (one.pause == Pause::SameDay && worked.longestGap > 180))
            fault(i, QStringLiteral("it pauses and may not"));
    }

    void order(int i)
    {
        if (job(i).running)
            return;
        for (const int before : job(i).after) {
            if (!placement(before).isPlanned() || placement(i).start < placement(before).clear)
                fault(i, QStringLiteral("it does not wait for %1").arg(job(before).title));
        }
        for (const int checked : job(i).checks) {
            if (placement(i).person >= 0 && placement(checked).person == placement(i).person)
                fault(i, QStringLiteral("who did the work checks it"));
        }
    }

    int leavesBay(int i) const { return job(i).waitsInBay ? placement(i).clear : placement(i).end; }

    void together(int i, int other)
    {
        const Placement& a = placement(i);
        const Placement& b = placement(other);
        const bool sameTime = overlap(a.start, a.end, b.start, b.end);
        if (a.person >= 0 && a.person == b.person && sameTime)
            fault(i, QStringLiteral("its person does %1 then").arg(job(other).title));
        const bool sameCar = job(i).car == job(other).car;
        const bool sameGuest = sameCar && job(i).usesCar && job(other).usesCar;
        if (a.bay >= 0 && b.bay >= 0 && overlap(a.start, leavesBay(i), b.start, leavesBay(other))) {
            if (a.bay == b.bay && !sameGuest)
                fault(i, QStringLiteral("its bay has %1 then").arg(job(other).title));
            if (a.bay != b.bay && sameGuest)
                fault(i, QStringLiteral("its car is elsewhere, for %1").arg(job(other).title));
        }
        const bool apart = contains(job(i).apart, other) || contains(job(other).apart, i);
        if (sameCar && apart && sameTime)
            fault(i, QStringLiteral("%1 is in hand then").arg(job(other).title));
    }

    // From wheels off until they are on the car stands where it is, and nothing else does.
    void stays(int i)
    {
        if (!placement(i).isPlanned())
            return;
        if (job(i).keepsCar)
            kept(job(i).car, carOf(i).bay, 0, placement(i).end);
        for (const int end : job(i).staysFor) {
            if (placement(end).isPlanned())
                kept(job(i).car, placement(i).bay, placement(i).start, placement(end).end);
        }
    }

    void kept(int car, int bay, int from, int to)
    {
        for (int i = 0; bay >= 0 && i < static_cast<int>(m_shop.jobs.size()); ++i) {
            const Placement& at = placement(i);
            if (!at.isPlanned() || at.bay < 0 || !overlap(from, to, at.start, leavesBay(i)))
                continue;
            if (job(i).car != car && at.bay == bay)
                fault(i, QStringLiteral("its bay has a car that may not be moved"));
            if (job(i).car == car && job(i).usesCar && at.bay != bay)
                fault(i, QStringLiteral("its car may not be moved then"));
        }
    }

    // After everything else is done, somebody could.
    void couldBePlanned(int i)
    {
        int from = std::max({0, job(i).notBefore, carOf(i).from});
        for (const int before : job(i).after) {
            if (!placement(before).isPlanned())
                return;
        }
        // A stay without an end need not begin.
        for (const int end : job(i).staysFor) {
            if (!placement(end).isPlanned())
                return;
        }
        for (const Placement& one : m_plan.jobs) {
            if (one.isPlanned())
                from = std::max(from, one.clear);
        }
        if (job(i).crew < 0)
            return fault(i, QStringLiteral("it needs nobody and is not planned"));
        for (const int candidate : crew(i)) {
            bool may = true;
            for (const int checked : job(i).checks)
                may = may && placement(checked).person != candidate;
            for (int check = 0; check < static_cast<int>(m_shop.jobs.size()); ++check) {
                if (contains(job(check).checks, i) && job(check).crew >= 0)
                    may = may && !contains(crew(check), candidate);
            }
            if (!may)
                continue;
            for (const Span& span : person(candidate).times.spans()) {
                if (span.from >= from && span.to - span.from >= job(i).minutes.usual)
                    return fault(i, QStringLiteral("it is not planned and could be"));
            }
        }
    }

    void cars()
    {
        for (std::size_t c = 0; c < m_shop.cars.size(); ++c) {
            int ready = std::max(0, m_shop.cars[c].from);
            for (int i = 0; i < static_cast<int>(m_shop.jobs.size()); ++i) {
                if (job(i).car == static_cast<int>(c))
                    ready = std::max(ready, placement(i).clear);
            }
            if (ready != m_plan.ready[c])
                m_faults.append(m_shop.cars[c].name + QStringLiteral(": ready at another time"));
            if (ready != never && ready > m_shop.cars[c].promised)
                m_lateness += m_shop.cars[c].weight * (ready - m_shop.cars[c].promised);
            m_isWhole = m_isWhole && ready != never;
        }
        if (m_isWhole && std::abs(m_lateness - m_plan.lateness) > 0.5)
            m_faults.append(
                QStringLiteral("its lateness is %1, not %2").arg(m_lateness).arg(m_plan.lateness));
    }

    const Shop& m_shop;
    const ShopPlan& m_plan;
    QStringList m_faults;
    double m_lateness = 0;
    bool m_isWhole = true;
};

} // namespace

QStringList faultsOfPlan(const Shop& shop, const ShopPlan& plan)
{
    return Check(shop, plan).run();
}

} // namespace ramplight::test
