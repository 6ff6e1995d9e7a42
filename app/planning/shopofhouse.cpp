// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shopofhouse.h"

#include "domain/checking.h"
#include "domain/foreseen.h"
#include "domain/holds.h"
#include "domain/presence.h"
#include "domain/words.h"
#include "domain/worktotals.h"
#include "planning/indexing.h"

#include <algorithm>
#include <map>

namespace ramplight::planning {

namespace {

constexpr int leastMinutesLeft = 5;          ///< of work that has taken its usual time and goes on
constexpr Minutes secondSignature{2, 5, 10}; ///< ours: to come, look and sign

/// What a minute late counts for. Ours: one day late of a promise that must be kept is as bad as
/// four of a usual one.
double weightOf(PromiseImportance importance)
{
    switch (importance) {
    case PromiseImportance::CanWait:
        return 0.25;
    case PromiseImportance::Usual:
        return 1;
    case PromiseImportance::MustBeKept:
        return 4;
    }
    return 1;
}

/// Numbers equal groups alike.
int groupFor(std::vector<std::vector<int>>& groups, const std::vector<int>& members)
{
    const auto found = std::find(groups.begin(), groups.end(), members);
    if (found != groups.end())
        return static_cast<int>(found - groups.begin());
    groups.push_back(members);
    return static_cast<int>(groups.size()) - 1;
}

bool isOnLooseWheel(const OperationSpec& spec)
{
    const auto has = [&spec](PlaceKind kind) {
        return std::find(spec.placeKinds.begin(), spec.placeKinds.end(), kind) !=
               spec.placeKinds.end();
    };
    return spec.bay == BayKind::Wheels && spec.scope == Scope::Place &&
           (has(PlaceKind::Wheel) || has(PlaceKind::Tyre));
}

/// Wheels off: from its beginning on the car is not moved, until they are on again.
bool keepsCarOnceBegun(const OperationSpec& spec)
{
    return std::any_of(spec.immobilises.begin(), spec.immobilises.end(), [](const Immobilises& i) {
        return i.from == RestraintFrom::Started &&
               std::find(i.what.begin(), i.what.end(), Restraint::Move) != i.what.end();
    });
}

/// Wheels on: the car is not moved before it is done.
bool keepsCarUntilDone(const OperationSpec& spec)
{
    return std::any_of(spec.immobilises.begin(), spec.immobilises.end(), [](const Immobilises& i) {
        return i.from == RestraintFrom::Opened &&
               std::find(i.what.begin(), i.what.end(), Restraint::Move) != i.what.end();
    });
}

bool holdsCarWhileWaiting(const OperationSpec& spec)
{
    return std::any_of(spec.immobilises.begin(), spec.immobilises.end(), [](const Immobilises& i) {
        return i.from == RestraintFrom::Waiting &&
               std::find(i.what.begin(), i.what.end(), Restraint::Move) != i.what.end();
    });
}

class Builder
{
public:
    Builder(const SiteState& site, const HouseCalendar& calendar, Moment now)
        : m_site(site)
        , m_calendar(calendar)
        , m_now(now)
        , m_clock(now, site.rules)
        , m_today(m_clock.dayOf(0))
    {
        for (const auto& [id, person] : site.people) {
            if (!person.active)
                continue;
            m_made.people.push_back(id);
            m_made.keys.people.push_back(id);
            m_made.shop.people.push_back(
                {person.name, workTimesOf(calendar, id, m_clock, plannedDays)});
        }
        for (const auto& [id, bay] : site.bays) {
            if (!bay.active || bay.kind == BayKind::Parking)
                continue;
            m_made.bays.push_back(id);
            m_made.shop.bays.push_back(
                {QStringLiteral("bay %1 %2").arg(bay.number).arg(bay.name).trimmed()});
        }
    }

