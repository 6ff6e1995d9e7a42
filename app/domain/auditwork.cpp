// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries about work on a car: what is to be done, who is on it and for how long.
#include "domain/auditor.h"
#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/holds.h"
#include "domain/words.h"

namespace ramplight {

namespace {

const char* forbidden(Restraint what)
{
    switch (what) {
    case Restraint::Move:
        return "starts work that moves a car that must not be moved";
    case Restraint::Drive:
        return "starts work that drives a car that must not be driven";
    case Restraint::Power:
        return "starts work that powers a car that must not be powered";
    }
    return "";
}

} // namespace

void Auditor::operator()(const OperationOpened& e)
{
    blameIf(m_car.operation(e.operation) != nullptr, "takes the number of another operation");
    knowsPlace(e.place);
    if (e.origin != Origin::ByHand)
        return;
    needsAny({Right::Appraise, Right::Work, Right::Manage});
    blameIf(e.reason.isEmpty(), "opens work by hand without a reason");
    const PlaceInfo* place = placeInfo(e.place);
    blameIf(place != nullptr && e.spec->scope == Scope::Place && !e.spec->isFor(place->kind),
            "opens work at a place that it is not for");
}

void Auditor::operator()(const OperationNarrowed& e)
{
    const Operation* operation = m_car.operation(e.operation);
    const bool hasCause = groupHas<FindingCorrected, ReadingCorrected, FactsCorrected,
                                   OperationReopened, OperationWithdrawn, OperationTakenOut>();
    blameIf(operation != nullptr && operation->spec->safety && !hasCause,
            "takes a reason from a safety item without a correction");
}

void Auditor::operator()(const OperationWithdrawn& e)
{
    const Operation* operation = m_car.operation(e.operation);
    if (operation == nullptr)
        return blame(QStringLiteral("withdraws an operation that is not there"));
    if (isCovered(*operation) || isIdleAccess(*operation))
        return;
    const bool hasCause =
        groupHas<FindingCorrected, FactsCorrected, ReadingCorrected, OperationReopened>();
    if (operation->spec->safety)
        return blameIf(!hasCause, "takes a safety item away without a correction");
    if (hasCause || groupHas<OperationTakenOut>())
        return;
    needs(Right::Manage);
    blameIf(operation->origin != Origin::ByHand || operation->wasStarted(),
            "withdraws work that was not opened by hand, or was begun");
}

void Auditor::operator()(const OperationTakenOut& e)
{
    const Operation* operation = opened(e.operation);
    needs(Right::Appraise);
    blameIf(m_car.appraised, "takes work out after the appraisal");
    if (operation == nullptr)
        return;
    blameIf(operation->spec->safety && !operation->spec->access, "takes a safety item out");
    blameIf(operation->origin != Origin::Finding || operation->wasStarted(),
            "takes work out that was not suggested for a finding, or was begun");
}

void Auditor::operator()(const OperationLeft& e)
{
    const Operation* operation = opened(e.operation);
    needs(Right::Manage);
    blameIf(e.words.isEmpty(), "leaves work as it is without words for the buyer");
    if (operation == nullptr)
        return;
    blameIf(operation->spec->safety, "leaves a safety item as it is");
    blameIf(contains(m_site.rules.neverLeft, operation->spec->skill),
            "leaves work as it is that this house never leaves");
    blameIf(operation->isRunning(), "leaves work as it is that somebody is on");
    blameIf(operation->outside && !operation->outside->received,
            "leaves work as it is that an outside firm has");
}

void Auditor::operator()(const OperationReopened& e)
{
    const Operation* operation = m_car.operation(e.operation);
    if (operation == nullptr)
        return blame(QStringLiteral("reopens an operation that is not there"));
    blameIf(e.reason.isEmpty(), "reopens without a reason");
    const bool wasDone =
        operation->state == OperationState::Closed || operation->state == OperationState::LeftAsIs;
    blameIf(!wasDone && !(operation->isOpen() && operation->wasStarted()),
            "reopens what was not closed");
}

void Auditor::operator()(const CautionsRead& e)
{
    (void)opened(e.operation);
}

void Auditor::operator()(const WorkStarted& e)
{
    const Operation* operation = opened(e.operation);
    if (operation == nullptr)
        return;
    able(operation->spec);
    blameIf(e.person != m_entry.by, "starts somebody else's timer");
    blameIf(operation->state == OperationState::Blocked, "starts work that is blocked");
    blameIf(operation->state == OperationState::AwaitingCheck, "starts work that awaits a check");
    for (const auto& [id, other] : m_car.operations)
        for (const Segment& segment : other.segments)
            blameIf(segment.running() && segment.person == e.person &&
                        (id == e.operation || !isStoppedInGroup(segment.id)),
                    "starts a second timer of one person");
    blameIf(checksOwnWork(m_car, *operation, m_entry.by, m_site.rules),
            "starts a check by somebody who did some of the work");
    blameIf(!operation->spec->cautions.isEmpty() && !operation->cautionsReadBy.contains(m_entry.by),
            "starts work whose cautions were not read");
    for (const RestraintReason& reason : restraints(m_car, m_entry.at))
        if (reason.operation != operation->id && contains(operation->spec->needs, reason.what))
            blame(QStringLiteral("%1: %2").arg(QString::fromUtf8(forbidden(reason.what)),
                                               reason.words));
    if (const QString why = whyNotYet(m_car, *operation, m_site.rules, m_entry.at); !why.isEmpty())
        blame(QStringLiteral("starts work out of its order: %1").arg(why));
}

void Auditor::operator()(const WorkStopped& e)
{
    const Operation* operation = m_car.operation(e.operation);
    const bool runs =
        operation != nullptr && std::ranges::any_of(operation->segments, [&](const Segment& s) {
            return s.id == e.segment && s.running() && e.at >= s.start;
        });
    blameIf(!runs, "stops a timer that does not run, or before it ran");
}

void Auditor::operator()(const MinutesCorrected& e)
{
    const Operation* operation = m_car.operation(e.operation);
    const auto segment = operation == nullptr
                             ? std::vector<Segment>::const_iterator{}
                             : std::ranges::find(operation->segments, e.segment, &Segment::id);
    if (operation == nullptr || segment == operation->segments.end() || segment->running())
        return blame(QStringLiteral("corrects the minutes of no finished stretch of work"));
    blameIf(e.minutes < 0, "has minutes below zero");
    blameIf(e.minutes > 24 * 60, "has more minutes than a day");
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    if (segment->person != m_entry.by)
        needs(Right::Manage);
}

void Auditor::operator()(const HandedOver& e)
{
    const Operation* operation = opened(e.operation);
    const Person* to = m_site.person(e.to);
    if (operation != nullptr)
        blameIf(to == nullptr || !to->active || whyNotAble(*to, operation->spec) ||
                    whyNotQualified(*to, operation->spec, dayOf(m_entry.at, m_site.rules)),
                "hands work over to somebody who may not do it");
}

void Auditor::operator()(const WorkPlanned& e)
{
    const Operation* operation = opened(e.operation);
    needs(Right::Manage);
    if (operation == nullptr)
        return;
    blameIf(operation->isRunning(), "plans work that somebody is on");
    const Bay* bay = m_site.bay(e.bay);
    blameIf(!e.bay.isNull() && e.bay != operation->plannedBay &&
                (bay == nullptr || !bay->active || !suits(*bay, operation->spec->bay)),
            "plans work in a bay that is not made for it");
}

void Auditor::operator()(const OperationBlocked& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage, Right::Appraise});
    blameIf(operation != nullptr && (operation->state == OperationState::Blocked ||
                                     operation->state == OperationState::AwaitingCheck),
            "blocks what is blocked, or awaits a check");
    blameIf(e.part.part.isEmpty() || !e.part.due.isValid(),
            "blocks without naming the part and its day");
}

