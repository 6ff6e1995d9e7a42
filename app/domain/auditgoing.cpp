// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries by which work is not needed any more, is left as it is, or is open once more.
#include "domain/auditor.h"
#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/findingrules.h"
#include "domain/holds.h"
#include "domain/openings.h"
#include "domain/words.h"

namespace ramplight {

bool Auditor::hasNothingLeft(const Operation& operation) const
{
    const auto allGo = [&](const auto& ids) {
        return std::ranges::all_of(ids, [&](const auto& id) { return goes(id); });
    };
    const bool hadSomething = !operation.findings.empty() || !operation.restsOn.empty() ||
                              !operation.fromReadings.empty();
    return hadSomething && operation.origin != Origin::ByHand && allGo(operation.findings) &&
           allGo(operation.restsOn) && allGo(operation.fromReadings);
}

bool Auditor::isUncovered(const Operation& operation) const
{
    const Operation* before = m_before.operation(operation.id);
    return before != nullptr && !operation.spec->covers.isEmpty() && !operation.wasStarted() &&
           operation.origin == Origin::Finding &&
           std::ranges::any_of(before->findings, [&](FindingId id) { return goes(id); });
}

bool Auditor::isCovered(const Operation& operation) const
{
    return !operation.wasStarted() && operation.restsOn.empty() && operation.fromReadings.empty() &&
           isTakenIn(m_car, operation);
}

bool Auditor::wentWithFacts(const Operation& operation) const
{
    return groupHas<FactsCorrected>() && goesWithFacts(beforeFacts(), operation, m_car.facts);
}

void Auditor::operator()(const OperationWithdrawn& e)
{
    const Operation* operation = m_car.operation(e.operation);
    if (operation == nullptr)
        return blame(QStringLiteral("withdraws an operation that is not there"));
    blameIf(e.reason.isEmpty(), "withdraws without a reason");
    blameIf(operation->isRunning(), "withdraws work that somebody is on");
    blameIf(operation->state == OperationState::Withdrawn ||
                operation->state == OperationState::LeftAsIs,
            "withdraws what is not there any more");
    judgeResting(*operation);
    if (operation->isOpen() && operation->wasStarted() &&
        operation->spec->secondPerson != SecondPerson::Check)
        judgeDue(*operation, "withdraws work that was begun");
    // Behind work that is open again, or goes: that keeps the car by itself.
    blameIf(keepsCarApart(*operation) && operation->origin != Origin::Trigger,
            "withdraws work that keeps the car as it stands");
    blameIf(operation->isAway(), "withdraws work that an outside firm has");
    const bool byFacts = groupHas<FactsCorrected>() && m_before.operation(e.operation) != nullptr &&
                         goesWithFacts(m_before, *m_before.operation(e.operation), m_car.facts);
    if (isCovered(*operation) || isUncovered(*operation) || hasNothingLeft(*operation) || byFacts)
        return;
    if (operation->spec->safety)
        return blame(QStringLiteral("takes a safety item away without a correction"));
    needs(Right::Manage);
    blameIf(m_car.released.has_value(), "was written to a car that was released");
    blameIf(operation->origin != Origin::ByHand || operation->wasStarted() ||
                !operation->isOpen() || !operation->findings.empty() ||
                !operation->restsOn.empty() || !operation->fromReadings.empty(),
            "withdraws work that was not opened by hand, or was begun, or answers something");
}

void Auditor::operator()(const OperationTakenOut& e)
{
    const Operation* operation = opened(e.operation);
    needs(Right::Appraise);
    blameIf(m_car.appraised, "takes work out after the appraisal");
    blameIf(e.reason.isEmpty(), "takes work out without a reason");
    if (operation == nullptr)
        return;
    blameIf(operation->spec->safety && !operation->spec->access, "takes a safety item out");
    blameIf(operation->origin != Origin::Finding || operation->wasStarted() ||
                !operation->restsOn.empty() || !operation->fromReadings.empty(),
            "takes work out that was not suggested for a finding, or was begun");
    blameIf(operation->spec->access && isAccessWanted(m_car, *operation),
            "takes out what other work needs to get at its place");
    blameIf(e.disclosed != disclosedWithout(m_car, *operation),
            "tells the buyer of other findings than it leaves");
}

void Auditor::operator()(const OperationLeft& e)
{
    const Operation* operation = opened(e.operation);
    needs(Right::Manage);
    blameIf(e.words.isEmpty(), "leaves work as it is without words for the buyer");
    if (operation == nullptr)
        return;
    blameIf(operation->spec->safety, "leaves a safety item as it is");
    blameIf(operation->spec->neverLeft || contains(m_site.rules.neverLeft, operation->spec->skill),
            "leaves work as it is that this house never leaves");
    blameIf(operation->isRunning(), "leaves work as it is that somebody is on");
    blameIf(operation->isAway(), "leaves work as it is that an outside firm has");
    blameIf(m_car.isolation && m_car.isolation->operation == e.operation,
            "leaves work as it is with its isolation not lifted");
    if (operation->wasStarted())
        judgeDue(*operation, "leaves work that was begun");
}

bool Auditor::isReopenedWithOther(const Operation& operation) const
{
    const Operation* before = m_before.operation(operation.id);
    const auto restedOn = [&](OperationId id) {
        return contains(operation.restsOn, id) ||
               (before != nullptr && contains(before->restsOn, id));
    };
    const OperationSpec& spec = operation.spec;
    // Whoever was on it was stopped by the same command.
    const bool said = operation.wasStarted() || saysSomething(operation);
    for (const auto& [id, other] : m_car.operations) {
        if (id == operation.id || !goes(id))
            continue;
        const bool checks = spec.secondPerson == SecondPerson::Check &&
                            (spec.checksWorkOf.contains(other.spec->id) || checksEverything(spec));
        if ((restedOn(id) && operation.wasStarted()) || (checks && said))
            return true;
    }
    const bool workWasAdded = groupHasOne<OperationOpened>([](const OperationOpened& added) {
        return added.spec->secondPerson != SecondPerson::Check;
    });
    return (checksEverything(spec) && said && workWasAdded) ||
           groupHasOne<ReadingCorrected>([&](const ReadingCorrected& corrected) {
               return corrected.operation == operation.id &&
                      corrected.outcome == ReadingOutcome::Outside;
           });
}

void Auditor::operator()(const OperationReopened& e)
{
    const Operation* operation = m_car.operation(e.operation);
    if (operation == nullptr)
        return blame(QStringLiteral("reopens an operation that is not there"));
    blameIf(e.reason.isEmpty(), "reopens without a reason");
    blameIf(operation->isRunning(), "reopens work that somebody is on");
    blameIf(!e.backTo.isNull() && !operation->doers().contains(e.backTo),
            "gives work back to somebody who did none of it");
    judgeLeftOff(*operation, e.restsOn);
    judgeResting(*operation);
    if (isReopenedWithOther(*operation))
        return;
    // To somebody it is sent back by a check; what was signed by mistake is open to all again.
    const bool isSentBack = operation->awaitsReceipt() || !e.backTo.isNull();
    blameIf(operation->state == OperationState::AwaitingCheck && isSentBack &&
                !maySendBack(*operation, m_entry.by),
            "sends work back by somebody who did some of it");
    if (operation->awaitsSecond() && isSentBack)
        needs(Right::Check);
    else if (operation->state == OperationState::Closed ||
             operation->state == OperationState::LeftAsIs || operation->awaitsSecond())
        needsAny({Right::Check, Right::Manage});
    else if (operation->awaitsReceipt())
        needsAny({Right::Work, Right::Check, Right::Manage});
    else
        blame(QStringLiteral("reopens what was not closed"));
}

void Auditor::judgeResting(const Operation& base)
{
    for (const auto& [id, other] : m_car.operations) {
        if (id == base.id || other.state == OperationState::Withdrawn ||
            other.state == OperationState::LeftAsIs || goes(id))
            continue;
        const bool rests = contains(other.restsOn, base.id);
        const bool narrowed = groupHasOf<OperationNarrowed>(id) && !other.wasStarted();
        const bool checks =
            saysSomething(other) && other.spec->secondPerson == SecondPerson::Check &&
            (other.spec->checksWorkOf.contains(base.spec->id) || checksEverything(other.spec));
        if (rests ? !narrowed : checks)
            blame(QStringLiteral("lets a check stand that rested on it: %1").arg(other.spec->id));
    }
}

void Auditor::judgeDue(const Operation& operation, const char* then)
{
    for (const Trigger& trigger : operation.spec->triggers)
        if (fits(trigger.ifFact, m_car.facts) && !m_known.isWithout(m_site, trigger.opens) &&
            !opensInGroup(operation.id, trigger))
            blame(QStringLiteral("%1 without opening what it makes due: %2")
                      .arg(QString::fromUtf8(then), trigger.opens));
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
