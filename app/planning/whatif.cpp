// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/whatif.h"

#include "domain/words.h"
#include "planning/indexing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ramplight::planning::whatif {

namespace {

template <class Id, class Thing>
Id nextId(const std::map<Id, Thing>& things)
{
    return things.empty() ? Id{1} : Id{things.rbegin()->first.value + 1};
}

bool works(const Person& person)
{
    return person.active && (person.can(Right::Work) || person.can(Right::Check));
}

CarState* carIn(HouseInput& input, const CarId& id)
{
    const auto found = std::ranges::find(input.cars, id, &CarState::id);
    return found == input.cars.end() ? nullptr : &*found;
}

Operation* workIn(HouseInput& input, const CarId& id, OperationId operation)
{
    CarState* car = carIn(input, id);
    if (car == nullptr)
        return nullptr;
    const auto found = car->operations.find(operation);
    return found == car->operations.end() ? nullptr : &found->second;
}

/// A long time before and after.
constexpr int longDays = 400;

void apply(HouseInput& input, const AnotherPerson& change)
{
    const Person* like = input.site.person(change.like);
    if (like == nullptr)
        return;
    Person person = *like;
    person.id = nextId(input.site.people);
    person.name = QStringLiteral("one more like %1").arg(like->name);
    person.times = {like->times.week, {}, {}};
    if (change.here.first.isValid())
        person.times.away.push_back(
            {change.here.first.addDays(-longDays), change.here.first.addDays(-1)});
    if (change.here.last.isValid())
        person.times.away.push_back(
            {change.here.last.addDays(1), change.here.last.addDays(longDays)});
    input.site.people.emplace(person.id, person);
}

void apply(HouseInput& input, const AnotherBay& change)
{
    const Bay* like = input.site.bay(change.like);
    if (like == nullptr)
        return;
    Bay bay = *like;
    bay.id = nextId(input.site.bays);
    for (const auto& [id, other] : input.site.bays)
        bay.number = std::max(bay.number, other.number + 1);
    input.site.bays.emplace(bay.id, bay);
}

void apply(HouseInput& input, const ExtraTime& change)
{
    for (auto& [id, person] : input.site.people) {
        if (change.person.isNull() ? works(person) : change.person == id)
            person.times = with(person.times, change.hours);
    }
}

void apply(HouseInput& input, const Absence& change)
{
    const auto found = input.site.people.find(change.person);
    if (found != input.site.people.end())
        found->second.times = with(found->second.times, change.days);
}

void apply(HouseInput& input, const PartAt& change)
{
    Operation* work = workIn(input, change.car, change.operation);
    if (work == nullptr || work->state != OperationState::Blocked)
        return;
    if (!change.day.isValid()) {
        work->state = OperationState::Waiting;
        work->part.reset();
        work->outside.reset();
    } else if (work->outside) {
        work->outside->dueBack = change.day;
    } else if (work->part) {
        work->part->due = change.day;
    }
}

void apply(HouseInput& input, const Promise& change)
{
    if (CarState* car = carIn(input, change.car)) {
        car->promised = change.day;
        car->importance = change.importance.value_or(car->importance);
    }
}

void apply(HouseInput& input, const Assign& change)
{
    if (Operation* work = workIn(input, change.car, change.operation)) {
        work->assigned = change.person;
        work->plannedBay = change.bay;
        work->plannedFrom = change.from;
    }
}

/// What a change is called.
class Namer
{
public:
    Namer(const HouseInput& input, const SayDay& day)
        : m_input(input)
        , m_day(day)
    {
    }

