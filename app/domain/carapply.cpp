// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carevents.h"

#include "domain/contains.h"
#include "domain/foundapplier.h"
#include "domain/retention.h"

#include <algorithm>

namespace ramplight {

namespace {

/// What entries about work do, and about the way of the car through the house.
class Applier : public FoundApplier
{
public:
    using FoundApplier::FoundApplier;
    using FoundApplier::operator();

    void operator()(const OperationOpened& e)
    {
        Operation operation;
        operation.id = e.operation;
        operation.spec = e.spec;
        operation.place = e.place;
        operation.origin = e.origin;
        operation.reason = e.reason;
        operation.findings = e.findings;
        operation.restsOn = e.restsOn;
        operation.fromReadings = e.fromReadings;
        operation.catalogueHash = e.catalogueHash;
        operation.openedAt = at();
        m_car.nextOperation = std::max(m_car.nextOperation, e.operation.value + 1);
        m_car.operations.insert_or_assign(e.operation, std::move(operation));
    }

    void operator()(const OperationExtended& e)
    {
        if (Operation* o = op(e.operation)) {
            addMissing(o->findings, e.findings);
            addMissing(o->restsOn, e.restsOn);
            addMissing(o->fromReadings, e.fromReadings);
        }
    }

    void operator()(const OperationNarrowed& e)
    {
        if (Operation* o = op(e.operation)) {
            o->findings = e.findings;
            o->restsOn = e.restsOn;
            o->fromReadings = e.fromReadings;
        }
    }

    void operator()(const OperationWithdrawn& e)
    {
        if (Operation* o = op(e.operation)) {
            o->state = OperationState::Withdrawn;
            o->withdrawnWhy = e.reason;
            o->closedAt = at();
            for (Signature& signature : o->signatures)
                signature.voided = true;
        }
    }

    void operator()(const OperationTakenOut& e)
    {
        (*this)(OperationWithdrawn{e.operation, e.reason});
        for (const FindingId id : e.disclosed)
            if (const auto it = m_car.findings.find(id); it != m_car.findings.end())
                it->second.disclosed = true;
    }

    void operator()(const CautionsRead& e)
    {
        if (Operation* o = op(e.operation))
            o->cautionsReadBy.insert(by());
    }

    void operator()(const WorkStarted& e)
    {
        Operation* o = op(e.operation);
        if (o == nullptr)
            return;
        Segment segment;
        segment.id = e.segment;
        segment.person = e.person;
        segment.start = e.at;
        segment.clockSetBack = e.clockSetBack;
        o->segments.push_back(segment);
        o->state = OperationState::InHand;
        o->workedOn();
        if (o->assigned == e.person)
            o->assigned = {};
        m_car.nextSegment = std::max(m_car.nextSegment, e.segment.value + 1);
    }

    void operator()(const WorkStopped& e)
    {
        Operation* o = op(e.operation);
        if (o == nullptr)
            return;
        for (Segment& segment : o->segments)
            if (segment.id == e.segment) {
                segment.end = std::max(e.at, segment.start);
                segment.stop = e.how;
                segment.clockSetBack = segment.clockSetBack || e.clockSetBack;
                segment.ranMs = e.ranMs;
            }
        if (o->state == OperationState::InHand && !o->isRunning())
            o->state = OperationState::Paused;
    }

    void operator()(const MinutesCorrected& e)
    {
        Operation* o = op(e.operation);
        if (o == nullptr)
            return;
        for (Segment& segment : o->segments)
            if (segment.id == e.segment) {
                segment.correctedMinutes = e.minutes;
                segment.correctionReason = e.reason;
                segment.correctedBy = by();
            }
    }

    void operator()(const HandedOver& e)
    {
        if (Operation* o = op(e.operation))
            o->assigned = e.to;
    }

    void operator()(const WorkPlanned& e)
    {
        if (Operation* o = op(e.operation)) {
            o->assigned = e.person;
            o->plannedBay = e.bay;
            o->plannedFrom = e.from;
        }
    }

    void operator()(const FigureSet& e)
    {
        if (Operation* o = op(e.operation))
            o->figures.push_back({e.key, e.place, e.value, e.source, by(), at()});
    }

    void operator()(const FigureCorrected& e)
    {
        Operation* o = op(e.operation);
        if (o == nullptr)
            return;
        o->figures.push_back({e.key, e.place, e.value, e.source, by(), at(), e.reason});
        for (Reading& reading : o->readings)
            if (reading.key == e.key && reading.place == e.place)
                reading.superseded = true;
    }

    void operator()(const ReadingTaken& e)
    {
        addReading(e.operation, {e.reading,
                                 e.key,
                                 e.place,
                                 e.value,
                                 e.outcome,
                                 e.limits,
                                 by(),
                                 at(),
                                 false,
                                 {},
                                 e.tool});
    }

    void operator()(const ReadingCorrected& e)
    {
        Operation* o = op(e.operation);
        if (o == nullptr)
            return;
        if (!e.waitUntil.isNull() && o->state == OperationState::Closed)
            o->waitUntil = e.waitUntil;
        for (const Reading& reading : o->readings)
            if (reading.id == e.original) {
                addReading(e.operation, {e.reading, reading.key, reading.place, e.value, e.outcome,
                                         e.limits, by(), at(), false, e.reason, e.tool});
                return;
            }
    }

