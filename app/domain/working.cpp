// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/checking.h"
#include "domain/holds.h"
#include "domain/valuefaults.h"

#include <algorithm>

namespace ramplight::decision {

namespace {

/// The open operation, or why it cannot be worked on.
struct Open
{
    const Operation* operation = nullptr;
    MaybeRefusal refusal;
};

Open openOperation(const CarWork& work, OperationId id)
{
    const Operation* operation = work.car().operation(id);
    if (operation == nullptr)
        return {nullptr, Refusal{RefusalId::OperationUnknown, {}}};
    if (!operation->isOpen())
        return {operation, Refusal{RefusalId::OperationNotOpen, {work.titleOf(*operation)}}};
    return {operation, std::nullopt};
}

RefusalId restraintRefusal(Restraint what)
{
    switch (what) {
    case Restraint::Move:
        return RefusalId::DoNotMove;
    case Restraint::Drive:
        return RefusalId::DoNotDrive;
    case Restraint::Power:
        return RefusalId::DoNotPower;
    }
    return RefusalId::DoNotMove;
}

/// Why it cannot be handed to this person, or planned for them.
MaybeRefusal whyNotGiven(const CarWork& work, const Operation& operation, PersonId to)
{
    const Person* person = work.context().site->person(to);
    if (person == nullptr || !person->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    if (whyNotAble(*person, operation.spec) ||
        whyNotQualified(*person, operation.spec, work.today()))
        return Refusal{RefusalId::WrongSkill, {neededWords(operation.spec)}};
    if (checksOwnWork(work.car(), operation, to, work.rules()))
        return Refusal{RefusalId::CheckByDoer, {}};
    return std::nullopt;
}

} // namespace

MaybeRefusal on(CarWork& work, const car::ReadCautions& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (work.person() == nullptr || !work.person()->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    if (!operation->cautionsReadBy.contains(work.actor()))
        work.add(CautionsRead{c.operation});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::StartWork& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (auto refusal = work.mayWorkOn(*operation))
        return refusal;
    if (operation->state == OperationState::Blocked)
        return Refusal{RefusalId::Blocked, {waitWords(*operation)}};
    if (operation->state == OperationState::AwaitingCheck)
        return Refusal{RefusalId::NotYet, {waitWords(*operation)}};
    if (work.car().runningSegment(work.actor(), nullptr) != nullptr &&
        std::ranges::any_of(operation->segments, [&](const Segment& segment) {
            return segment.running() && segment.person == work.actor();
        }))
        return Refusal{RefusalId::AlreadyRunning, {}};
    if (work.context().running)
        return Refusal{RefusalId::PersonBusy,
                       {QStringLiteral("%1, %2").arg(work.context().running->stockNumber,
                                                     work.context().running->title)}};
    if (auto refusal = work.mayCheck(*operation))
        return refusal;
    if (!operation->spec->cautions.isEmpty() && !operation->cautionsReadBy.contains(work.actor()))
        return Refusal{RefusalId::CautionsUnread, {}};
    for (const RestraintReason& reason : restraints(work.car(), work.now()))
        if (reason.operation != operation->id &&
            std::ranges::find(operation->spec->needs, reason.what) != operation->spec->needs.end())
            return Refusal{restraintRefusal(reason.what), {reason.words}};
    if (const QString why = whyNotYet(work.car(), *operation, work.rules(), work.now());
        !why.isEmpty())
        return Refusal{RefusalId::NotYet, {why}};
    // One person's stretches never overlap, whatever the clock says; nor do two begin at once, or
    // a correction could not tell them apart.
    const Moment busyUntil = work.context().busyUntil;
    const Moment start = std::max(work.now(), Moment{busyUntil.isNull() ? 0 : busyUntil.ms + 1});
    const qint64 behind = std::max(work.car().lastAt, busyUntil).ms - work.context().now.ms;
    const bool setBack = behind > clockJitterMs;
    work.add(
        WorkStarted{c.operation, SegmentId{work.car().nextSegment}, work.actor(), start, setBack});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::PauseWork& c)
{
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    const PersonId person = c.person.isNull() ? work.actor() : c.person;
    // The house itself (no actor) pauses everybody at the end of the shift.
    if (!work.actor().isNull() && person != work.actor())
        if (auto refusal = work.needs(Right::Manage))
            return refusal;
    const Operation snapshot = *operation;
    const bool earlier = work.actor().isNull() && !c.at.isNull();
    for (const Segment& segment : snapshot.segments)
        if (segment.running() && segment.person == person &&
            (!earlier || work.hasBegunBefore(segment, c.at))) {
            work.stop(c.operation, segment, c.how, earlier ? std::min(c.at, work.now()) : Moment{});
            return std::nullopt;
        }
    return Refusal{RefusalId::NotRunning, {}};
}

MaybeRefusal on(CarWork& work, const car::CorrectMinutes& c)
{
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    const auto it = std::ranges::find(operation->segments, c.segment, &Segment::id);
    if (it == operation->segments.end())
        return Refusal{RefusalId::NotRunning, {}};
    if (it->person != work.actor())
        if (auto refusal = work.needs(Right::Manage))
            return refusal;
    if (it->running())
        return Refusal{RefusalId::OperationRunning, {work.titleOf(*operation)}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (c.minutes < 0 || c.minutes > 24 * 60)
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("minutes")}};
    if (work.context().minutesRoom && c.minutes > *work.context().minutesRoom)
        return Refusal{RefusalId::MinutesOverlap,
                       {QStringLiteral("%1 min").arg(*work.context().minutesRoom)}};
    if (c.minutes != it->minutes())
        work.add(MinutesCorrected{c.operation, c.segment, c.minutes, c.reason.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::HandOver& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    const auto mine = std::ranges::find_if(operation->segments, [&](const Segment& segment) {
        return segment.running() && segment.person == work.actor();
    });
    const bool worksOnIt = mine != operation->segments.end();
    if (!worksOnIt && operation->assigned != work.actor())
        if (auto refusal = work.needs(Right::Manage))
            return refusal;
    if (auto refusal = whyNotGiven(work, *operation, c.to))
        return refusal;
    if (worksOnIt)
        work.stop(c.operation, Segment(*mine), StopKind::HandedOver);
    work.add(HandedOver{c.operation, c.to});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::PlanWork& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (auto refusal = work.needs(Right::Manage))
        return refusal;
    if (operation->isRunning())
        return Refusal{RefusalId::OperationRunning, {work.titleOf(*operation)}};
    if (!c.person.isNull() && c.person != operation->assigned) {
        // Its second signature is anybody's who may give it.
        if (operation->state == OperationState::AwaitingCheck)
            return Refusal{RefusalId::NotYet, {waitWords(*operation)}};
        if (auto refusal = whyNotGiven(work, *operation, c.person))
            return refusal;
    }
    if (!c.bay.isNull() && c.bay != operation->plannedBay) {
        const Bay* bay = work.context().site->bay(c.bay);
        if (bay == nullptr || !bay->active)
            return Refusal{RefusalId::BayUnknown, {}};
        if (!suits(*bay, operation->spec->bay))
            return Refusal{RefusalId::BayUnfit,
                           {QString::number(bay->number), work.titleOf(*operation)}};
    }
    if (!c.from.isNull() && c.from > work.now().plusMinutes(farthestPlanMinutes))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("the day")}};
    if (c.person != operation->assigned || c.bay != operation->plannedBay ||
        c.from != operation->plannedFrom)
        work.add(WorkPlanned{c.operation, c.person, c.bay, c.from});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::BlockForPart& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (operation->state == OperationState::Blocked ||
        operation->state == OperationState::AwaitingCheck)
        return Refusal{RefusalId::Blocked, {waitWords(*operation)}};
    if (auto refusal = work.needsAny({Right::Work, Right::Manage, Right::Appraise}))
        return refusal;
    PartOnOrder part = c.part;
    part.part = part.part.trimmed();
    part.supplier = part.supplier.trimmed();
    if (part.part.isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("which part")}};
    if (part.supplier.isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("with whom it is ordered")}};
    if (!part.due.isValid())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("the day it is due")}};
    work.stopEverybody(c.operation, StopKind::Blocked);
    work.add(OperationBlocked{c.operation, part});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::Unblock& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (auto refusal = work.needsAny({Right::Work, Right::Manage, Right::Appraise}))
        return refusal;
    if (operation->state != OperationState::Blocked || !operation->part)
        return Refusal{RefusalId::NotBlocked, {}};
    work.add(OperationUnblocked{c.operation});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::SendOut& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (auto refusal = work.needsAny({Right::Work, Right::Manage}))
        return refusal;
    if (operation->state == OperationState::Blocked ||
        operation->state == OperationState::AwaitingCheck)
        return Refusal{RefusalId::Blocked, {waitWords(*operation)}};
    // A check is made by our own person: an outside firm's word for it would be no second pair of
    // eyes in this house.
    if (operation->spec->secondPerson == SecondPerson::Check)
        return Refusal{RefusalId::CheckStaysInHouse, {}};
    OutsideWork outside = c.work;
    outside.firm = outside.firm.trimmed();
    if (outside.firm.isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("which firm")}};
    if (!outside.dueBack.isValid())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("the day it is due back")}};
    if (outside.keys < 0 || outside.keys > mostKeys)
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("keys")}};
    // With its keys the car goes itself, and somebody drives it there.
    if (outside.keys > 0)
        for (const RestraintReason& reason : restraints(work.car(), work.now()))
            if (reason.operation != c.operation)
                return Refusal{restraintRefusal(reason.what), {reason.words}};
    work.stopEverybody(c.operation, StopKind::Blocked);
    work.add(SentOut{c.operation, outside});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::ReceiveBack& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (auto refusal = work.needsAny({Right::Work, Right::Manage, Right::Check}))
        return refusal;
    if (operation->state != OperationState::Blocked || !operation->outside)
        return Refusal{RefusalId::NotOut, {}};
    const int keys = operation->outside->keys;
    if (keys > 0 && !c.keys)
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("how many keys came back")}};
    if (c.keys && (*c.keys < 0 || *c.keys > keys))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("keys")}};
    work.add(ReceivedBack{c.operation, c.document.trimmed(), c.keys});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::ChangeDue& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (auto refusal = work.needsAny({Right::Work, Right::Manage}))
        return refusal;
    const std::optional<QDate> due = operation->due();
    if (!due)
        return Refusal{RefusalId::NotBlocked, {}};
    if (!c.due.isValid())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("the day it is due")}};
    if (c.due != *due)
        work.add(DueChanged{c.operation, c.due, c.reason.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::SetIsolation& c)
{
    const auto [operation, no] = openOperation(work, c.operation);
    if (no)
        return no;
    if (!operation->spec->highVoltageIsolation)
        return Refusal{RefusalId::NoIsolationHere, {}};
    if (auto refusal = work.mayWorkOn(*operation))
        return refusal;
    if (work.car().isolation)
        return Refusal{RefusalId::Isolated, {work.car().isolation->lockKeptAt}};
    if (!operation->wasStarted())
        return Refusal{RefusalId::NotStarted, {}};
    if (c.lockKeptAt.trimmed().isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("where lock and key are kept")}};
    work.add(IsolationSet{c.operation, c.lockKeptAt.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::LiftIsolation& c)
{
    if (!work.car().isolation)
        return Refusal{RefusalId::NotIsolated, {}};
    const Isolation isolation = *work.car().isolation;
    const Operation* operation = work.car().operation(isolation.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (isolation.by != work.actor()) {
        // Somebody else only as a qualified person with a right beyond the work, in writing.
        if (c.procedure.trimmed().isEmpty())
            return Refusal{RefusalId::IsolatedBySomebody, {work.nameOf(isolation.by)}};
        if (auto refusal = work.mayWorkOn(*operation))
            return refusal;
        if (auto refusal = work.needsAny({Right::Check, Right::Manage}))
            return refusal;
    }
    work.add(IsolationLifted{isolation.operation, c.procedure.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::AttachPhoto& c)
{
    if (work.person() == nullptr || !work.person()->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    if (c.photo.isEmpty())
        return Refusal{RefusalId::PhotoUnknown, {}};
    if (!c.operation.isNull() && work.car().operation(c.operation) == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (!c.finding.isNull() && work.car().finding(c.finding) == nullptr)
        return Refusal{RefusalId::FindingUnknown, {}};
    if (!c.place.isEmpty() && placeInfo(c.place) == nullptr)
        return Refusal{RefusalId::PlaceUnknown, {c.place.text}};
    attachPhoto(work, PhotoAttached{c.photo, c.moment, c.place, c.operation, c.finding});
    return std::nullopt;
}

} // namespace ramplight::decision