void Auditor::operator()(const OperationUnblocked& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage, Right::Appraise});
    blameIf(operation != nullptr &&
                (operation->state != OperationState::Blocked || !operation->part),
            "unblocks what waits for no part");
}

void Auditor::operator()(const SentOut& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage});
    blameIf(e.work.firm.isEmpty() || !e.work.dueBack.isValid(),
            "sends work out without naming the firm and the day");
    if (operation == nullptr)
        return;
    blameIf(operation->spec->secondPerson == SecondPerson::Check, "gives a check away");
    blameIf(operation->state == OperationState::Blocked ||
                operation->state == OperationState::AwaitingCheck,
            "sends out what is blocked, or awaits a check");
}

void Auditor::operator()(const ReceivedBack& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage, Right::Check});
    blameIf(operation != nullptr && (!operation->outside || operation->outside->received),
            "takes back what was not out");
}

void Auditor::operator()(const DueChanged& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage});
    blameIf(operation != nullptr && !operation->due(),
            "gives another day to what waits for nothing");
    blameIf(!e.due.isValid(), "gives another day without naming it");
}

void Auditor::operator()(const IsolationSet& e)
{
    const Operation* operation = opened(e.operation);
    blameIf(m_car.isolation.has_value(), "isolates what is isolated");
    blameIf(e.lockKeptAt.isEmpty(), "isolates without saying where the lock is kept");
    if (operation == nullptr)
        return;
    able(operation->spec);
    blameIf(!operation->spec->highVoltageIsolation, "isolates for work that needs none");
    blameIf(!operation->wasStarted(), "isolates for work that nobody began");
}

void Auditor::operator()(const IsolationLifted& e)
{
    if (!m_car.isolation)
        return blame(QStringLiteral("lifts an isolation that is not set"));
    if (m_car.isolation->by == m_entry.by)
        return;
    blameIf(e.procedure.isEmpty(), "lifts an isolation that somebody else set");
    if (const Operation* operation = m_car.operation(m_car.isolation->operation))
        able(operation->spec);
    needsAny({Right::Check, Right::Manage});
}

bool Auditor::isStoppedInGroup(SegmentId segment) const
{
    return std::ranges::any_of(m_group, [&](const CarEnvelope& entry) {
        const auto* stopped = std::get_if<WorkStopped>(&entry.event);
        return stopped != nullptr && stopped->segment == segment;
    });
}

bool Auditor::isCovered(const Operation& operation) const
{
    return std::ranges::any_of(m_car.operations, [&](const auto& entry) {
        const Operation& other = entry.second;
        return other.isOpen() && (other.spec->safety || !operation.spec->safety) &&
               other.place == operation.place && other.spec->covers.contains(operation.spec->id) &&
               std::ranges::all_of(operation.findings, [&](FindingId finding) {
                   return contains(other.findings, finding);
               });
    });
}

bool Auditor::isIdleAccess(const Operation& operation) const
{
    return operation.spec->access && !operation.wasStarted() && groupHas<OperationTakenOut>();
}

bool Auditor::opensInGroup(OperationId on, const Trigger& trigger) const
{
    return std::ranges::any_of(m_group, [&](const CarEnvelope& entry) {
        if (const auto* fresh = std::get_if<OperationOpened>(&entry.event))
            return fresh->spec->id == trigger.opens && contains(fresh->restsOn, on);
        if (const auto* more = std::get_if<OperationExtended>(&entry.event)) {
            const Operation* operation = m_car.operation(more->operation);
            return contains(more->restsOn, on) &&
                   (operation == nullptr || operation->spec->id == trigger.opens);
        }
        return false;
    });
}

} // namespace ramplight
