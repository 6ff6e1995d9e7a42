// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/holds.h"

#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

namespace {

bool isSafetyPlace(const CarState& car, const PlaceId& place)
{
    return std::ranges::any_of(car.safetyPlaces,
                               [&](const SafetyPlace& safety) { return safety.place == place; });
}

bool isAnswered(const CarState& car, FindingId finding)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return o.state != OperationState::Withdrawn &&
               std::ranges::find(o.findings, finding) != o.findings.end();
    });
}

/// Work at one corner concerns wheel and tyre alike; the whole car concerns every place.
bool meets(const PlaceId& a, const PlaceId& b)
{
    return a == b || a == wholeCar() || b == wholeCar() || wheelOf(a) == wheelOf(b);
}

/// The catalogue puts one before the other, and they meet.
bool isBefore(const Operation& other, const Operation& operation)
{
    return (operation.spec->after.contains(other.spec->id) ||
            operation.spec->after.contains(QStringLiteral("*"))) &&
           other.id != operation.id && meets(operation.place, other.place);
}

QString stateWords(const Operation& operation)
{
    if (operation.state == OperationState::AwaitingCheck && !operation.isSigned())
        return say("is back and awaits our own check");
    if (operation.state == OperationState::AwaitingCheck)
        return say("awaits a second signature");
    if (operation.state == OperationState::Blocked && operation.part)
        return say("waits for a part: %1").arg(operation.part->part);
    if (operation.state == OperationState::Blocked && operation.outside)
        return say("is with %1").arg(operation.outside->firm);
    if (!operation.sentBackWhy.isEmpty())
        return say("was sent back: %1").arg(operation.sentBackWhy);
    return say("is %1").arg(words(operation.state));
}

/// Its last good day; invalid when it counts for ever, or something newer or open takes its place.
QDate lastGoodDay(const CarState& car, const Operation& operation, const HouseRules& rules)
{
    if (!operation.spec->fresh || !operation.spec->fresh->max ||
        operation.state != OperationState::Closed)
        return {};
    const bool replaced = std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& other = entry.second;
        return other.id != operation.id && other.spec->id == operation.spec->id &&
               (other.isOpen() || (other.state == OperationState::Closed &&
                                   std::pair(other.closedAt, other.id) >
                                       std::pair(operation.closedAt, operation.id)));
    });
    return replaced ? QDate()
                    : dayOf(operation.closedAt, rules).addDays(*operation.spec->fresh->max);
}

} // namespace

QDate freshUntil(const CarState& car, const HouseRules& rules)
{
    QDate first;
    for (const auto& [id, operation] : car.operations)
        if (const QDate day = lastGoodDay(car, operation, rules);
            day.isValid() && (!first.isValid() || day < first))
            first = day;
    return first;
}

std::vector<OperationId> tooOld(const CarState& car, const HouseRules& rules, Moment now)
{
    std::vector<OperationId> old;
    for (const auto& [id, operation] : car.operations)
        if (const QDate day = lastGoodDay(car, operation, rules);
            day.isValid() && day < dayOf(now, rules))
            old.push_back(id);
    return old;
}

std::vector<SafetyPlace> notLookedAt(const CarState& car)
{
    std::vector<SafetyPlace> unseen;
    std::ranges::copy_if(
        car.safetyPlaces, std::back_inserter(unseen),
        [&](const SafetyPlace& safety) { return !car.seen.contains(safety.place); });
    return unseen;
}

