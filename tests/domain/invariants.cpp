// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "invariants.h"

#include "domain/eventcodec.h"
#include "domain/holds.h"

#include <algorithm>

namespace ramplight::test {

namespace {

QString sayOf(const Operation& operation, const char* what)
{
    return QStringLiteral("operation %1 (%2): %3")
        .arg(operation.id.value)
        .arg(operation.spec->id, QLatin1StringView(what));
}

std::vector<const Signature*> standing(const Operation& operation)
{
    std::vector<const Signature*> list;
    for (const Signature& signature : operation.signatures)
        if (!signature.voided)
            list.push_back(&signature);
    return list;
}

bool hasReading(const Operation& operation, const QString& key, const PlaceId& place)
{
    return std::ranges::any_of(operation.readings, [&](const Reading& reading) {
        return !reading.superseded && reading.key == key && reading.place == place &&
               reading.outcome != ReadingOutcome::Outside;
    });
}

QString brokenInClosedSafety(const CarState& car, const Operation& operation)
{
    const auto names = standing(operation);
    if (names.empty())
        return sayOf(operation, "closed without a name under it");
    if (operation.spec->secondPerson == SecondPerson::Countersign &&
        (names.size() != 2 || names[0]->by == names[1]->by))
        return sayOf(operation, "closed without two people's names");
    for (const ReadingSpec& spec : operation.spec->readings) {
        if (spec.optional)
            continue;
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places)
            if (!hasReading(operation, spec.key, place))
                return sayOf(operation, "closed without a reading inside its limit");
    }
    for (const Reading& reading : operation.readings)
        if (!reading.superseded && reading.outcome == ReadingOutcome::Outside)
            return sayOf(operation, "closed with a reading outside its limit");
    for (const PhotoSpec& spec : operation.spec->photos)
        if (std::ranges::none_of(car.photos,
                                 [&](const AttachedPhoto& photo) {
                                     return photo.operation == operation.id &&
                                            photo.moment == spec.moment &&
                                            (spec.moment == PhotoMoment::Before ||
                                             photo.at >= operation.reopenedAt);
                                 }) &&
            spec.moment != PhotoMoment::Before)
            return sayOf(operation, "closed without its photo");
    const bool begunHere = std::ranges::any_of(operation.segments, [&](const Segment& segment) {
        return segment.running() || segment.end > operation.reopenedAt;
    });
    const bool byFirm = operation.outside && operation.outside->received && !begunHere;
    if (operation.spec->highVoltageIsolation && !operation.wasIsolated && !byFirm)
        return sayOf(operation, "closed without isolation");
    return {};
}

/// Whoever signs a check did none of the work that it checks.
QString brokenInCheck(const CarState& car, const Operation& check, PersonId signer,
                      const HouseRules& rules)
{
    const bool everything = check.spec->checksWorkOf.contains(QStringLiteral("*"));
    if (everything && rules.finalCheckByWorker)
        return {};
    for (const auto& [id, work] : car.operations) {
        const bool isWork = work.spec->secondPerson != SecondPerson::Check &&
                            work.spec->skill != Skill::Office && id != check.id;
        const bool isChecked = everything || check.spec->checksWorkOf.contains(work.spec->id) ||
                               std::ranges::find(check.restsOn, id) != check.restsOn.end();
        if (!isWork || !isChecked)
            continue;
        for (const Segment& segment : work.segments)
            if (segment.person == signer)
                return sayOf(check, "signed by somebody who worked on what it checks");
        for (const Reading& reading : work.readings)
            if (reading.by == signer && reading.correction.isEmpty())
                return sayOf(check, "signed by somebody who measured at what it checks");
        for (const Signature& signature : work.signatures)
            if (signature.by == signer && signature.meaning != SignatureMeaning::Countersigned)
                return sayOf(check, "signed by somebody who signed what it checks");
    }
    return {};
}

QString brokenInRelease(const CarState& car, const CarEnvelope& entry, const SiteState& site)
{
    const Person* releaser = site.person(entry.by);
    if (releaser == nullptr || !releaser->active ||
        std::ranges::find(releaser->rights, Right::Release) == releaser->rights.end())
        return QStringLiteral("released by somebody without the right");
    if (!car.appraised)
        return QStringLiteral("released without an appraisal");
    // What the catalogue has no answer for is somebody's to decide first.
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && finding.undecided &&
            std::ranges::any_of(
                car.safetyPlaces,
                [&](const SafetyPlace& safety) { return safety.place == finding.data().place; }) &&
            std::ranges::none_of(car.operations, [&](const auto& entry_) {
                return std::ranges::find(entry_.second.findings, id) !=
                       entry_.second.findings.end();
            }))
            return QStringLiteral("released with a safety finding at %1 that nobody decided")
                .arg(finding.data().place.text);
    if (car.openDrafts() > 0)
        return QStringLiteral("released with spoken findings that nobody decided about");
    std::set<PersonId> names;
    for (const auto& [id, operation] : car.operations) {
        if (operation.isOpen())
            return sayOf(operation, "open at the release");
        if (operation.state == OperationState::LeftAsIs &&
            (operation.spec->safety || operation.leftWords.isEmpty()))
            return sayOf(operation, "left at the release, for safety or without words");
        if (operation.state == OperationState::Closed && operation.waitUntil > entry.at)
            return sayOf(operation, "still curing at the release");
        if (operation.spec->safety && operation.state == OperationState::Closed)
            for (const Signature* signature : standing(operation))
                names.insert(signature->by);
    }
    if (names.empty() || (names.size() == 1 && names.contains(entry.by)))
        return QStringLiteral("released by the only name under the safety work");
    return {};
}

