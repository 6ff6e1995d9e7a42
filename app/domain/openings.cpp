// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/openings.h"

#include "domain/contains.h"
#include "domain/findingrules.h"
#include "domain/holds.h"

#include <algorithm>
#include <set>

namespace ramplight {

PlaceId placeOfWork(Scope scope, const PlaceId& asked)
{
    if (scope == Scope::Car || asked.isEmpty())
        return wholeCar();
    const PlaceInfo* info = placeInfo(asked);
    if (scope == Scope::Axle && info != nullptr) {
        if (info->axle == Axle::Front)
            return PlaceId{QStringLiteral("brakes-front")};
        if (info->axle == Axle::Rear)
            return PlaceId{QStringLiteral("brakes-rear")};
    }
    return asked;
}

bool saysSomething(const Operation& operation)
{
    return operation.state == OperationState::Closed || (operation.isOpen() && operation.isBegun());
}

bool isAnsweredBeside(const CarState& car, FindingId finding, OperationId takenOut)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return entry.first != takenOut && !o.spec->access && o.state != OperationState::Withdrawn &&
               contains(o.findings, finding);
    });
}

bool isAccessWanted(const CarState& car, const Operation& access)
{
    return std::ranges::any_of(access.findings, [&](FindingId finding) {
        return isAnsweredBeside(car, finding, access.id);
    });
}

std::vector<OperationId> answersTo(const CarState& car, FindingId finding)
{
    std::vector<OperationId> answers;
    for (const auto& [id, operation] : car.operations)
        if (operation.state != OperationState::Withdrawn && contains(operation.findings, finding))
            answers.push_back(id);
    return answers;
}

int thingsLeft(const CarState& car)
{
    const auto work = std::ranges::count_if(car.operations, [](const auto& entry) {
        return entry.second.state == OperationState::LeftAsIs;
    });
    const auto found = std::ranges::count_if(car.findings, [&](const auto& entry) {
        const Finding& finding = entry.second;
        return finding.stands() && finding.disclosed && answersTo(car, finding.id).empty();
    });
    return static_cast<int>(work + found);
}

std::vector<FindingId> disclosedWithout(const CarState& car, const Operation& takenOut)
{
    std::vector<FindingId> disclosed;
    std::ranges::copy_if(takenOut.findings, std::back_inserter(disclosed), [&](FindingId finding) {
        return !isAnsweredBeside(car, finding, takenOut.id);
    });
    return disclosed;
}

bool goesWithFacts(const CarState& before, const Operation& operation, const CarFacts& facts)
{
    if (!operation.isOpen() || !operation.findings.empty() || !operation.fromReadings.empty() ||
        keepsCarApart(operation) || operation.isAway())
        return false;
    const std::optional<Fact>& only = operation.spec->ifFact;
    if (only && before.facts.is(*only) && !facts.is(*only))
        return true;
    return operation.origin == Origin::Trigger && !operation.restsOn.empty() &&
           std::ranges::none_of(operation.restsOn, [&](OperationId id) {
               const Operation* base = before.operation(id);
               return base == nullptr ||
                      std::ranges::any_of(base->spec->triggers, [&](const Trigger& trigger) {
                          return trigger.opens == operation.spec->id && fits(trigger.ifFact, facts);
                      });
           });
}

bool isTakenIn(const CarState& car, const Operation& operation)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& other = entry.second;
        return other.isOpen() && (other.spec->safety || !operation.spec->safety) &&
               other.place == operation.place && other.spec->covers.contains(operation.spec->id) &&
               std::ranges::all_of(operation.findings, [&](FindingId finding) {
                   return contains(other.findings, finding);
               });
    });
}

namespace {

/// The kinds of safety work that closing such work makes due on cars with those facts, and closing
/// that.
void addSafetyAhead(const OperationSpec& spec, const CarFacts& facts, const Catalogue& catalogue,
                    std::set<QString>& seen, std::set<QString>& ahead)
{
    for (const Trigger& trigger : spec.triggers) {
        const OperationSpec* next = catalogue.find(trigger.opens);
        if (next == nullptr || !fits(trigger.ifFact, facts) || !fits(next->ifFact, facts))
            continue;
        if (next->safety)
            ahead.insert(next->id);
        if (seen.insert(next->id).second)
            addSafetyAhead(*next, facts, catalogue, seen, ahead);
    }
}

std::set<QString> safetyAhead(const Operation& operation, const CarFacts& facts,
                              const Catalogue& catalogue)
{
    std::set<QString> seen;
    std::set<QString> ahead;
    addSafetyAhead(operation.spec, facts, catalogue, seen, ahead);
    return ahead;
}

} // namespace

bool takesSafetyAway(const CarState& before, const CarState& now, PersonId by,
                     const Catalogue* catalogue)
{
    const bool placesGo = std::ranges::any_of(before.safetyPlaces, [&](const SafetyPlace& place) {
        return std::ranges::find(now.safetyPlaces, place) == now.safetyPlaces.end();
    });
    const bool findingsGo = std::ranges::any_of(before.findings, [&](const auto& entry) {
        const Finding& finding = entry.second;
        return finding.stands() && !now.finding(finding.id)->stands() &&
               std::ranges::find(before.safetyPlaces, finding.data().place, &SafetyPlace::place) !=
                   before.safetyPlaces.end() &&
               !isOwnSlip(before, finding, by);
    });
    const bool workGoes = std::ranges::any_of(before.operations, [&](const auto& entry) {
        const Operation& was = entry.second;
        const Operation& is = *now.operation(was.id);
        return was.spec->safety && was.isOpen() && is.state == OperationState::Withdrawn &&
               !isTakenIn(now, is) && !isOfOwnSlips(before, was, by);
    });
    const bool comesNoMore =
        catalogue != nullptr && std::ranges::any_of(before.operations, [&](const auto& entry) {
            const Operation& was = entry.second;
            return was.isOpen() && now.operation(was.id)->isOpen() &&
                   !std::ranges::includes(safetyAhead(was, now.facts, *catalogue),
                                          safetyAhead(was, before.facts, *catalogue));
        });
    return placesGo || findingsGo || workGoes || comesNoMore;
}

QString followUpOf(const ReadingSpec& spec, const ReadingValue& value, ReadingOutcome outcome)
{
    if (spec.kind == ReadingKind::Choice) {
        const auto option = std::ranges::find(spec.options, value.text, &ChoiceOption::id);
        return option == spec.options.end() ? QString() : option->opens;
    }
    return outcome == ReadingOutcome::Outside ? spec.opens : QString();
}

int minutesOfWaiting(const Operation& operation)
{
    const WaitingTime& wait = operation.spec->wait;
    const int usual = wait.within ? 0 : wait.usual;
    const Reading* given =
        wait.reading.isEmpty() ? nullptr : operation.reading(wait.reading, PlaceId{});
    return given == nullptr ? usual : given->value.number.value_or(usual);
}

bool isOfWaiting(const Operation& operation, const QString& key)
{
    return !key.isEmpty() && operation.spec->wait.reading == key;
}

bool isNoWaiting(const Operation& operation, const QString& key, const ReadingValue& value)
{
    return isOfWaiting(operation, key) && value.number && *value.number < 1;
}

Moment waitCorrected(const Operation& operation, const QString& key, const ReadingValue& value)
{
    return operation.state == OperationState::Closed && isOfWaiting(operation, key) && value.number
               ? operation.closedAt.plusMinutes(*value.number)
               : Moment{};
}

} // namespace ramplight
