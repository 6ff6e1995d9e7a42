// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/carriedover.h"

// Events of work on a car: operations, time, readings, photos, parts, outside firms, isolation. How
// events are made and changed: carevents.h.
namespace ramplight {

struct OperationOpened
{
    static constexpr const char* type = "operation-opened";
    OperationId operation;
    Shared<OperationSpec> spec;
    PlaceId place;
    Origin origin = Origin::Baseline;
    QString reason;
    std::vector<FindingId> findings;
    std::vector<OperationId> restsOn;
    std::vector<ReadingId> fromReadings;
    QString catalogueHash;
    static constexpr auto fields = fieldList(
        field("operation", &OperationOpened::operation), field("spec", &OperationOpened::spec),
        field("place", &OperationOpened::place), field("origin", &OperationOpened::origin),
        field("reason", &OperationOpened::reason), field("findings", &OperationOpened::findings),
        field("restsOn", &OperationOpened::restsOn),
        field("fromReadings", &OperationOpened::fromReadings),
        field("catalogueHash", &OperationOpened::catalogueHash));
    friend bool operator==(const OperationOpened&, const OperationOpened&) = default;
};

/// One open operation answers more than it did.
struct OperationExtended
{
    static constexpr const char* type = "operation-extended";
    OperationId operation;
    std::vector<FindingId> findings;
    std::vector<OperationId> restsOn;
    std::vector<ReadingId> fromReadings;
    static constexpr auto fields =
        fieldList(field("operation", &OperationExtended::operation),
                  field("findings", &OperationExtended::findings),
                  field("restsOn", &OperationExtended::restsOn),
                  field("fromReadings", &OperationExtended::fromReadings));
    friend bool operator==(const OperationExtended&, const OperationExtended&) = default;
};

/// Something that it rested on is gone; something else still holds it open, or it was begun and
/// keeps the car apart.
struct OperationNarrowed
{
    static constexpr const char* type = "operation-narrowed";
    OperationId operation;
    std::vector<FindingId> findings;
    std::vector<OperationId> restsOn;
    std::vector<ReadingId> fromReadings;
    static constexpr auto fields =
        fieldList(field("operation", &OperationNarrowed::operation),
                  field("findings", &OperationNarrowed::findings),
                  field("restsOn", &OperationNarrowed::restsOn),
                  field("fromReadings", &OperationNarrowed::fromReadings));
    friend bool operator==(const OperationNarrowed&, const OperationNarrowed&) = default;
};

/// It is not needed any more: never the same as closed.
struct OperationWithdrawn
{
    static constexpr const char* type = "operation-withdrawn";
    OperationId operation;
    QString reason;
    static constexpr auto fields = fieldList(field("operation", &OperationWithdrawn::operation),
                                             field("reason", &OperationWithdrawn::reason));
    friend bool operator==(const OperationWithdrawn&, const OperationWithdrawn&) = default;
};

/// The appraiser did not want it; what nothing else answers is told to the buyer instead.
struct OperationTakenOut
{
    static constexpr const char* type = "operation-taken-out";
    OperationId operation;
    QString reason;
    std::vector<FindingId> disclosed;
    static constexpr auto fields = fieldList(field("operation", &OperationTakenOut::operation),
                                             field("reason", &OperationTakenOut::reason),
                                             field("disclosed", &OperationTakenOut::disclosed));
    friend bool operator==(const OperationTakenOut&, const OperationTakenOut&) = default;
};

struct CautionsRead
{
    static constexpr const char* type = "cautions-read";
    OperationId operation;
    static constexpr auto fields = fieldList(field("operation", &CautionsRead::operation));
    friend bool operator==(const CautionsRead&, const CautionsRead&) = default;
};

struct WorkStarted
{
    static constexpr const char* type = "work-started";
    OperationId operation;
    SegmentId segment;
    PersonId person;
    Moment at;
    bool clockSetBack = false;
    static constexpr auto fields =
        fieldList(field("operation", &WorkStarted::operation),
                  field("segment", &WorkStarted::segment), field("person", &WorkStarted::person),
                  field("at", &WorkStarted::at), field("clockSetBack", &WorkStarted::clockSetBack));
    friend bool operator==(const WorkStarted&, const WorkStarted&) = default;
};

struct WorkStopped
{
    static constexpr const char* type = "work-stopped";
    OperationId operation;
    SegmentId segment;
    Moment at;
    StopKind how = StopKind::Paused;
    bool clockSetBack = false;        ///< the clock was behind the ledger, or went back meanwhile
    std::optional<qint64> ranMs = {}; ///< where the clock was set meanwhile: how long it really ran
    static constexpr auto fields = fieldList(
        field("operation", &WorkStopped::operation), field("segment", &WorkStopped::segment),
        field("at", &WorkStopped::at), field("how", &WorkStopped::how),
        field("clockSetBack", &WorkStopped::clockSetBack), field("ranMs", &WorkStopped::ranMs));
    friend bool operator==(const WorkStopped&, const WorkStopped&) = default;
};

/// The measured minutes stay beside it.
struct MinutesCorrected
{
    static constexpr const char* type = "minutes-corrected";
    OperationId operation;
    SegmentId segment;
    int minutes = 0;
    QString reason;
    static constexpr auto fields = fieldList(field("operation", &MinutesCorrected::operation),
                                             field("segment", &MinutesCorrected::segment),
                                             field("minutes", &MinutesCorrected::minutes),
                                             field("reason", &MinutesCorrected::reason));
    friend bool operator==(const MinutesCorrected&, const MinutesCorrected&) = default;
};

struct HandedOver
{
    static constexpr const char* type = "handed-over";
    OperationId operation;
    PersonId to;
    static constexpr auto fields =
        fieldList(field("operation", &HandedOver::operation), field("to", &HandedOver::to));
    friend bool operator==(const HandedOver&, const HandedOver&) = default;
};

/// Who does it, where, and no sooner than when, by the manager's word; null: left to the planner.
struct WorkPlanned
{
    static constexpr const char* type = "work-planned";
    OperationId operation;
    PersonId person;
    BayId bay;
    Moment from;
    static constexpr auto fields = fieldList(
        field("operation", &WorkPlanned::operation), field("person", &WorkPlanned::person),
        field("bay", &WorkPlanned::bay), field("from", &WorkPlanned::from));
    friend bool operator==(const WorkPlanned&, const WorkPlanned&) = default;
};

struct FigureSet
{
    static constexpr const char* type = "figure-set";
    OperationId operation;
    QString key;
    PlaceId place;
    int value = 0;
    QString source;
    static constexpr auto fields =
        fieldList(field("operation", &FigureSet::operation), field("key", &FigureSet::key),
                  field("place", &FigureSet::place), field("value", &FigureSet::value),
                  field("source", &FigureSet::source));
    friend bool operator==(const FigureSet&, const FigureSet&) = default;
};

/// The one before stays beside it; what was read against that counts no longer.
struct FigureCorrected
{
    static constexpr const char* type = "figure-corrected";
    OperationId operation;
    QString key;
    PlaceId place;
    int value = 0;
    QString source;
    QString reason;
    PhotoId evidence;
    static constexpr auto fields = fieldList(
        field("operation", &FigureCorrected::operation), field("key", &FigureCorrected::key),
        field("place", &FigureCorrected::place), field("value", &FigureCorrected::value),
        field("source", &FigureCorrected::source), field("reason", &FigureCorrected::reason),
        field("evidence", &FigureCorrected::evidence));
    friend bool operator==(const FigureCorrected&, const FigureCorrected&) = default;
};

struct ReadingTaken
{
    static constexpr const char* type = "reading-taken";
    OperationId operation;
    ReadingId reading;
    QString key;
    PlaceId place;
    ReadingValue value;
    ReadingOutcome outcome = ReadingOutcome::Recorded;
    std::vector<Limit> limits;
    ToolUsed tool = {};
    static constexpr auto fields = fieldList(
        field("operation", &ReadingTaken::operation), field("reading", &ReadingTaken::reading),
        field("key", &ReadingTaken::key), field("place", &ReadingTaken::place),
        field("value", &ReadingTaken::value), field("outcome", &ReadingTaken::outcome),
        field("limits", &ReadingTaken::limits), field("tool", &ReadingTaken::tool));
    friend bool operator==(const ReadingTaken&, const ReadingTaken&) = default;
};

struct ReadingCorrected
{
    static constexpr const char* type = "reading-corrected";
    OperationId operation;
    ReadingId original;
    ReadingId reading;
    ReadingValue value;
    ReadingOutcome outcome = ReadingOutcome::Recorded;
    std::vector<Limit> limits;
    QString reason;
    PhotoId evidence;
    ToolUsed tool = {};
    Moment waitUntil = {}; ///< it says how long closed work is left alone: until then; null: not
    static constexpr auto fields = fieldList(
        field("operation", &ReadingCorrected::operation),
        field("original", &ReadingCorrected::original),
        field("reading", &ReadingCorrected::reading), field("value", &ReadingCorrected::value),
        field("outcome", &ReadingCorrected::outcome), field("limits", &ReadingCorrected::limits),
        field("reason", &ReadingCorrected::reason), field("evidence", &ReadingCorrected::evidence),
        field("tool", &ReadingCorrected::tool), field("waitUntil", &ReadingCorrected::waitUntil));
    friend bool operator==(const ReadingCorrected&, const ReadingCorrected&) = default;
};

struct PhotoAttached
{
    static constexpr const char* type = "photo-attached";
    PhotoId photo;
    PhotoMoment moment = PhotoMoment::During;
    PlaceId place;
    OperationId operation;
    FindingId finding;
    CarriedOver carried = {};
    static constexpr auto fields = fieldList(
        field("photo", &PhotoAttached::photo), field("moment", &PhotoAttached::moment),
        field("place", &PhotoAttached::place), field("operation", &PhotoAttached::operation),
        field("finding", &PhotoAttached::finding), field("carried", &PhotoAttached::carried));
    friend bool operator==(const PhotoAttached&, const PhotoAttached&) = default;
};

struct OperationBlocked
{
    static constexpr const char* type = "operation-blocked";
    OperationId operation;
    PartOnOrder part;
    static constexpr auto fields = fieldList(field("operation", &OperationBlocked::operation),
                                             field("part", &OperationBlocked::part));
    friend bool operator==(const OperationBlocked&, const OperationBlocked&) = default;
};

struct OperationUnblocked
{
    static constexpr const char* type = "operation-unblocked";
    OperationId operation;
    static constexpr auto fields = fieldList(field("operation", &OperationUnblocked::operation));
    friend bool operator==(const OperationUnblocked&, const OperationUnblocked&) = default;
};

struct SentOut
{
    static constexpr const char* type = "sent-out";
    OperationId operation;
    OutsideWork work;
    static constexpr auto fields =
        fieldList(field("operation", &SentOut::operation), field("work", &SentOut::work));
    friend bool operator==(const SentOut&, const SentOut&) = default;
};

struct ReceivedBack
{
    static constexpr const char* type = "received-back";
    OperationId operation;
    QString document;
    std::optional<int> keys = {}; ///< how many came back; where some were given along
    static constexpr auto fields =
        fieldList(field("operation", &ReceivedBack::operation),
                  field("document", &ReceivedBack::document), field("keys", &ReceivedBack::keys));
    friend bool operator==(const ReceivedBack&, const ReceivedBack&) = default;
};

/// Of the part or of the outside firm that the work waits for.
struct DueChanged
{
    static constexpr const char* type = "due-changed";
    OperationId operation;
    QDate due;
    QString reason;
    static constexpr auto fields =
        fieldList(field("operation", &DueChanged::operation), field("due", &DueChanged::due),
                  field("reason", &DueChanged::reason));
    friend bool operator==(const DueChanged&, const DueChanged&) = default;
};

struct IsolationSet
{
    static constexpr const char* type = "isolation-set";
    OperationId operation;
    QString lockKeptAt;
    static constexpr auto fields = fieldList(field("operation", &IsolationSet::operation),
                                             field("lockKeptAt", &IsolationSet::lockKeptAt));
    friend bool operator==(const IsolationSet&, const IsolationSet&) = default;
};

struct IsolationLifted
{
    static constexpr const char* type = "isolation-lifted";
    OperationId operation;
    QString procedure;
    static constexpr auto fields = fieldList(field("operation", &IsolationLifted::operation),
                                             field("procedure", &IsolationLifted::procedure));
    friend bool operator==(const IsolationLifted&, const IsolationLifted&) = default;
};

} // namespace ramplight
