// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/checking.h"

#include "domain/contains.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

namespace {

/// What asked for a reading; each has been asked for.
const ReadingSpec& questionOf(const Operation& operation, const Reading& reading)
{
    static const ReadingSpec none;
    const auto spec = std::ranges::find(operation.spec->readings, reading.key, &ReadingSpec::key);
    return spec == operation.spec->readings.end() ? none : *spec;
}

/// "tread, front left: 2.9 mm"
QString titleAndValue(const ReadingSpec& spec, const Reading& reading, const HouseRules& rules)
{
    const QString title =
        reading.place.isEmpty()
            ? spec.title
            : QStringLiteral("%1, %2").arg(spec.title, placeWords(reading.place, rules));
    return QStringLiteral("%1: %2").arg(title, readingWords(spec, reading.value));
}

/// What is to be done before a reading is taken again; holds: it keeps the car, left: what it
/// opened was left as it is.
QString whenAgain(const Operation& operation, const Reading& reading, bool holds,
                  const Operation* left, const HouseRules& rules)
{
    if (left != nullptr)
        return QStringLiteral("measure again once %1 is done, which was left as it is")
            .arg(operationTitle(left->spec, left->place, rules));
    if (!holds)
        return QStringLiteral("somebody else read it, go on with the work and measure again");
    const bool isCheck = operation.spec->secondPerson == SecondPerson::Check;
    const bool isReceived = operation.outside && operation.outside->received;
    const RemediedBy usual = isCheck ? RemediedBy::CheckedWork : RemediedBy::SameWork;
    switch (isReceived
                ? RemediedBy::CheckedWork
                : questionOf(operation, reading).remedyOf(reading.value.text).value_or(usual)) {
    case RemediedBy::CheckedWork:
        return QStringLiteral("let the check fail, so that the work goes back");
    case RemediedBy::Finding:
        return QStringLiteral("record a finding, go on with this once it is put right, and answer "
                              "again");
    case RemediedBy::SameWork:
        break;
    }
    return QStringLiteral("pause, put it right, go on with it and measure again");
}

} // namespace

bool checksEverything(const OperationSpec& check)
{
    return check.checksWorkOf.contains(QStringLiteral("*"));
}

bool isVoidedBy(const OperationSpec& check, const OperationSpec& work)
{
    return check.secondPerson == SecondPerson::Check &&
           (check.checksWorkOf.contains(work.id) || checksEverything(check));
}

bool coversKind(const OperationSpec& check, const OperationSpec& work, const HouseRules& rules)
{
    const bool ofAll = checksEverything(check);
    if (ofAll && rules.finalCheckByWorker)
        return false;
    // A check of everything checks work, not the checks and the paperwork around it.
    const bool isWork = work.secondPerson != SecondPerson::Check && work.skill != Skill::Office;
    return (ofAll && isWork) || check.checksWorkOf.contains(work.id);
}

bool isCovered(const Operation& work, const Operation& check, const HouseRules& rules)
{
    if (work.id == check.id || (checksEverything(check.spec) && rules.finalCheckByWorker))
        return false;
    return coversKind(check.spec, work.spec, rules) || contains(check.restsOn, work.id);
}

bool didWorkChecked(const CarState& car, const Operation& check, PersonId person,
                    const HouseRules& rules)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        return isCovered(entry.second, check, rules) && entry.second.doers().contains(person);
    });
}

std::vector<OperationId> goesBack(const CarState& car, const Operation& check, OperationId named)
{
    std::vector<OperationId> back =
        named.isNull() ? check.restsOn : std::vector<OperationId>{named};
    std::erase_if(back, [&](OperationId id) {
        const Operation* operation = car.operation(id);
        return operation == nullptr || id == check.id || operation->state != OperationState::Closed;
    });
    return back;
}

bool checksOwnWork(const CarState& car, const Operation& operation, PersonId person,
                   const HouseRules& rules)
{
    return operation.spec->secondPerson == SecondPerson::Check &&
           didWorkChecked(car, operation, person, rules);
}

bool maySendBack(const Operation& work, PersonId person)
{
    return work.awaitsReceipt()
               ? std::ranges::find(work.segments, person, &Segment::person) == work.segments.end()
               : !work.doers().contains(person);
}

bool mayBeGiven(const Person& person, const CarState& car, const Operation& operation,
                const HouseRules& rules, QDate today)
{
    return !whyNotAble(person, operation.spec) && !whyNotQualified(person, operation.spec, today) &&
           !checksOwnWork(car, operation, person.id, rules);
}

