// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"

#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/gauging.h"
#include "domain/holds.h"
#include "domain/openings.h"

#include <algorithm>
#include <cstdlib>

namespace ramplight {

namespace {

/// Nobody has touched it, and it is only there because of findings.
bool isPlan(const Operation& operation)
{
    return operation.isOpen() && operation.origin == Origin::Finding && !operation.wasStarted() &&
           operation.state == OperationState::Waiting && operation.restsOn.empty() &&
           operation.fromReadings.empty();
}

} // namespace

std::vector<SafetyPlace> safetyPlacesFor(const Catalogue& catalogue, const CarFacts& facts)
{
    std::vector<SafetyPlace> places;
    std::ranges::copy_if(catalogue.safetyPlaces, std::back_inserter(places),
                         [&](const SafetyPlace& place) { return fits(place.ifFact, facts); });
    return places;
}

CarWork::CarWork(CarState& state, const CarContext& context)
    : m_car(state)
    , m_context(context)
    , m_now(std::max({context.now, state.lastAt, context.notBefore}))
{
}

bool CarWork::can(Right right) const
{
    const Person* p = person();
    return p != nullptr && p->can(right);
}

QString CarWork::nameOf(PersonId id) const
{
    const Person* p = m_context.site->person(id);
    return p == nullptr || p->name.isEmpty() ? QStringLiteral("person %1").arg(id.value) : p->name;
}

void CarWork::add(CarEvent event)
{
    apply(m_car, CarEnvelope{m_car.seq + 1, m_now, m_context.actor, {}, event});
    m_events.push_back(std::move(event));
}

MaybeRefusal CarWork::needs(Right right) const
{
    return needsAny({right});
}

MaybeRefusal CarWork::needsAny(std::initializer_list<Right> rights) const
{
    return whyNotAllowed(person(), rights);
}

MaybeRefusal CarWork::mayWorkOn(const Operation& operation) const
{
    const Person* p = person();
    if (p == nullptr || !p->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    if (auto no = whyNotAble(*p, operation.spec))
        return no;
    return operation.spec->qualification ? whyNotQualified(*p, operation.spec, today())
                                         : std::nullopt;
}

MaybeRefusal CarWork::mayReceive(const Operation& operation) const
{
    const Person* p = person();
    if (p == nullptr || !p->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    return whyNotReceiving(*p, operation.spec);
}

MaybeRefusal CarWork::mayCheck(const Operation& operation) const
{
    if (operation.spec->secondPerson == SecondPerson::Check &&
        didWorkChecked(m_car, operation, actor(), rules()))
        return Refusal{RefusalId::CheckByDoer, {}};
    return std::nullopt;
}

bool CarWork::found() const
{
    return std::ranges::any_of(m_events, [](const CarEvent& event) {
        return std::holds_alternative<FindingRecorded>(event);
    });
}

MaybeRefusal CarWork::mayJoinWith(const CarId& other) const
{
    if (auto no = needsAny({Right::Appraise, Right::Manage}))
        return no;
    if (other == m_car.id)
        return Refusal{RefusalId::SameCar, {}};
    if (m_context.other == nullptr || !m_context.other->exists())
        return Refusal{RefusalId::CarMissing, {}};
    return std::nullopt;
}

MaybeRefusal CarWork::maySafelyCorrect(const std::set<PersonId>& recordedBy,
                                       const PhotoId& evidence) const
{
    if (recordedBy.contains(actor()))
        return Refusal{RefusalId::SecondPersonNeeded, {nameOf(actor())}};
    return mustBeShown(evidence);
}

MaybeRefusal CarWork::mustBeShown(const PhotoId& evidence) const
{
    if (evidence.isEmpty())
        return Refusal{RefusalId::EvidenceMissing, {}};
    // What was on the car before shows nothing new, whatever it was attached to.
    if (m_car.photoFates.contains(evidence))
        return Refusal{RefusalId::EvidenceNotFresh, {}};
    return std::nullopt;
}

void attachPhoto(CarWork& work, const PhotoAttached& photo)
{
    const bool isOfCar = photo.operation.isNull() && photo.finding.isNull();
    const bool isThere = std::ranges::any_of(work.car().photos, [&](const AttachedPhoto& known) {
        return known.photo == photo.photo && known.moment == photo.moment &&
               known.operation == photo.operation && known.finding == photo.finding &&
               (!isOfCar || known.place == photo.place);
    });
    // One that was removed under the house's retention is kept again.
    if (!isThere || work.car().removedPhoto(photo.photo) != nullptr)
        work.add(photo);
}

bool CarWork::isSafetyPlace(const PlaceId& place) const
{
    return std::ranges::any_of(m_car.safetyPlaces,
                               [&](const SafetyPlace& safety) { return safety.place == place; });
}

QString CarWork::titleOf(const Operation& operation) const
{
    return operationTitle(operation.spec, operation.place, rules());
}

void CarWork::open(const OperationSpec& spec, const PlaceId& place, const Reason& reason)
{
    const PlaceId at = placeOfWork(spec.scope, place);
    for (const auto& [id, existing] : m_car.operations) {
        if (!existing.isOpen() || existing.spec->id != spec.id || existing.place != at ||
            existing.state == OperationState::AwaitingCheck)
            continue;
        // Findings can be taken along while the work goes on; a check or follow-up that was
        // already begun says nothing about what happened after it began.
        if (existing.wasStarted() && reason.origin != Origin::Finding)
            continue;
        add(OperationExtended{id, reason.findings, reason.restsOn, reason.readings});
        return;
    }
    if (reason.origin == Origin::Finding)
        if (const Operation* other = covering(spec.id, at)) {
            add(OperationExtended{other->id, reason.findings, reason.restsOn, reason.readings});
            return;
        }
    OperationOpened opened;
    opened.operation = OperationId{m_car.nextOperation};
    opened.spec = spec;
    opened.place = at;
    opened.origin = reason.origin;
    opened.reason = reason.words;
    opened.findings = reason.findings;
    opened.restsOn = reason.restsOn;
    opened.fromReadings = reason.readings;
    opened.catalogueHash = catalogue().hash;
    const QString title = operationTitle(spec, at, rules());
    const OperationId fresh = opened.operation;
    add(std::move(opened));
    if (reason.origin == Origin::Finding)
        takeIn(fresh);
    if (spec.secondPerson == SecondPerson::Check)
        return;
    std::vector<OperationId> stale;
    for (const auto& [id, existing] : m_car.operations)
        if (checksEverything(existing.spec) && saysSomething(existing))
            stale.push_back(id);
    for (const OperationId id : stale)
        reopen(id, QStringLiteral("work was added after it: %1").arg(title), {});
}

void CarWork::answer(FindingId finding, const Answer& with)
{
    const PlaceId place = m_car.finding(finding)->data().place;
    for (const QString& kind : with.kinds)
        if (const OperationSpec* spec = catalogue().find(kind))
            open(*spec, place, {Origin::Finding, {}, {finding}, {}, {}});
}

const Operation* CarWork::covering(const QString& kind, const PlaceId& place) const
{
    for (const auto& [id, operation] : m_car.operations)
        if (operation.isOpen() && !operation.wasStarted() && operation.place == place &&
            operation.spec->covers.contains(kind))
            return &operation;
    return nullptr;
}

void CarWork::takeIn(OperationId coveringId)
{
    const Operation all = *m_car.operation(coveringId);
    std::vector<OperationId> covered;
    for (const auto& [id, operation] : m_car.operations)
        if (isPlan(operation) && operation.place == all.place &&
            all.spec->covers.contains(operation.spec->id))
            covered.push_back(id);
    for (const OperationId id : covered) {
        add(OperationExtended{coveringId, m_car.operation(id)->findings, {}, {}});
        withdraw(id, QStringLiteral("%1 does it, too").arg(titleOf(all)));
    }
}

void CarWork::openTriggered(OperationId closedId)
{
    const Operation closed = *m_car.operation(closedId);
    for (const Trigger& trigger : closed.spec->triggers) {
        const OperationSpec* spec = catalogue().find(trigger.opens);
        if (spec != nullptr && fits(trigger.ifFact, m_car.facts) && fits(spec->ifFact, m_car.facts))
            open(*spec, closed.place, {Origin::Trigger, {}, {}, {closedId}, {}});
    }
}

const SteadyTimer* CarWork::steadyOf(const Segment& segment) const
{
    const auto steady = std::ranges::find_if(m_context.steadyTimers, [&](const SteadyTimer& timer) {
        return timer.person == segment.person && timer.start == segment.start && timer.ranMs >= 0;
    });
    return steady == m_context.steadyTimers.end() ? nullptr : &*steady;
}

bool CarWork::hasBegunBefore(const Segment& segment, Moment at) const
{
    if (segment.start < at)
        return true;
    const SteadyTimer* steady = steadyOf(segment);
    return steady != nullptr && m_context.now.ms - steady->ranMs < at.ms;
}

void CarWork::stop(OperationId id, const Segment& segment, StopKind how, Moment at)
{
    WorkStopped stopped{id, segment.id, std::max(at.isNull() ? m_now : at, segment.start), how};
    const qint64 byClock = stopped.at.ms - segment.start.ms;
    // A clock that has no steady one beside it goes back with it.
    if (const SteadyTimer* steady = steadyOf(segment)) {
        // What ran on after the shift does not count, unless the clock was put past its end.
        const qint64 after = at.isNull() ? 0 : std::max<qint64>(0, m_context.now.ms - at.ms);
        const qint64 ran = after <= steady->ranMs ? steady->ranMs - after : steady->ranMs;
        if (std::abs(ran - byClock) > clockJitterMs)
            stopped.ranMs = ran;
    }
    stopped.clockSetBack =
        std::max(m_car.lastAt, segment.start).ms - m_context.now.ms > clockJitterMs ||
        stopped.ranMs.value_or(0) > byClock;
    add(stopped);
}

void CarWork::stopEverybody(OperationId id, StopKind how)
{
    const Operation operation = *m_car.operation(id);
    for (const Segment& segment : operation.segments)
        if (segment.running())
            stop(id, segment, how);
}

void CarWork::close(OperationId id)
{
    const int wait = minutesOfWaiting(*m_car.operation(id));
    add(OperationClosed{id, wait > 0 ? m_now.plusMinutes(wait) : Moment{}});
    openTriggered(id);
    noteTyreFitted(*this, id);
}

void CarWork::reopen(OperationId id, const QString& reason, PersonId backTo)
{
    stopEverybody(id, StopKind::Paused);
    const Operation& operation = *m_car.operation(id);
    add(OperationReopened{id, reason, backTo, operation.restsOn});
    voidResting(id);
}

void CarWork::voidResting(OperationId on)
{
    const Operation base = *m_car.operation(on);
    std::vector<OperationId> ids;
    for (const auto& [id, operation] : m_car.operations)
        ids.push_back(id);
    for (const OperationId id : ids) {
        const Operation operation = *m_car.operation(id);
        if (id == on || operation.state == OperationState::Withdrawn ||
            operation.state == OperationState::LeftAsIs)
            continue;
        const QString why =
            QStringLiteral("it rested on work that is open again: %1").arg(titleOf(base));
        if (contains(operation.restsOn, on)) {
            Reason left{operation.origin,
                        {},
                        operation.findings,
                        operation.restsOn,
                        operation.fromReadings};
            std::erase(left.restsOn, on);
            if (left.restsOn.empty() && left.findings.empty() && left.readings.empty() &&
                operation.origin == Origin::Trigger && !operation.isAway()) {
                withdraw(id, why);
                continue;
            }
            add(OperationNarrowed{id, left.findings, left.restsOn, left.readings});
            if (operation.wasStarted())
                reopen(id, why, {});
        } else if (saysSomething(operation) && isVoidedBy(operation.spec, base.spec)) {
            reopen(id, why, {});
        }
    }
}

void CarWork::withdraw(OperationId id, const QString& reason)
{
    const Operation operation = *m_car.operation(id);
    const bool touched = operation.isOpen() && operation.wasStarted();
    stopEverybody(id, StopKind::Finished);
    add(OperationWithdrawn{id, reason});
    voidResting(id);
    // Whoever began may have had a wheel off: the checks of that work are owed all the same. A
    // check itself owes nothing.
    if (touched && operation.spec->secondPerson != SecondPerson::Check)
        openTriggered(id);
}

void CarWork::narrow(const Operation& operation, const Reason& left, const QString& reason)
{
    const bool nothingLeft = left.findings.empty() && left.restsOn.empty() && left.readings.empty();
    const bool byItself =
        operation.origin == Origin::Finding || operation.origin == Origin::Reading;
    // Whoever began may have the brakes open: that is put together and signed all the same. And
    // what a firm has comes back, with the keys that it was given.
    if (nothingLeft && byItself && !keepsCarApart(operation) && !operation.isAway())
        withdraw(operation.id, reason);
    else
        add(OperationNarrowed{operation.id, left.findings, left.restsOn, left.readings});
}

void CarWork::detach(FindingId finding, const QString& reason, const QStringList& keepKinds)
{
    const std::map<OperationId, Operation> before = m_car.operations;
    for (const auto& [id, operation] : before) {
        if (!operation.isOpen() || !contains(operation.findings, finding) ||
            keepKinds.contains(operation.spec->id))
            continue;
        Reason left{
            operation.origin, {}, operation.findings, operation.restsOn, operation.fromReadings};
        std::erase(left.findings, finding);
        narrow(operation, left, reason);
    }
}

void CarWork::detach(ReadingId reading, const QString& reason, const PlaceId& at)
{
    const std::map<OperationId, Operation> before = m_car.operations;
    for (const auto& [id, operation] : before) {
        if (!operation.isOpen() || !contains(operation.fromReadings, reading) ||
            (!at.isEmpty() && operation.place != at))
            continue;
        Reason left{
            operation.origin, {}, operation.findings, operation.restsOn, operation.fromReadings};
        std::erase(left.readings, reading);
        narrow(operation, left, reason);
    }
}

QString waitWords(const Operation& operation)
{
    if (operation.part)
        return QStringLiteral("part on order, %1").arg(operation.part->part);
    if (operation.state == OperationState::AwaitingCheck)
        return operation.isSigned() ? QStringLiteral("it awaits a second signature")
                                    : QStringLiteral("it is back from outside, check and sign it");
    return operation.outside ? operation.outside->firm : QString();
}

} // namespace ramplight
