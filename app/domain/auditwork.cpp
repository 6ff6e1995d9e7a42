// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries about work on a car: who is on it and for how long, and what it waits for.
#include "domain/auditor.h"
#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/holds.h"
#include "domain/valuefaults.h"
#include "domain/words.h"

namespace ramplight {

namespace {

const char* forbiddenAway(Restraint what)
{
    switch (what) {
    case Restraint::Move:
        return "sends a car out that must not be moved";
    case Restraint::Drive:
        return "sends a car out that must not be driven";
    case Restraint::Power:
        return "sends a car out that must not be powered";
    }
    return "";
}

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
    blameIf(e.at < m_entry.at, "starts a timer before it was touched");
    isNext(e.segment, m_car.nextSegment);
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
    const Segment* stopped = nullptr;
    if (operation != nullptr)
        for (const Segment& segment : operation->segments)
            if (segment.id == e.segment && segment.running() && e.at >= segment.start)
                stopped = &segment;
    if (stopped == nullptr)
        return blame(QStringLiteral("stops a timer that does not run, or before it ran"));
    if (e.ranMs) {
        blameIf(*e.ranMs < 0, "has a timer that ran for less than nothing");
        blameIf(*e.ranMs > e.at.ms - stopped->start.ms && !e.clockSetBack,
                "counts more time than went by, and no clock was set back");
    }
    const Moment now = std::max(m_entry.at, stopped->start);
    if (m_entry.by.isNull()) {
        // The house itself, perhaps some time after the end of the shift.
        blameIf(e.how != StopKind::ShiftEnd, "was written by nobody of this site");
        return blameIf(e.at > now, "stops a timer later than it was stopped");
    }
    blameIf(e.at != now, "stops a timer at another time than it was touched");
    if (stopped->person != m_entry.by && !stopsEverybody(e.operation))
        needs(Right::Manage);
}

bool Auditor::stopsEverybody(OperationId id) const
{
    return groupHas<CarLeft, OperationReopened>() ||
           groupHasOf<OperationSigned, OperationBlocked, SentOut, OperationWithdrawn>(id);
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
    if (operation == nullptr)
        return;
    const bool ownWork = std::ranges::any_of(operation->segments, [&](const Segment& segment) {
        return segment.person == m_entry.by && isStoppedInGroup(segment.id);
    });
    if (!ownWork && operation->assigned != m_entry.by)
        needs(Right::Manage);
    blameIf(to == nullptr || !to->active ||
                !mayBeGiven(*to, m_car, *operation, m_site.rules, dayOf(m_entry.at, m_site.rules)),
            "hands work over to somebody who may not do it");
}

void Auditor::operator()(const WorkPlanned& e)
{
    const Operation* operation = opened(e.operation);
    needs(Right::Manage);
    if (operation == nullptr)
        return;
    blameIf(operation->isRunning(), "plans work that somebody is on");
    if (!e.person.isNull() && e.person != operation->assigned) {
        const Person* who = m_site.person(e.person);
        blameIf(operation->state == OperationState::AwaitingCheck,
                "plans for one person what awaits a second signature");
        blameIf(
            who == nullptr || !who->active ||
                !mayBeGiven(*who, m_car, *operation, m_site.rules, dayOf(m_entry.at, m_site.rules)),
            "plans work for somebody who may not do it");
    }
    const Bay* bay = m_site.bay(e.bay);
    blameIf(!e.bay.isNull() && e.bay != operation->plannedBay &&
                (bay == nullptr || !bay->active || !suits(*bay, operation->spec->bay)),
            "plans work in a bay that is not made for it");
    blameIf(e.from > m_entry.at.plusMinutes(farthestPlanMinutes),
            "plans work farther off than anybody plans");
}

void Auditor::operator()(const OperationBlocked& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage, Right::Appraise});
    blameIf(operation != nullptr && (operation->state == OperationState::Blocked ||
                                     operation->state == OperationState::AwaitingCheck),
            "blocks what is blocked, or awaits a check");
    blameIf(operation != nullptr && operation->isRunning(), "blocks work that somebody is on");
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
    blameIf(operation->isRunning(), "sends out work that somebody is on");
    blameIf(e.work.keys < 0 || e.work.keys > mostKeys, "gives keys along that no car has");
    for (const RestraintReason& reason : restraints(m_car, m_entry.at))
        if (e.work.keys > 0 && reason.operation != e.operation)
            blame(QStringLiteral("%1: %2").arg(QString::fromUtf8(forbiddenAway(reason.what)),
                                               reason.words));
}

void Auditor::operator()(const ReceivedBack& e)
{
    const Operation* operation = opened(e.operation);
    needsAny({Right::Work, Right::Manage, Right::Check});
    blameIf(operation != nullptr &&
                (operation->state != OperationState::Blocked || !operation->isAway()),
            "takes back what was not out");
    blameIf(operation != nullptr && operation->outside && e.keys &&
                (*e.keys < 0 || *e.keys > operation->outside->keys),
            "counts other keys than were given along");
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
    blameIf(m_car.isolation->operation != e.operation, "lifts another isolation than is set");
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

} // namespace ramplight