    QString operator()(const AnotherPerson& change) const
    {
        const QString who = QStringLiteral("one more like %1").arg(name(change.like));
        if (!change.here.last.isValid())
            return QStringLiteral("%1, from %2 on").arg(who, m_day(change.here.first));
        return QStringLiteral("%1, %2").arg(who, span(change.here));
    }
    QString operator()(const AnotherBay& change) const
    {
        return QStringLiteral("one more bay like %1").arg(bay(change.like));
    }
    QString operator()(const ExtraTime& change) const
    {
        return QStringLiteral("%1 also %2 %3 to %4")
            .arg(change.person.isNull() ? QStringLiteral("everybody") : name(change.person),
                 m_day(change.hours.day), hourWords(change.hours.from), hourWords(change.hours.to));
    }
    QString operator()(const Absence& change) const
    {
        return QStringLiteral("%1 away %2").arg(name(change.person), span(change.days));
    }
    QString operator()(const PartAt& change) const
    {
        const CarState* car = carOf(change.car);
        const Operation* work = car == nullptr ? nullptr : car->operation(change.operation);
        const QString stock = car == nullptr ? change.car.text : car->identity.stockNumber;
        if (work != nullptr && work->outside)
            return QStringLiteral("%1 back from %2 %3")
                .arg(stock, work->outside->firm,
                     change.day.isValid() ? m_day(change.day) : QStringLiteral("now"));
        const QString part = work != nullptr && work->part ? work->part->part : QString();
        return change.day.isValid()
                   ? QStringLiteral("%1: %2 comes %3").arg(stock, part, m_day(change.day))
                   : QStringLiteral("%1: %2 is here now").arg(stock, part);
    }
    QString operator()(const Promise& change) const
    {
        const CarState* car = carOf(change.car);
        const QString promised =
            QStringLiteral("%1 promised %2")
                .arg(car == nullptr ? change.car.text : car->identity.stockNumber,
                     m_day(change.day));
        return change.importance
                   ? QStringLiteral("%1, %2").arg(promised, ramplight::words(*change.importance))
                   : promised;
    }
    QString operator()(const Assign& change) const
    {
        const CarState* car = carOf(change.car);
        const Operation* work = car == nullptr ? nullptr : car->operation(change.operation);
        if (work == nullptr)
            return change.car.text;
        QStringList said{QStringLiteral("%1 %2").arg(
            car->identity.stockNumber,
            operationTitle(work->spec, work->place, m_input.site.rules))};
        if (!change.person.isNull())
            said.append(QStringLiteral("by %1").arg(name(change.person)));
        if (!change.bay.isNull())
            said.append(QStringLiteral("in bay %1").arg(bay(change.bay)));
        return said.join(QStringLiteral(", "));
    }

private:
    [[nodiscard]] QString name(PersonId id) const
    {
        const Person* person = m_input.site.person(id);
        return person == nullptr ? QString() : person->name;
    }
    [[nodiscard]] QString bay(BayId id) const
    {
        const Bay* bay = m_input.site.bay(id);
        return bay == nullptr ? QString()
                              : QStringLiteral("%1 %2").arg(bay->number).arg(bay->name).trimmed();
    }
    [[nodiscard]] const CarState* carOf(const CarId& id) const
    {
        const auto found = std::ranges::find(m_input.cars, id, &CarState::id);
        return found == m_input.cars.end() ? nullptr : &*found;
    }
    [[nodiscard]] QString span(const DaysAway& days) const
    {
        return days.first == days.last
                   ? m_day(days.first)
                   : QStringLiteral("%1 to %2").arg(m_day(days.first), m_day(days.last));
    }

    const HouseInput& m_input;
    const SayDay& m_day;
};

} // namespace

std::vector<PersonId> everybody(const SiteState& site)
{
    std::vector<PersonId> all;
    for (const auto& [id, person] : site.people) {
        if (works(person))
            all.push_back(id);
    }
    return all;
}

HouseInput changed(HouseInput input, const Change& change)
{
    std::visit([&input](const auto& one) { apply(input, one); }, change);
    input.calendar = calendarOf(input.site);
    return input;
}

HouseInput changed(HouseInput input, const std::vector<Change>& changes)
{
    for (const Change& change : changes)
        input = changed(std::move(input), change);
    return input;
}

QString words(const Change& change, const HouseInput& input, const SayDay& day)
{
    return std::visit(Namer(input, day), change);
}

Outcome outcomeOf(const HousePlan& before, const HousePlan& after, int leastMinutes)
{
    Outcome outcome;
    std::vector<CarShift> shifts = shiftsBetween(before, after, leastMinutes);
    const auto hasMoved = [&shifts](const CarId& car) {
        return std::ranges::find(shifts, car, &CarShift::car) != shifts.end();
    };
    for (std::size_t car = 0; car < before.house.cars.size(); ++car) {
        const CarId& id = before.house.cars[car];
        const int then = after.numberOf(id);
        const bool wasLate = before.isLate(static_cast<int>(car));
        outcome.lateBefore += wasLate ? 1 : 0;
        if (then < 0)
            continue;
        const bool isPromisedAlike =
            before.house.shop.cars[car].promised == after.house.shop.cars[at(then)].promised;
        const bool hasShifted = hasMoved(id);
        // Chance alone makes no car late, nor mends one.
        const bool isLate = hasShifted || !isPromisedAlike ? after.isLate(then) : wasLate;
        outcome.lateAfter += isLate ? 1 : 0;
        if (hasShifted)
            continue;
        if (isLate == wasLate) {
            ++outcome.asBefore;
            continue;
        }
        const CarForecast& one = before.forecasts[car];
        outcome.otherwise.push_back(
            {id, one.ready50, one.ready50, one.ready90, one.ready90, wasLate, isLate});
    }
    for (const CarShift& shift : shifts)
        (shift.after < shift.before ? outcome.sooner : outcome.later).push_back(shift);
    std::ranges::reverse(outcome.sooner);
    return outcome;
}

} // namespace ramplight::planning::whatif