std::vector<Hold> holds(const CarState& car, const HouseRules& rules, Moment now)
{
    std::vector<Hold> found;
    if (!car.appraised)
        found.push_back(
            {HoldKind::NotAppraised, true, {}, {}, {}, say("The appraisal is not finished.")});
    for (const SafetyPlace& unseen : notLookedAt(car)) {
        Hold hold{HoldKind::SafetyPlaceNotSeen,
                  true,
                  {},
                  unseen.place,
                  {},
                  say("Nobody has looked at: %1.").arg(placeWords(unseen.place, rules))};
        for (const auto& [id, operation] : car.operations)
            if (operation.isOpen() && operation.spec->id == unseen.inspection) {
                hold.operation = id;
                hold.words = say("Nobody has looked at: %1. %2 clears it.")
                                 .arg(placeWords(unseen.place, rules),
                                      operationTitle(operation.spec, operation.place, rules));
            }
        found.push_back(hold);
    }
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && finding.undecided && isSafetyPlace(car, finding.data().place) &&
            !isAnswered(car, id))
            found.push_back({HoldKind::UndecidedFinding,
                             true,
                             {},
                             finding.data().place,
                             id,
                             say("Nobody has decided what to do about: %1.")
                                 .arg(findingWords(finding.data(), rules))});
    for (const bool safety : {true, false})
        for (const auto& [id, operation] : car.operations)
            if (operation.isOpen() && operation.spec->safety == safety)
                found.push_back({safety ? HoldKind::SafetyOperation : HoldKind::OpenOperation,
                                 safety,
                                 id,
                                 operation.place,
                                 {},
                                 QStringLiteral("%1 %2.").arg(
                                     operationTitle(operation.spec, operation.place, rules),
                                     stateWords(operation))});
    if (car.isolation)
        found.push_back(
            {HoldKind::Isolated,
             true,
             car.isolation->operation,
             {},
             {},
             say("High voltage is isolated; lock kept at: %1.").arg(car.isolation->lockKeptAt)});
    for (const auto& [id, operation] : car.operations)
        if (operation.state == OperationState::Closed && operation.waitUntil > now)
            found.push_back({HoldKind::Curing,
                             operation.spec->safety,
                             id,
                             operation.place,
                             {},
                             say("%1: %2, %3 min more.")
                                 .arg(operationTitle(operation.spec, operation.place, rules),
                                      operation.spec->wait.reason)
                                 .arg(std::max(1, minutesBetween(now, operation.waitUntil)))});
    for (const OperationId id : tooOld(car, rules, now)) {
        const Operation& operation = *car.operation(id);
        found.push_back({HoldKind::TooOld,
                         operation.spec->safety,
                         {},
                         operation.place,
                         {},
                         say("%1 was done on %2, and counts for %3 (%4). Do it once more.")
                             .arg(operationTitle(operation.spec, operation.place, rules),
                                  dayOf(operation.closedAt, rules).toString(Qt::ISODate),
                                  valueWords(*operation.spec->fresh->max, 0, Unit::Day),
                                  words(operation.spec->fresh->owner))});
    }
    std::ranges::stable_partition(found, &Hold::safety);
    return found;
}

CarStatus statusOf(const CarState& car, const std::vector<Hold>& held)
{
    if (car.left)
        return CarStatus::Withdrawn;
    if (car.released)
        return CarStatus::Released;
    if (!car.appraised)
        return CarStatus::Arriving;
    if (held.empty())
        return CarStatus::ReadyForRelease;
    return held.front().safety ? CarStatus::Held : CarStatus::InPrep;
}

CarStatus statusOf(const CarState& car, const HouseRules& rules, Moment now)
{
    return statusOf(car, holds(car, rules, now));
}

bool isOwnSlip(const CarState& car, const Finding& finding, PersonId person)
{
    const auto isOwn = [&](const FindingVersion& version) { return version.by == person; };
    const auto begun = [&](const auto& entry) {
        const Operation& o = entry.second;
        return std::ranges::find(o.findings, finding.id) != o.findings.end() &&
               (o.wasStarted() || o.isSigned());
    };
    return !car.appraised && std::ranges::all_of(finding.versions, isOwn) &&
           std::ranges::none_of(car.operations, begun);
}

std::vector<RestraintReason> restraints(const CarState& car, Moment now)
{
    std::vector<RestraintReason> reasons;
    for (const auto& [id, operation] : car.operations)
        for (const Immobilises& rule : operation.spec->immobilises) {
            bool holdsNow = false;
            switch (rule.from) {
            case RestraintFrom::Opened:
                holdsNow = operation.isOpen();
                break;
            case RestraintFrom::Started:
                holdsNow = operation.isOpen() && operation.wasStarted();
                break;
            case RestraintFrom::Waiting:
                holdsNow = operation.state == OperationState::Closed && operation.waitUntil > now;
                break;
            }
            if (holdsNow)
                for (const Restraint what : rule.what)
                    reasons.push_back({what, id, rule.words});
        }
    if (car.isolation)
        reasons.push_back(
            {Restraint::Power, car.isolation->operation, say("high voltage is isolated")});
    std::ranges::stable_sort(reasons, {}, &RestraintReason::what);
    return reasons;
}