/// The list of holds names all that keeps the car, whatever else would refuse the release, too.
QString missingInHolds(const CarState& car)
{
    const std::vector<Hold> listed = holds(car, HouseRules(), Moment());
    for (const SafetyPlace& safety : car.safetyPlaces)
        if (!car.seen.contains(safety.place) && std::ranges::none_of(listed, [&](const Hold& hold) {
                return hold.kind == HoldKind::SafetyPlaceNotSeen && hold.place == safety.place;
            }))
            return QStringLiteral("nobody looked at %1, and no hold says so")
                .arg(safety.place.text);
    for (const auto& [id, operation] : car.operations)
        if (operation.isOpen() && operation.spec->safety &&
            std::ranges::none_of(listed, [&](const Hold& hold) { return hold.operation == id; }))
            return sayOf(operation, "open for safety, and no hold says so");
    if (car.openDrafts() > 0 &&
        std::ranges::find(listed, HoldKind::SpokenNotReviewed, &Hold::kind) == listed.end())
        return QStringLiteral("spoken findings are not decided, and no hold says so");
    return {};
}

} // namespace

QString brokenInState(const CarState& car)
{
    for (const auto& [id, operation] : car.operations) {
        if (car.released && operation.isOpen())
            return sayOf(operation, "open on a released car");
        if (operation.spec->safety && operation.state == OperationState::LeftAsIs)
            return sayOf(operation, "a safety item that was left");
        if (operation.spec->safety && operation.state == OperationState::Closed)
            if (QString broken = brokenInClosedSafety(car, operation); !broken.isEmpty())
                return broken;
        if (operation.isRunning() != (operation.state == OperationState::InHand))
            return sayOf(operation, "in hand without a timer, or a timer without being in hand");
        if ((operation.state == OperationState::Blocked) !=
            (operation.isOpen() && (operation.part || operation.isAway())))
            return sayOf(operation, "blocked by nothing, or not blocked by something");
        for (const Segment& segment : operation.segments)
            if (segment.minutes() < 0 || (!segment.running() && segment.end < segment.start))
                return sayOf(operation, "minutes below nought");
    }
    if (car.left)
        if (!car.bay.isNull())
            return QStringLiteral("a car that is gone keeps its bay");
    if (!car.released)
        return car.left ? QString() : missingInHolds(car);
    if (car.isolation)
        return QStringLiteral("released with high voltage isolated");
    for (const SafetyPlace& safety : car.safetyPlaces)
        if (!car.seen.contains(safety.place))
            return QStringLiteral("released, and nobody looked at %1").arg(safety.place.text);
    return {};
}

