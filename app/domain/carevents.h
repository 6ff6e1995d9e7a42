// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/appraisalevents.h"
#include "domain/oneof.h"
#include "domain/releaseevents.h"
#include "domain/workevents.h"

#include <variant>

// Everything that can have happened to a car. Events carry all that apply() needs (titles, resolved
// limits, the catalogue's hash): a ledger replays without a catalogue. A field added later keeps
// its default when an older entry is read; any other change raises the version and adds an
// upcaster.
namespace ramplight {

using CarEvent = OneOf<std::variant<
    CarArrived, IdentityCorrected, FactsCorrected, PromiseChanged, FindingRecorded,
    FindingCorrected, PlacesFoundSound, TreadRecorded, AppraisalFinished, OperationOpened,
    OperationExtended, OperationNarrowed, OperationWithdrawn, CautionsRead, WorkStarted,
    WorkStopped, MinutesCorrected, HandedOver, FigureSet, ReadingTaken, ReadingCorrected,
    PhotoAttached, OperationSigned, OperationClosed, OperationReopened, OperationLeft,
    OperationBlocked, OperationUnblocked, SentOut, ReceivedBack, IsolationSet, IsolationLifted,
    CarMoved, CarReleased, CarHeldAgain, CarLeft, CarBroughtBack, DuplicateLinked, TyreRecorded,
    PaintDepthRecorded, OdometerRead, OperationTakenOut, WorkPlanned, WalkRoundRead, DraftDecided,
    PhotosRemoved, DueChanged, FindingAnswered, FigureCorrected>>;

/// An event as the ledger holds it.
struct CarEnvelope
{
    qint64 seq = 0; ///< in the car's stream: 1, 2, 3 ... without gaps
    Moment at;      ///< never before the entry in front of it
    PersonId by;
    CommandId command;
    CarEvent event;

    friend bool operator==(const CarEnvelope&, const CarEnvelope&) = default;
};

/// The only way in which a car changes.
void apply(CarState& state, const CarEnvelope& envelope);

} // namespace ramplight