    /// real: as the ledger has it; state: with what is foreseen.
    void add(const CarState& real, const CarState& state)
    {
        ShopCar car{.name = state.identity.stockNumber};
        car.arrived = m_clock.minuteOf(state.arrivedAt);
        car.bay = placeIn(m_made.bays, state.bay);
        car.weight = weightOf(state.importance);
        if (state.promised.isValid()) {
            const DayTimes* times = openOn(m_calendar, state.promised);
            car.promised =
                m_clock.minuteOf(state.promised, times != nullptr ? times->closes : 24 * 60 - 1);
        }
        m_made.cars.push_back(state.id);
        m_made.keys.carKinds.push_back(nameOf(state.identity.shape));
        m_made.keys.done.push_back(recordsOf(real));
        m_made.shop.cars.push_back(std::move(car));

        std::map<OperationId, int> jobs;
        for (const Operation* operation : state.openOperations()) {
            jobs[operation->id] = static_cast<int>(m_made.shop.jobs.size());
            m_made.shop.jobs.push_back(jobFor(state, *operation));
            m_made.jobs.push_back(real.operation(operation->id) ? operation->id : OperationId{});
        }
        for (const auto& [id, number] : jobs)
            restsOn(*state.operation(id), number, jobs);
        for (const auto& [id, number] : jobs)
            relate(state, *state.operation(id), number, jobs);
        holdBack(real, state, jobs);
        keep(real, state, jobs);
    }

    HouseShop take() { return std::move(m_made); }

private:
    [[nodiscard]] ShopJob& job(int number)
    {
        return m_made.shop.jobs[static_cast<std::size_t>(number)];
    }

    ShopJob jobFor(const CarState& car, const Operation& operation)
    {
        const OperationSpec& spec = operation.spec;
        ShopJob made{.title = operationTitle(spec, operation.place, m_site.rules),
                     .kind = spec.id,
                     .car = static_cast<int>(m_made.shop.cars.size()) - 1,
                     .minutes = minutesLeft(car, operation)};
        made.waitMinutes = spec.wait.usual;
        made.waitsInBay = holdsCarWhileWaiting(spec);
        made.usesCar = !isOnLooseWheel(spec);
        made.pause = spec.overnight ? Pause::Overnight : Pause::SameDay;
        made.bays = baysFor(spec.bay);
        made.notBefore = blockedUntil(operation);
        if (operation.plannedFrom > m_now)
            made.notBefore = std::max(made.notBefore, m_clock.minuteOf(operation.plannedFrom));
        if (operation.isAway()) {
            // The firm's minutes are not ours: it is back when it is back.
            made.minutes = {};
            made.waitMinutes = 0;
            made.bays = -1;
            return made;
        }
        if (operation.state == OperationState::AwaitingCheck) {
            // A second person's look, or ours at what a firm brought back.
            made.minutes = secondSignature;
            made.waitMinutes = 0;
            made.bays = -1;
        }
        if (const int bay = placeIn(m_made.bays, operation.plannedBay);
            bay >= 0 && operation.state != OperationState::AwaitingCheck)
            made.bays = groupFor(m_made.shop.bayGroups, {bay});
        made.crew = groupFor(m_made.shop.crews, crewFor(car, operation));
        for (const Segment& segment : operation.segments) {
            const int person = placeIn(m_made.people, segment.person);
            if (segment.running() && person >= 0 && !made.running)
                made.running = RunningJob{person, made.bays < 0 ? -1 : m_made.shop.cars.back().bay,
                                          std::min(0, m_clock.minuteOf(segment.start))};
        }
        return made;
    }

    [[nodiscard]] Minutes minutesLeft(const CarState& car, const Operation& operation) const
    {
        const Minutes whole = minutesOf(car, operation);
        int worked = operation.isBegun() ? operation.minutes() : 0;
        for (const Segment& segment : operation.segments) {
            if (segment.running())
                worked += minutesBetween(segment.start, m_now);
        }
        const auto left = [worked](int minutes) {
            return std::max(std::min(minutes, leastMinutesLeft), minutes - worked);
        };
        return {left(whole.low), left(whole.usual), left(whole.high)};
    }