QString brokenInStep(const CarState& before, const std::vector<CarEnvelope>& entries,
                     const SiteState& site)
{
    CarState car = before;
    const bool joins = std::ranges::any_of(entries, [](const CarEnvelope& entry) {
        return std::holds_alternative<DuplicateLinked>(entry.event);
    });
    for (const CarEnvelope& entry : entries) {
        QString broken;
        if (std::holds_alternative<CarReleased>(entry.event))
            broken = brokenInRelease(car, entry, site);
        if (const auto* signing = std::get_if<OperationSigned>(&entry.event)) {
            const Operation* operation = car.operation(signing->operation);
            if (signing->meaning == SignatureMeaning::CheckedTheWork)
                broken = brokenInCheck(car, *operation, entry.by, site.rules);
            if (signing->meaning == SignatureMeaning::Countersigned) {
                for (const Segment& segment : operation->segments)
                    if (segment.person == entry.by)
                        broken = sayOf(*operation, "countersigned by its doer");
                for (const Reading& reading : operation->readings)
                    if (reading.by == entry.by && reading.correction.isEmpty())
                        broken = sayOf(*operation, "countersigned by who measured at it");
            }
        }
        if (const auto* moved = std::get_if<CarMoved>(&entry.event); moved != nullptr && !joins)
            for (const auto& [id, operation] : car.operations)
                for (const Immobilises& rule : operation.spec->immobilises)
                    if (rule.from == RestraintFrom::Started && operation.isOpen() &&
                        !operation.segments.empty() && !moved->bay.isNull() &&
                        std::ranges::find(rule.what, Restraint::Move) != rule.what.end())
                        broken = sayOf(operation, "apart while the car was moved");
        if (const auto* withdrawn = std::get_if<OperationWithdrawn>(&entry.event))
            if (const Operation* gone = car.operation(withdrawn->operation);
                gone != nullptr && gone->isOpen() && !gone->segments.empty() &&
                gone->origin != Origin::Trigger &&
                std::ranges::find(gone->spec->immobilises, RestraintFrom::Started,
                                  &Immobilises::from) != gone->spec->immobilises.end())
                broken = sayOf(*gone, "withdrawn while the car is apart");
        if (const auto* withdrawn = std::get_if<OperationWithdrawn>(&entry.event))
            if (const Operation* gone = car.operation(withdrawn->operation);
                gone != nullptr && gone->isAway())
                broken = sayOf(*gone, "withdrawn while a firm has it");
        if (const auto* sent = std::get_if<SentOut>(&entry.event))
            for (const auto& [id, operation] : car.operations)
                for (const Immobilises& rule : operation.spec->immobilises)
                    if (rule.from == RestraintFrom::Started && operation.isOpen() &&
                        !operation.segments.empty() && sent->work.keys > 0 && id != sent->operation)
                        broken = sayOf(operation, "apart while the car was sent away");
        if (std::holds_alternative<PhotosRemoved>(entry.event) && !car.released && !car.left)
            broken = QStringLiteral("photos removed from a car in prep");
        if (!broken.isEmpty())
            return broken;
        apply(car, entry);
    }
    return {};
}

QString brokenInJoin(const CarState& kept, const CarState& ended)
{
    for (const Fact fact : ended.facts.has)
        if (!kept.facts.is(fact))
            return QStringLiteral("joined, and it lost that it has: %1").arg(nameOf(fact));
    for (const SafetyPlace& safety : ended.safetyPlaces)
        if (std::ranges::find(kept.safetyPlaces, safety.place, &SafetyPlace::place) ==
            kept.safetyPlaces.end())
            return QStringLiteral("joined, and it lost the safety place %1").arg(safety.place.text);
    if (kept.bay.isNull() && !ended.bay.isNull())
        return QStringLiteral("joined, and its bay reads free");
    return {};
}

QString brokenInTimers(const std::map<CarId, CarState>& cars)
{
    std::map<PersonId, std::vector<Segment>> people;
    for (const auto& [id, car] : cars)
        for (const auto& [number, operation] : car.operations)
            for (const Segment& segment : operation.segments)
                people[segment.person].push_back(segment);
    constexpr qint64 halfAMinute = 30'000; // corrected minutes are whole ones
    for (auto& [person, segments] : people) {
        std::ranges::sort(segments, {}, &Segment::start);
        for (std::size_t i = 0; i + 1 < segments.size(); ++i) {
            const Segment& segment = segments[i];
            const Moment next = segments[i + 1].start;
            const bool overlaps =
                segment.running() || segment.end > next ||
                (segment.correctedMinutes &&
                 segment.start.plusMinutes(*segment.correctedMinutes).ms > next.ms + halfAMinute);
            if (overlaps)
                return QStringLiteral("person %1 works twice at a time: from %2 to %3, and from %4")
                    .arg(person.value)
                    .arg(segment.start.ms)
                    .arg(segment.end.ms)
                    .arg(next.ms);
        }
    }
    return {};
}

QString brokenInStream(const CarState& car, const std::vector<CarEnvelope>& history)
{
    CarState replayed;
    replayed.id = car.id;
    Moment last;
    for (std::size_t i = 0; i < history.size(); ++i) {
        CarEnvelope entry = history[i];
        if (entry.seq != qint64(i) + 1)
            return QStringLiteral("entry %1 has number %2").arg(i + 1).arg(entry.seq);
        if (entry.at < last)
            return QStringLiteral("entry %1 goes back in time").arg(entry.seq);
        last = entry.at;
        const auto event = decodeCarEvent(encode(entry.event));
        if (!event)
            return event.error().words;
        entry.event = *event;
        apply(replayed, entry);
    }
    return replayed == car ? QString() : QStringLiteral("the replay makes another car");
}

} // namespace ramplight::test
