// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/car.h"

#include <algorithm>
#include <numeric>

namespace ramplight {

Operation::Operation() = default;
Operation::Operation(const Operation& other) = default;
Operation::Operation(Operation&& other) noexcept = default;
Operation& Operation::operator=(const Operation& other) = default;
Operation& Operation::operator=(Operation&& other) noexcept = default;
Operation::~Operation() = default;

CarState::CarState() = default;
CarState::CarState(const CarState& other) = default;
CarState::CarState(CarState&& other) noexcept = default;
CarState& CarState::operator=(const CarState& other) = default;
CarState& CarState::operator=(CarState&& other) noexcept = default;
CarState::~CarState() = default;

std::set<PersonId> Finding::recorders() const
{
    std::set<PersonId> people = carriedBy;
    for (const FindingVersion& version : versions)
        people.insert(version.by);
    return people;
}

bool Operation::isOpen() const
{
    switch (state) {
    case OperationState::Waiting:
    case OperationState::InHand:
    case OperationState::Paused:
    case OperationState::AwaitingCheck:
    case OperationState::Blocked:
        return true;
    case OperationState::Closed:
    case OperationState::LeftAsIs:
    case OperationState::Withdrawn:
        return false;
    }
    return false;
}

bool Operation::isRunning() const
{
    return std::ranges::any_of(segments, &Segment::running);
}

bool Operation::wasBegunHere() const
{
    return !segments.empty() || partWasOutside || (outside && outside->keys == 0);
}

bool Operation::awaitsSecond() const
{
    return state == OperationState::AwaitingCheck && isSigned();
}

bool Operation::awaitsReceipt() const
{
    return state == OperationState::AwaitingCheck && !isSigned();
}

bool Operation::isSigned() const
{
    return std::ranges::any_of(signatures, [](const Signature& s) { return !s.voided; });
}

std::optional<QDate> Operation::due() const
{
    if (state == OperationState::Blocked && part)
        return part->due;
    if (state == OperationState::Blocked && isAway())
        return outside->dueBack;
    return std::nullopt;
}

bool Operation::isBegun() const
{
    return std::ranges::any_of(
               segments, [&](const Segment& s) { return s.running() || s.end > reopenedAt; }) ||
           std::ranges::any_of(readings, [](const Reading& r) { return !r.superseded; });
}

int Operation::minutes() const
{
    return std::accumulate(segments.begin(), segments.end(), 0,
                           [](int sum, const Segment& s) { return sum + s.minutes(); });
}

std::set<PersonId> Operation::doers() const
{
    std::set<PersonId> people;
    for (const Segment& segment : segments)
        people.insert(segment.person);
    for (const Signature& signature : signatures)
        if (signature.meaning != SignatureMeaning::Countersigned)
            people.insert(signature.by);
    // Who enters a torque had the wrench in hand. A correction is by somebody else than the doer.
    for (const Reading& reading : readings)
        if (reading.correction.isEmpty())
            people.insert(reading.by);
    return people;
}

const Reading* Operation::reading(const QString& key, const PlaceId& at) const
{
    for (auto it = readings.rbegin(); it != readings.rend(); ++it)
        if (!it->superseded && it->key == key && it->place == at)
            return &*it;
    return nullptr;
}

const Figure* Operation::figure(const QString& key, const PlaceId& at) const
{
    for (auto it = figures.rbegin(); it != figures.rend(); ++it)
        if (it->key == key && it->place == at)
            return &*it;
    return nullptr;
}

std::set<PersonId> Operation::recorders(ReadingId wanted) const
{
    std::set<PersonId> people;
    const auto last = std::ranges::find(readings, wanted, &Reading::id);
    if (last == readings.end())
        return people;
    // A correction stands behind what it corrects, with the same key and place.
    for (auto it = std::make_reverse_iterator(std::next(last)); it != readings.rend(); ++it) {
        if (it->key != last->key || it->place != last->place)
            continue;
        people.insert(it->by);
        if (it->correction.isEmpty())
            break;
    }
    return people;
}

void Operation::workedOn()
{
    for (Reading& reading : readings)
        reading.workedSince = true;
}

const Operation* CarState::operation(OperationId wanted) const
{
    const auto it = operations.find(wanted);
    return it == operations.end() ? nullptr : &it->second;
}

int SpokenReview::open() const
{
    return static_cast<int>(std::ranges::count(decisions, DraftEnd::Open, &DraftDecision::end));
}

const SpokenReview* CarState::review(const TranscriptId& transcript) const
{
    const auto it = std::ranges::find(spoken, transcript,
                                      [](const SpokenReview& r) { return r.round.transcript; });
    return it == spoken.end() ? nullptr : &*it;
}

const SpokenDraft* CarState::draft(const DraftRef& ref) const
{
    const SpokenReview* heard = review(ref.transcript);
    return heard == nullptr || ref.draft < 0 ||
                   ref.draft >= static_cast<int>(heard->round.drafts.size())
               ? nullptr
               : &heard->round.drafts[static_cast<std::size_t>(ref.draft)];
}

int CarState::openDrafts() const
{
    int count = 0;
    for (const SpokenReview& heard : spoken)
        count += heard.open();
    return count;
}

const Finding* CarState::finding(FindingId wanted) const
{
    const auto it = findings.find(wanted);
    return it == findings.end() ? nullptr : &it->second;
}

const PhotoFate* CarState::removedPhoto(const PhotoId& photo) const
{
    const auto it = photoFates.find(photo);
    return it == photoFates.end() || !it->second.isRemoved() ? nullptr : &it->second;
}

bool CarState::isKnownOtherwise(const PlaceId& place) const
{
    return treads.contains(place) ||
           std::ranges::any_of(findings,
                               [&](const auto& entry) {
                                   const Finding& f = entry.second;
                                   return f.data().place == place && !f.slip;
                               }) ||
           std::ranges::any_of(operations, [&](const auto& entry) {
               const Operation& o = entry.second;
               return o.state == OperationState::Closed &&
                      std::ranges::find(o.spec->clears, place) != o.spec->clears.end();
           });
}

bool CarState::hasFinding(const PlaceId& place) const
{
    return std::ranges::any_of(findings, [&](const auto& entry) {
        return entry.second.stands() && entry.second.data().place == place;
    });
}

bool CarState::hasFinding(const PlaceId& place, Condition condition) const
{
    return std::ranges::any_of(findings, [&](const auto& entry) {
        const Finding& finding = entry.second;
        return finding.stands() && finding.data().place == place &&
               finding.data().condition == condition;
    });
}

std::vector<const Operation*> CarState::openOperations() const
{
    std::vector<const Operation*> open;
    for (const auto& [key, operation] : operations)
        if (operation.isOpen())
            open.push_back(&operation);
    return open;
}

const Segment* CarState::runningSegment(PersonId person, OperationId* where) const
{
    for (const auto& [key, operation] : operations)
        for (const Segment& segment : operation.segments)
            if (segment.running() && segment.person == person) {
                if (where != nullptr)
                    *where = key;
                return &segment;
            }
    return nullptr;
}

std::optional<OdometerReading> CarState::lastOdometer() const
{
    const bool none = odometer.empty();
    // What came over from a second entry may have been read before this one was made.
    if (!none && (facts.odometer == 0 || odometer.back().at >= arrivedAt))
        return odometer.back();
    if (facts.odometer == 0)
        return std::nullopt;
    return OdometerReading{facts.odometer, facts.odometerUnit, factsBy.odometer, arrivedAt, {}, {}};
}

DistanceUnit CarState::unitOf(const std::optional<OdometerReading>& read) const
{
    return read && read->at >= factsBy.unitAt ? read->unit : facts.odometerUnit;
}

} // namespace ramplight
