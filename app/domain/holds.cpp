// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/holds.h"

#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <set>

namespace ramplight {

namespace {

/// Makes sentences, or spares them: they cost more than all the rest, and who only asks whether
/// something holds reads none.
class Wording
{
public:
    static const Wording Made;
    static const Wording Spared;

    template <class Make>
    [[nodiscard]] QString operator()(const Make& make) const
    {
        return m_made ? QString(make()) : QString();
    }

private:
    constexpr explicit Wording(bool made)
        : m_made(made)
    {
    }
    bool m_made;
};
constexpr Wording Wording::Made{true};
constexpr Wording Wording::Spared{false};

QString titleOf(const Operation& operation, const HouseRules& rules)
{
    return operationTitle(operation.spec, operation.place, rules);
}

/// In the middle of a sentence: titles have commas and colons of their own.
QString quoted(const Operation& operation, const HouseRules& rules)
{
    return say("“%1”").arg(titleOf(operation, rules));
}

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
    const QStringList& after = operation.spec->after;
    return other.id != operation.id &&
           (after.contains(other.spec->id) || after.contains(QLatin1StringView("*"))) &&
           meets(operation.place, other.place);
}

QString stateWords(const Operation& operation)
{
    if (operation.awaitsReceipt())
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
    QDate today; // time zones take long: made once, and on most cars not at all
    for (const auto& [id, operation] : car.operations) {
        const QDate day = lastGoodDay(car, operation, rules);
        if (!day.isValid())
            continue;
        if (!today.isValid())
            today = dayOf(now, rules);
        if (day < today)
            old.push_back(id);
    }
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

namespace {

std::vector<Hold> found(const CarState& car, const HouseRules& rules, Moment now, Wording sentence)
{
    std::vector<Hold> all;
    if (!car.appraised)
        all.push_back({HoldKind::NotAppraised, true, {}, {}, {}, sentence([] {
                           return say("The appraisal is not finished.");
                       })});
    for (const SafetyPlace& unseen : notLookedAt(car)) {
        const Operation* inspection = nullptr;
        for (const auto& [id, operation] : car.operations)
            if (operation.isOpen() && operation.spec->id == unseen.inspection)
                inspection = &operation;
        all.push_back({HoldKind::SafetyPlaceNotSeen,
                       true,
                       inspection == nullptr ? OperationId{} : inspection->id,
                       unseen.place,
                       {},
                       sentence([&] {
                           const QString place = placeWords(unseen.place, rules);
                           return inspection == nullptr
                                      ? say("Nobody has looked at: %1.").arg(place)
                                      : say("Nobody has looked at: %1. %2 clears it.")
                                            .arg(place, quoted(*inspection, rules));
                       }),
                       inspection == nullptr ? unseen.inspection : QString()});
    }
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && finding.undecided && isSafetyPlace(car, finding.data().place) &&
            !isAnswered(car, id))
            all.push_back({HoldKind::UndecidedFinding,
                           true,
                           {},
                           finding.data().place,
                           id,
                           sentence([&, &data = finding.data()] {
                               return say("Nobody has decided what to do about: %1.")
                                   .arg(findingWords(data, rules));
                           })});
    // Until somebody decides, nobody knows that none of them is of safety.
    if (const int drafts = car.openDrafts(); drafts > 0)
        all.push_back({HoldKind::SpokenNotReviewed, true, {}, {}, {}, sentence([drafts] {
                           return drafts == 1
                                      ? say("A spoken walk-round has one finding that nobody has "
                                            "decided about. Review it.")
                                      : say("A spoken walk-round has %1 findings that nobody has "
                                            "decided about. Review them.")
                                            .arg(drafts);
                       })});
    for (const bool safety : {true, false})
        for (const auto& [id, operation] : car.operations)
            if (operation.isOpen() && operation.spec->safety == safety)
                all.push_back({safety ? HoldKind::SafetyOperation : HoldKind::OpenOperation,
                               safety,
                               id,
                               operation.place,
                               {},
                               sentence([&, &open = operation] {
                                   return QStringLiteral("%1 %2.").arg(titleOf(open, rules),
                                                                       stateWords(open));
                               })});
    if (car.isolation)
        all.push_back({HoldKind::Isolated, true, car.isolation->operation, {}, {}, sentence([&] {
                           return say("High voltage is isolated; lock kept at: %1.")
                               .arg(car.isolation->lockKeptAt);
                       })});
    for (const auto& [id, operation] : car.operations)
        if (operation.state == OperationState::Closed && operation.waitUntil > now)
            all.push_back({HoldKind::Curing,
                           operation.spec->safety,
                           id,
                           operation.place,
                           {},
                           sentence([&, &closed = operation] {
                               return say("%1: %2, %3 min more.")
                                   .arg(titleOf(closed, rules), closed.spec->wait.reason)
                                   .arg(std::max(1, minutesBetween(now, closed.waitUntil)));
                           })});
    // In days: people on either side of a border write dates in other ways.
    const auto daysSince = [&](Moment then) {
        return static_cast<int>(dayOf(then, rules).daysTo(dayOf(now, rules)));
    };
    for (const OperationId id : tooOld(car, rules, now)) {
        const Operation& operation = *car.operation(id);
        all.push_back(
            {HoldKind::TooOld,
             operation.spec->safety,
             {},
             operation.place,
             {},
             sentence([&] {
                 return say("%1 was done %2 ago, and counts for %3 (%4). Do it once more.")
                     .arg(titleOf(operation, rules),
                          valueWords(daysSince(operation.closedAt), 0, Unit::Day),
                          valueWords(*operation.spec->fresh->max, 0, Unit::Day),
                          words(operation.spec->fresh->owner));
             }),
             operation.spec->id});
    }
    std::ranges::stable_partition(all, &Hold::safety);
    return all;
}

} // namespace

std::vector<Hold> holds(const CarState& car, const HouseRules& rules, Moment now)
{
    return found(car, rules, now, Wording::Made);
}

std::vector<Hold> holdsWithoutWords(const CarState& car, const HouseRules& rules, Moment now)
{
    return found(car, rules, now, Wording::Spared);
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
    return statusOf(car, holdsWithoutWords(car, rules, now));
}

bool isOwnSlip(const CarState& car, const Finding& finding, PersonId person)
{
    const auto begun = [&](const auto& entry) {
        const Operation& o = entry.second;
        return std::ranges::find(o.findings, finding.id) != o.findings.end() &&
               (o.wasStarted() || o.isSigned());
    };
    return !car.appraised && finding.recorders() == std::set{person} &&
           std::ranges::none_of(car.operations, begun);
}

bool isOfOwnSlips(const CarState& car, const Operation& operation, PersonId person)
{
    return operation.restsOn.empty() && operation.fromReadings.empty() &&
           !operation.findings.empty() &&
           std::ranges::all_of(operation.findings, [&](FindingId id) {
               const Finding* finding = car.finding(id);
               return finding == nullptr || isOwnSlip(car, *finding, person);
           });
}

bool keepsCarApart(const Operation& operation)
{
    return operation.isOpen() && (operation.wasBegunHere() || operation.cameFromOutside) &&
           std::ranges::find(operation.spec->immobilises, RestraintFrom::Started,
                             &Immobilises::from) != operation.spec->immobilises.end();
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
                holdsNow = keepsCarApart(operation);
                break;
            case RestraintFrom::Waiting:
                holdsNow = operation.state == OperationState::Closed && operation.waitUntil > now;
                break;
            }
            if (holdsNow)
                for (const Restraint what : rule.what) {
                    // It came back from the firm itself, not right: it stands as it came.
                    if (what == Restraint::Move && rule.from == RestraintFrom::Started &&
                        !operation.wasBegunHere())
                        continue;
                    reasons.push_back(
                        {what, id, rule.words,
                         rule.from == RestraintFrom::Waiting ? operation.waitUntil : Moment{}});
                }
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

namespace {

/// What an operation has to wait for first; nothing: it can begin.
std::optional<QString> obstacle(const CarState& car, const Operation& operation,
                                const HouseRules& rules, Moment now, Wording sentence)
{
    for (const auto& [id, other] : car.operations)
        if (other.state == OperationState::Closed && other.waitUntil > now &&
            isBefore(other, operation))
            return sentence([&, &curing = other] {
                return say("%1: %2, %3 min more")
                    .arg(titleOf(curing, rules), curing.spec->wait.reason)
                    .arg(std::max(1, minutesBetween(now, curing.waitUntil)));
            });
    if (const std::vector<OperationId> first = comesFirst(car, operation); !first.empty())
        return sentence([&] {
            QStringList titles;
            for (const OperationId id : first)
                titles.append(quoted(*car.operation(id), rules));
            const qsizetype more = titles.size() - 3;
            QString list = titles.mid(0, 3).join(QStringLiteral(", "));
            if (more > 0)
                list = say("%1 and %2 more").arg(list).arg(more);
            return say("first finish %1").arg(list);
        });
    if (!operation.spec->needs.empty())
        for (const RestraintReason& reason : restraints(car, now))
            if (reason.operation != operation.id &&
                std::ranges::find(operation.spec->needs, reason.what) !=
                    operation.spec->needs.end())
                return reason.words;
    for (const auto& [id, other] : car.operations)
        if (id != operation.id && other.isRunning() && !mayRunBeside(operation.spec, other.spec))
            return sentence([&, &beside = other] {
                return say("%1 is in hand on this car, and this cannot be done beside it")
                    .arg(quoted(beside, rules));
            });
    return std::nullopt;
}

} // namespace

QString whyNotYet(const CarState& car, const Operation& operation, const HouseRules& rules,
                  Moment now)
{
    return obstacle(car, operation, rules, now, Wording::Made).value_or(QString());
}

bool isNotYet(const CarState& car, const Operation& operation, const HouseRules& rules, Moment now)
{
    return obstacle(car, operation, rules, now, Wording::Spared).has_value();
}

std::vector<const AttachedPhoto*> evidencePhotos(const Operation& operation, const CarState& car,
                                                 PhotoMoment moment)
{
    std::vector<const AttachedPhoto*> counted;
    std::set<PhotoId> known;
    for (const AttachedPhoto& photo : car.photos) {
        // A photo of the finding is the "before" of the work that answers it.
        const bool isOfIt = photo.operation.isNull()
                                ? photo.moment == PhotoMoment::Before &&
                                      std::ranges::find(operation.findings, photo.finding) !=
                                          operation.findings.end()
                                : photo.operation == operation.id;
        if (!isOfIt || !known.insert(photo.photo).second)
            continue;
        const bool isOfThisTime =
            photo.moment == PhotoMoment::Before || photo.at >= operation.reopenedAt;
        if (photo.moment == moment && isOfThisTime)
            counted.push_back(&photo);
    }
    return counted;
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
        if (wanted > 0 && wanted > std::ssize(evidencePhotos(operation, car, moment))) {
            for (const PhotoSpec& spec : operation.spec->photos)
                if (spec.moment == moment)
                    missing.append(say("photo %1: %2").arg(words(moment), spec.title));
        }
    }
    return missing;
}

} // namespace ramplight