    [[nodiscard]] int baysFor(BayKind kind)
    {
        if (kind == BayKind::Any || kind == BayKind::Parking)
            return -1;
        std::vector<int> serving;
        for (std::size_t i = 0; i < m_made.bays.size(); ++i) {
            if (suits(*m_site.bay(m_made.bays[i]), kind))
                serving.push_back(static_cast<int>(i));
        }
        // A house without such a bay does it where the car stands.
        return serving.empty() ? -1 : groupFor(m_made.shop.bayGroups, serving);
    }

    [[nodiscard]] PlanMinute blockedUntil(const Operation& operation) const
    {
        const std::optional<QDate> due = operation.due();
        if (!due || !due->isValid())
            return 0;
        QDate day = *due > m_today ? *due : m_today.addDays(1);
        for (int d = 0; d < plannedDays && openOn(m_calendar, day) == nullptr; ++d)
            day = day.addDays(1);
        const DayTimes* times = openOn(m_calendar, day);
        return m_clock.minuteOf(day, times != nullptr ? times->opens : 0);
    }

    [[nodiscard]] std::vector<int> crewFor(const CarState& car, const Operation& operation) const
    {
        const bool isSecond = operation.awaitsSecond();
        const bool isBack = operation.awaitsReceipt();
        std::vector<int> crew;
        for (std::size_t i = 0; i < m_made.people.size(); ++i) {
            const Person& person = *m_site.person(m_made.people[i]);
            const bool may = isSecond ? person.can(Right::Check) &&
                                            !operation.doers().contains(person.id) &&
                                            !readAgainstFigureOf(operation, person.id) &&
                                            !checksOwnWork(car, operation, person.id, m_site.rules)
                             : isBack ? person.active && !whyNotReceiving(person, operation.spec)
                                      : mayBeGiven(person, car, operation, m_site.rules, m_today);
            const bool isAsked = operation.assigned.isNull() || isSecond || isBack ||
                                 operation.assigned == person.id;
            if (may && isAsked)
                crew.push_back(static_cast<int>(i));
        }
        return crew;
    }

    /// What drives or powers a car that may not be: after what forbids it is done or cured.
    void holdBack(const CarState& real, const CarState& car, const std::map<OperationId, int>& jobs)
    {
        for (const RestraintReason& reason : restraints(real, m_now)) {
            const auto barring = jobs.find(reason.operation);
            for (const auto& [id, number] : jobs) {
                const OperationSpec& spec = car.operation(id)->spec;
                if (id == reason.operation || job(number).running ||
                    std::find(spec.needs.begin(), spec.needs.end(), reason.what) ==
                        spec.needs.end())
                    continue;
                if (barring != jobs.end())
                    comesAfter(number, barring->second);
                else if (!reason.until.isNull())
                    job(number).notBefore =
                        std::max(job(number).notBefore, m_clock.minuteOf(reason.until));
            }
        }
    }

    /// Where the car may not be moved: until what keeps it is done or cured, its bay is its own.
    void keep(const CarState& real, const CarState& car, const std::map<OperationId, int>& jobs)
    {
        ShopCar& made = m_made.shop.cars.back();
        const auto endsStay = [&](OperationId end, int opener) {
            const int number = jobs.at(end);
            return contains(job(number).after, opener) &&
                   (!job(number).usesCar || keepsCarUntilDone(*car.operation(end)->spec));
        };
        for (const RestraintReason& reason : restraints(real, m_now)) {
            if (reason.what != Restraint::Move || made.bay < 0)
                continue;
            if (const auto found = jobs.find(reason.operation); found != jobs.end()) {
                job(found->second).keepsCar = true;
                for (const auto& [end, number] : jobs)
                    if (endsStay(end, found->second))
                        job(number).keepsCar = true;
            } else if (const Operation* cures = car.operation(reason.operation)) {
                made.staysUntil = std::max(made.staysUntil, m_clock.minuteOf(cures->waitUntil));
            }
        }
        for (const auto& [id, number] : jobs) {
            if (job(number).keepsCar) {
                stayPut(number);
                continue;
            }
            if (job(number).bays < 0 || job(number).running ||
                !keepsCarOnceBegun(*car.operation(id)->spec))
                continue;
            for (const auto& [end, wheels] : jobs) {
                if (endsStay(end, number))
                    job(number).staysFor.push_back(wheels);
            }
        }
    }