bool isSafetyReading(const CarState& car, const Operation& operation, const Reading& reading)
{
    const PlaceId& place = reading.place.isEmpty() ? operation.place : reading.place;
    const bool atSafetyPlace = std::ranges::any_of(
        car.safetyPlaces, [&](const SafetyPlace& safety) { return safety.place == place; });
    return operation.spec->safety || atSafetyPlace ||
           std::ranges::any_of(car.operations, [&](const auto& entry) {
               const Operation& opened = entry.second;
               return opened.spec->safety && opened.state != OperationState::Withdrawn &&
                      contains(opened.fromReadings, reading.id);
           });
}

std::optional<Refusal> whyReadingStands(const CarState& car, const Operation& operation,
                                        const Reading& reading, PersonId by,
                                        const HouseRules& rules)
{
    bool opened = false;
    const Operation* left = nullptr;
    for (const auto& [id, followUp] : car.operations) {
        if (followUp.state == OperationState::Withdrawn ||
            !contains(followUp.fromReadings, reading.id))
            continue;
        opened = true;
        if (followUp.state == OperationState::LeftAsIs)
            left = &followUp;
        if (followUp.isOpen())
            return Refusal{RefusalId::NotYet,
                           {QStringLiteral("first finish “%1”, or correct the reading")
                                .arg(operationTitle(followUp.spec, followUp.place, rules))}};
    }
    const bool safety = isSafetyReading(car, operation, reading);
    const bool holds = safety && reading.outcome == ReadingOutcome::Outside;
    const bool workIsDone = opened ? left == nullptr : reading.workedSince;
    if (workIsDone || (reading.by == by && !holds))
        return std::nullopt;
    const QString misread =
        safety ? QStringLiteral("if it was misread, somebody else than who read it corrects it, "
                                "with the reason and a photo")
               : QStringLiteral("if it was misread, correct it with the reason");
    return Refusal{
        RefusalId::ReadingStands,
        {titleAndValue(questionOf(operation, reading), reading, rules),
         QStringLiteral("%1; %2").arg(whenAgain(operation, reading, holds, left, rules), misread)}};
}

bool isSafetyFigure(const CarState& car, const Operation& operation, const QString& key,
                    const PlaceId& place)
{
    Reading asked;
    asked.place = place;
    const Reading* taken = operation.reading(key, place);
    return isSafetyReading(car, operation, taken == nullptr ? asked : *taken);
}

bool isFigureInUse(const Operation& operation, const QString& key, const PlaceId& place)
{
    const Figure* standing = operation.figure(key, place);
    return operation.reading(key, place) != nullptr ||
           (standing != nullptr && !standing->correction.isEmpty());
}

std::set<PersonId> figureRecorders(const Operation& operation, const QString& key,
                                   const PlaceId& place, PersonId by)
{
    std::set<PersonId> people;
    const Reading* taken = operation.reading(key, place);
    if (taken != nullptr)
        people = operation.recorders(taken->id);
    bool slip = taken == nullptr;
    for (auto it = operation.figures.rbegin(); it != operation.figures.rend(); ++it) {
        if (it->key != key || it->place != place)
            continue;
        const bool first = it->correction.isEmpty();
        slip = slip && it->by == by && !first;
        if (!slip)
            people.insert(it->by);
        if (first)
            break;
    }
    return people;
}

const ReadingSpec* readAgainstFigureOf(const Operation& operation, PersonId person)
{
    for (const ReadingSpec& spec : operation.spec->readings) {
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places) {
            const Figure* figure = operation.figure(spec.key, place);
            if (figure != nullptr && figure->by == person &&
                operation.reading(spec.key, place) != nullptr)
                return &spec;
        }
    }
    return nullptr;
}

bool lacksIsolation(const Operation& operation)
{
    if (!operation.spec->highVoltageIsolation || operation.wasIsolated)
        return false;
    const bool begunHere = std::ranges::any_of(operation.segments, [&](const Segment& segment) {
        return segment.running() || segment.end > operation.reopenedAt;
    });
    return begunHere || !operation.outside || !operation.outside->received;
}

bool isInside(int value, const std::vector<Limit>& limits)
{
    return std::ranges::all_of(limits, [value](const Limit& limit) {
        return (!limit.min || value >= *limit.min) && (!limit.max || value <= *limit.max);
    });
}

} // namespace ramplight