    void operator()(const OperationSigned& e)
    {
        if (Operation* o = op(e.operation)) {
            o->signatures.push_back({by(), at(), e.meaning, e.minutes, e.note, false});
            o->state = OperationState::AwaitingCheck;
            o->sentBackWhy.clear();
        }
    }

    void operator()(const OperationClosed& e)
    {
        if (Operation* o = op(e.operation)) {
            o->state = OperationState::Closed;
            o->closedAt = at();
            o->waitUntil = e.waitUntil;
            o->assigned = {};
            for (const PlaceId& place : o->spec->clears)
                seeUnlessSeen(place, true);
        }
    }

    void operator()(const OperationReopened& e)
    {
        if (Operation* o = op(e.operation)) {
            // A part stays on order and a firm keeps what it was given, whatever is reopened here.
            const bool away = o->isAway();
            o->state = o->part || away       ? OperationState::Blocked
                       : o->segments.empty() ? OperationState::Waiting
                                             : OperationState::Paused;
            o->sentBackWhy = e.reason;
            o->assigned = e.backTo;
            o->restsOn = e.restsOn;
            o->closedAt = {};
            o->waitUntil = {};
            o->leftWords.clear();
            ++o->timesReopened;
            o->reopenedAt = at();
            for (Signature& signature : o->signatures)
                signature.voided = true;
            // What was read and countersigned belonged to the work that is now open again.
            for (Reading& reading : o->readings)
                reading.superseded = true;
            o->wasIsolated = m_car.isolation && m_car.isolation->operation == o->id;
            if (o->outside && !away) {
                o->partWasOutside = o->partWasOutside || o->outside->keys == 0;
                o->outside.reset();
                o->cameFromOutside = true;
            }
        }
    }

    void operator()(const OperationLeft& e)
    {
        if (Operation* o = op(e.operation)) {
            o->state = OperationState::LeftAsIs;
            o->leftWords = e.words;
            o->closedAt = at();
        }
    }

    void operator()(const OperationBlocked& e)
    {
        if (Operation* o = op(e.operation)) {
            o->state = OperationState::Blocked;
            o->part = e.part;
        }
    }

    void operator()(const OperationUnblocked& e)
    {
        if (Operation* o = op(e.operation)) {
            o->state = o->segments.empty() ? OperationState::Waiting : OperationState::Paused;
            o->part.reset();
        }
    }

    void operator()(const SentOut& e)
    {
        if (Operation* o = op(e.operation)) {
            o->state = OperationState::Blocked;
            o->outside = e.work;
        }
    }

    void operator()(const ReceivedBack& e)
    {
        if (Operation* o = op(e.operation); o != nullptr && o->outside) {
            o->state = OperationState::AwaitingCheck;
            o->outside->received = true;
            o->outside->receivedDocument = e.document;
            o->outside->keysBack = e.keys;
            o->workedOn();
        }
    }

    void operator()(const DueChanged& e)
    {
        if (Operation* o = op(e.operation); o != nullptr && o->part)
            o->part->due = e.due;
        else if (o != nullptr && o->outside)
            o->outside->dueBack = e.due;
    }

    void operator()(const IsolationSet& e)
    {
        m_car.isolation = Isolation{e.operation, by(), at(), e.lockKeptAt};
        if (Operation* o = op(e.operation))
            o->wasIsolated = true;
    }

    void operator()(const IsolationLifted&) { m_car.isolation.reset(); }

    void operator()(const CarMoved& e)
    {
        m_car.bay = e.bay;
        m_car.parking = e.parking;
    }

    void operator()(const CarReleased&)
    {
        m_car.released = ReleaseSigned{by(), at(), m_envelope.seq};
        m_car.heldAgainWhy.clear();
        m_car.bay = {};
    }

    void operator()(const CarHeldAgain& e)
    {
        m_car.heldAgainWhy = e.reason;
        m_car.released.reset();
    }

    void operator()(const CarLeft& e)
    {
        m_car.left = e.how;
        m_car.leftWhy = e.reason;
        m_car.leftAt = at();
        m_car.sameAs = e.sameAs;
        m_car.bay = {};
    }

    void operator()(const CarBroughtBack&)
    {
        m_car.left.reset();
        m_car.leftWhy.clear();
        m_car.leftAt = {};
        m_car.sameAs = {};
    }

    void operator()(const DuplicateLinked&) {}

    void operator()(const PhotosRemoved&) {}

private:
    Operation* op(OperationId id)
    {
        const auto it = m_car.operations.find(id);
        return it == m_car.operations.end() ? nullptr : &it->second;
    }

    void addReading(OperationId id, Reading reading)
    {
        Operation* o = op(id);
        if (o == nullptr)
            return;
        for (Reading& earlier : o->readings)
            if (earlier.key == reading.key && earlier.place == reading.place)
                earlier.superseded = true;
        m_car.nextReading = std::max(m_car.nextReading, reading.id.value + 1);
        o->readings.push_back(std::move(reading));
    }
};

} // namespace

void apply(CarState& state, const CarEnvelope& envelope)
{
    std::visit(Applier(state, envelope), envelope.event);
    followPhotos(state.photoFates, envelope);
    followProofs(state.proofs, envelope);
    state.seq = envelope.seq;
    state.lastAt = envelope.at;
}

} // namespace ramplight