    /// A job, and what it waits for, is done where the car stands if its own bays are others.
    void stayPut(int number)
    {
        const int bay = m_made.shop.cars.back().bay;
        std::vector<int> those = {number};
        for (std::size_t k = 0; k < those.size(); ++k) {
            ShopJob& one = job(those[k]);
            if (one.usesCar && one.bays >= 0 && !one.running &&
                !contains(m_made.shop.bayGroups[static_cast<std::size_t>(one.bays)], bay))
                one.bays = -1;
            for (const int before : one.after) {
                if (!contains(those, before))
                    those.push_back(before);
            }
        }
    }

    /// Whether a job comes before another, at whatever remove.
    [[nodiscard]] bool isBefore(int first, int second) const
    {
        return contains(reached(m_made.shop.jobs[at(second)].after,
                                [this](int job) -> const std::vector<int>& {
                                    return m_made.shop.jobs[at(job)].after;
                                }),
                        first);
    }

    void comesAfter(int number, int first)
    {
        // Work that opens other work comes before it, also where the catalogue's order of kinds
        // ("after everything") would have it last.
        if (number != first && !contains(job(number).after, first) && !isBefore(number, first))
            job(number).after.push_back(first);
    }

    /// What is foreseen waits for the work that opens it.
    void restsOn(const Operation& operation, int number, const std::map<OperationId, int>& jobs)
    {
        for (const OperationId base : operation.restsOn) {
            const auto found = jobs.find(base);
            if (found == jobs.end())
                continue;
            comesAfter(number, found->second);
            if (m_made.jobs[at(number)].isNull())
                m_made.openers[number].push_back(found->second);
        }
    }

    void relate(const CarState& car, const Operation& operation, int number,
                const std::map<OperationId, int>& jobs)
    {
        for (const OperationId first : comesFirst(car, operation)) {
            if (const auto found = jobs.find(first); found != jobs.end())
                comesAfter(number, found->second);
        }
        for (const auto& [id, other] : car.operations) {
            // What still cures holds what comes after it.
            if (other.state == OperationState::Closed && other.waitUntil > m_now &&
                (operation.spec->after.contains(other.spec->id) ||
                 operation.spec->after.contains(QStringLiteral("*"))))
                job(number).notBefore =
                    std::max(job(number).notBefore, m_clock.minuteOf(other.waitUntil));
            const auto found = jobs.find(id);
            if (found == jobs.end() || id == operation.id)
                continue;
            if (!mayRunBeside(operation.spec, other.spec))
                job(number).apart.push_back(found->second);
            if (operation.spec->secondPerson == SecondPerson::Check &&
                isCovered(other, operation, m_site.rules))
                job(number).checks.push_back(found->second);
        }
    }

    const SiteState& m_site;
    const HouseCalendar& m_calendar;
    Moment m_now;
    PlanClock m_clock;
    QDate m_today;
    HouseShop m_made;
};

} // namespace

HouseShop shopOf(std::span<const CarState> cars, const SiteState& site,
                 const HouseCalendar& calendar, Moment now, const Catalogue* catalogue)
{
    Builder builder(site, calendar, now);
    for (const CarState& car : cars) {
        if (!isInPrep(car))
            continue;
        if (catalogue != nullptr)
            builder.add(car, withForeseen(car, *catalogue, site, now));
        else
            builder.add(car, car);
    }
    return builder.take();
}

std::vector<WorkRecord> recordsOf(const CarState& car)
{
    std::vector<WorkRecord> records;
    for (const auto& [id, operation] : car.operations) {
        std::set<PersonId> workers;
        for (const Segment& segment : operation.segments)
            workers.insert(segment.person);
        if (operation.state != OperationState::Closed || workers.size() != 1 ||
            operation.cameFromOutside || operation.outside)
            continue;
        records.push_back({operation.spec->id, *workers.begin(), nameOf(car.identity.shape), car.id,
                           minutesOf(car, operation).usual, operation.minutes()});
    }
    return records;
}

} // namespace ramplight::planning