bool mayRunBeside(const OperationSpec& one, const OperationSpec& other)
{
    const auto allows = [](const OperationSpec& a, const OperationSpec& b) {
        return a.beside.contains(QStringLiteral("*")) || a.beside.contains(b.id);
    };
    return allows(one, other) && allows(other, one);
}

std::vector<OperationId> comesFirst(const CarState& car, const Operation& operation)
{
    std::vector<OperationId> first;
    for (const auto& [id, other] : car.operations)
        if (other.isOpen() && isBefore(other, operation))
            first.push_back(id);
    return first;
}

QString whyNotYet(const CarState& car, const Operation& operation, const HouseRules& rules,
                  Moment now)
{
    for (const auto& [id, other] : car.operations)
        if (isBefore(other, operation) && other.state == OperationState::Closed &&
            other.waitUntil > now)
            return say("%1: %2, %3 min more")
                .arg(operationTitle(other.spec, other.place, rules), other.spec->wait.reason)
                .arg(std::max(1, minutesBetween(now, other.waitUntil)));
    QStringList first;
    for (const OperationId id : comesFirst(car, operation)) {
        const Operation& other = *car.operation(id);
        first.append(operationTitle(other.spec, other.place, rules));
    }
    if (!first.isEmpty()) {
        const qsizetype more = first.size() - 3;
        QString list = first.mid(0, 3).join(QStringLiteral(", "));
        if (more > 0)
            list = say("%1 and %2 more").arg(list).arg(more);
        return say("first finish %1").arg(list);
    }
    for (const RestraintReason& reason : restraints(car, now))
        if (reason.operation != operation.id &&
            std::ranges::find(operation.spec->needs, reason.what) != operation.spec->needs.end())
            return reason.words;
    for (const auto& [id, other] : car.operations)
        if (id != operation.id && other.isRunning() && !mayRunBeside(operation.spec, other.spec))
            return say("%1 is in hand on this car, and this cannot be done beside it")
                .arg(operationTitle(other.spec, other.place, rules));
    return {};
}

QStringList missingEvidence(const Operation& operation, const CarState& car,
                            const HouseRules& rules)
{
    QStringList missing;
    for (const ReadingSpec& spec : operation.spec->readings) {
        if (spec.optional)
            continue;
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        QStringList at;
        bool any = false;
        for (const PlaceId& place : places)
            if (operation.reading(spec.key, place) == nullptr) {
                any = true;
                if (!place.isEmpty())
                    at.append(placeWords(place, rules));
            }
        if (any)
            missing.append(
                at.isEmpty() || at.size() == qsizetype(places.size())
                    ? spec.title
                    : QStringLiteral("%1 (%2)").arg(spec.title, at.join(QStringLiteral(", "))));
    }
    for (const PhotoMoment moment :
         {PhotoMoment::Before, PhotoMoment::During, PhotoMoment::After}) {
        const auto wanted = std::ranges::count_if(
            operation.spec->photos, [&](const PhotoSpec& spec) { return spec.moment == moment; });
        const auto present = std::ranges::count_if(car.photos, [&](const AttachedPhoto& photo) {
            if (photo.moment != moment)
                return false;
            // A photo of the finding is the "before" of the work that answers it.
            if (photo.operation.isNull())
                return moment == PhotoMoment::Before &&
                       std::ranges::find(operation.findings, photo.finding) !=
                           operation.findings.end();
            return photo.operation == operation.id &&
                   (moment == PhotoMoment::Before || photo.at >= operation.reopenedAt);
        });
        if (present < wanted) {
            for (const PhotoSpec& spec : operation.spec->photos)
                if (spec.moment == moment)
                    missing.append(say("photo %1: %2").arg(words(moment), spec.title));
        }
    }
    return missing;
}

} // namespace ramplight
