// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"

#include <variant>

// Everything that can have happened to a car. Events carry all that apply() needs (titles, resolved
// limits, the catalogue's hash): a ledger replays without a catalogue. A field added later keeps
// its default when an older entry is read; any other change raises the version and adds an
// upcaster.
namespace ramplight {

struct CarArrived
{
    static constexpr const char* type = "car-arrived";
    Identity identity;
    CarFacts facts;
    QDate promised;
    std::vector<SafetyPlace> safetyPlaces;
    QString parking;
    static constexpr auto fields = std::tuple{
        field("identity", &CarArrived::identity), field("facts", &CarArrived::facts),
        field("promised", &CarArrived::promised), field("safetyPlaces", &CarArrived::safetyPlaces),
        field("parking", &CarArrived::parking)};
    friend bool operator==(const CarArrived&, const CarArrived&) = default;
};

struct IdentityCorrected
{
    static constexpr const char* type = "identity-corrected";
    Identity identity;
    QString reason;
    static constexpr auto fields = std::tuple{field("identity", &IdentityCorrected::identity),
                                              field("reason", &IdentityCorrected::reason)};
    friend bool operator==(const IdentityCorrected&, const IdentityCorrected&) = default;
};

struct FactsCorrected
{
    static constexpr const char* type = "facts-corrected";
    CarFacts facts;
    std::vector<SafetyPlace> safetyPlaces;
    QString reason;
    PhotoId evidence;
    static constexpr auto fields = std::tuple{field("facts", &FactsCorrected::facts),
                                              field("safetyPlaces", &FactsCorrected::safetyPlaces),
                                              field("reason", &FactsCorrected::reason),
                                              field("evidence", &FactsCorrected::evidence)};
    friend bool operator==(const FactsCorrected&, const FactsCorrected&) = default;
};

struct PromiseChanged
{
    static constexpr const char* type = "promise-changed";
    QDate promised;
    QString reason;
    static constexpr auto fields = std::tuple{field("promised", &PromiseChanged::promised),
                                              field("reason", &PromiseChanged::reason)};
    friend bool operator==(const PromiseChanged&, const PromiseChanged&) = default;
};

struct FindingRecorded
{
    static constexpr const char* type = "finding-recorded";
    FindingId finding;
    FindingData data;
    OperationId during;
    QString rule;
    bool undecided = false;
    bool disclosed = false;
    CarId carriedFrom;
    static constexpr auto fields = std::tuple{field("finding", &FindingRecorded::finding),
                                              field("data", &FindingRecorded::data),
                                              field("during", &FindingRecorded::during),
                                              field("rule", &FindingRecorded::rule),
                                              field("undecided", &FindingRecorded::undecided),
                                              field("disclosed", &FindingRecorded::disclosed),
                                              field("carriedFrom", &FindingRecorded::carriedFrom)};
    friend bool operator==(const FindingRecorded&, const FindingRecorded&) = default;
};

struct FindingCorrected
{
    static constexpr const char* type = "finding-corrected";
    FindingId finding;
    FindingData data;
    bool stands = true;
    QString reason;
    PhotoId evidence;
    bool undecided = false;
    bool disclosed = false;
    static constexpr auto fields = std::tuple{field("finding", &FindingCorrected::finding),
                                              field("data", &FindingCorrected::data),
                                              field("stands", &FindingCorrected::stands),
                                              field("reason", &FindingCorrected::reason),
                                              field("evidence", &FindingCorrected::evidence),
                                              field("undecided", &FindingCorrected::undecided),
                                              field("disclosed", &FindingCorrected::disclosed)};
    friend bool operator==(const FindingCorrected&, const FindingCorrected&) = default;
};

struct PlacesFoundSound
{
    static constexpr const char* type = "places-found-sound";
    std::vector<PlaceId> places;
    static constexpr auto fields = std::tuple{field("places", &PlacesFoundSound::places)};
    friend bool operator==(const PlacesFoundSound&, const PlacesFoundSound&) = default;
};

/// Tread in tenths of a millimetre at three points across a tyre, as the appraiser measured it.
struct TreadRecorded
{
    static constexpr const char* type = "tread-recorded";
    PlaceId place;
    Tread tread;
    static constexpr auto fields =
        std::tuple{field("place", &TreadRecorded::place), field("tread", &TreadRecorded::tread)};
    friend bool operator==(const TreadRecorded&, const TreadRecorded&) = default;
};

struct AppraisalFinished
{
    static constexpr const char* type = "appraisal-finished";
    std::vector<PlaceId> notLookedAt;
    static constexpr auto fields =
        std::tuple{field("notLookedAt", &AppraisalFinished::notLookedAt)};
    friend bool operator==(const AppraisalFinished&, const AppraisalFinished&) = default;
};

struct OperationOpened
{
    static constexpr const char* type = "operation-opened";
    OperationId operation;
    OperationSpec spec;
    PlaceId place;
    Origin origin = Origin::Baseline;
    QString reason;
    std::vector<FindingId> findings;
    std::vector<OperationId> restsOn;
    std::vector<ReadingId> fromReadings;
    QString catalogueHash;
    static constexpr auto fields =
        std::tuple{field("operation", &OperationOpened::operation),
                   field("spec", &OperationOpened::spec),
                   field("place", &OperationOpened::place),
                   field("origin", &OperationOpened::origin),
                   field("reason", &OperationOpened::reason),
                   field("findings", &OperationOpened::findings),
                   field("restsOn", &OperationOpened::restsOn),
                   field("fromReadings", &OperationOpened::fromReadings),
                   field("catalogueHash", &OperationOpened::catalogueHash)};
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
        std::tuple{field("operation", &OperationExtended::operation),
                   field("findings", &OperationExtended::findings),
                   field("restsOn", &OperationExtended::restsOn),
                   field("fromReadings", &OperationExtended::fromReadings)};
    friend bool operator==(const OperationExtended&, const OperationExtended&) = default;
};

/// Something that it rested on is gone; something else still holds it open.
struct OperationNarrowed
{
    static constexpr const char* type = "operation-narrowed";
    OperationId operation;
    std::vector<FindingId> findings;
    std::vector<OperationId> restsOn;
    std::vector<ReadingId> fromReadings;
    static constexpr auto fields =
        std::tuple{field("operation", &OperationNarrowed::operation),
                   field("findings", &OperationNarrowed::findings),
                   field("restsOn", &OperationNarrowed::restsOn),
                   field("fromReadings", &OperationNarrowed::fromReadings)};
    friend bool operator==(const OperationNarrowed&, const OperationNarrowed&) = default;
};

/// It is not needed any more: never the same as closed.
struct OperationWithdrawn
{
    static constexpr const char* type = "operation-withdrawn";
    OperationId operation;
    QString reason;
    static constexpr auto fields = std::tuple{field("operation", &OperationWithdrawn::operation),
                                              field("reason", &OperationWithdrawn::reason)};
    friend bool operator==(const OperationWithdrawn&, const OperationWithdrawn&) = default;
};

struct CautionsRead
{
    static constexpr const char* type = "cautions-read";
    OperationId operation;
    static constexpr auto fields = std::tuple{field("operation", &CautionsRead::operation)};
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
    static constexpr auto fields = std::tuple{
        field("operation", &WorkStarted::operation), field("segment", &WorkStarted::segment),
        field("person", &WorkStarted::person), field("at", &WorkStarted::at),
        field("clockSetBack", &WorkStarted::clockSetBack)};
    friend bool operator==(const WorkStarted&, const WorkStarted&) = default;
};

struct WorkStopped
{
    static constexpr const char* type = "work-stopped";
    OperationId operation;
    SegmentId segment;
    Moment at;
    StopKind how = StopKind::Paused;
    static constexpr auto fields = std::tuple{
        field("operation", &WorkStopped::operation), field("segment", &WorkStopped::segment),
        field("at", &WorkStopped::at), field("how", &WorkStopped::how)};
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
    static constexpr auto fields = std::tuple{field("operation", &MinutesCorrected::operation),
                                              field("segment", &MinutesCorrected::segment),
                                              field("minutes", &MinutesCorrected::minutes),
                                              field("reason", &MinutesCorrected::reason)};
    friend bool operator==(const MinutesCorrected&, const MinutesCorrected&) = default;
};

struct HandedOver
{
    static constexpr const char* type = "handed-over";
    OperationId operation;
    PersonId to;
    static constexpr auto fields =
        std::tuple{field("operation", &HandedOver::operation), field("to", &HandedOver::to)};
    friend bool operator==(const HandedOver&, const HandedOver&) = default;
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
        std::tuple{field("operation", &FigureSet::operation), field("key", &FigureSet::key),
                   field("place", &FigureSet::place), field("value", &FigureSet::value),
                   field("source", &FigureSet::source)};
    friend bool operator==(const FigureSet&, const FigureSet&) = default;
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
    static constexpr auto fields = std::tuple{field("operation", &ReadingTaken::operation),
                                              field("reading", &ReadingTaken::reading),
                                              field("key", &ReadingTaken::key),
                                              field("place", &ReadingTaken::place),
                                              field("value", &ReadingTaken::value),
                                              field("outcome", &ReadingTaken::outcome),
                                              field("limits", &ReadingTaken::limits)};
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
    static constexpr auto fields = std::tuple{field("operation", &ReadingCorrected::operation),
                                              field("original", &ReadingCorrected::original),
                                              field("reading", &ReadingCorrected::reading),
                                              field("value", &ReadingCorrected::value),
                                              field("outcome", &ReadingCorrected::outcome),
                                              field("limits", &ReadingCorrected::limits),
                                              field("reason", &ReadingCorrected::reason),
                                              field("evidence", &ReadingCorrected::evidence)};
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
    static constexpr auto fields = std::tuple{
        field("photo", &PhotoAttached::photo), field("moment", &PhotoAttached::moment),
        field("place", &PhotoAttached::place), field("operation", &PhotoAttached::operation),
        field("finding", &PhotoAttached::finding)};
    friend bool operator==(const PhotoAttached&, const PhotoAttached&) = default;
};

struct OperationSigned
{
    static constexpr const char* type = "operation-signed";
    OperationId operation;
    SignatureMeaning meaning = SignatureMeaning::DidTheWork;
    int minutes = 0;
    QString note;
    static constexpr auto fields = std::tuple{field("operation", &OperationSigned::operation),
                                              field("meaning", &OperationSigned::meaning),
                                              field("minutes", &OperationSigned::minutes),
                                              field("note", &OperationSigned::note)};
    friend bool operator==(const OperationSigned&, const OperationSigned&) = default;
};

struct OperationClosed
{
    static constexpr const char* type = "operation-closed";
    OperationId operation;
    Moment waitUntil;
    static constexpr auto fields = std::tuple{field("operation", &OperationClosed::operation),
                                              field("waitUntil", &OperationClosed::waitUntil)};
    friend bool operator==(const OperationClosed&, const OperationClosed&) = default;
};

/// Its signatures are void; they stay on record.
struct OperationReopened
{
    static constexpr const char* type = "operation-reopened";
    OperationId operation;
    QString reason;
    PersonId backTo;
    std::vector<OperationId> restsOn;
    static constexpr auto fields = std::tuple{field("operation", &OperationReopened::operation),
                                              field("reason", &OperationReopened::reason),
                                              field("backTo", &OperationReopened::backTo),
                                              field("restsOn", &OperationReopened::restsOn)};
    friend bool operator==(const OperationReopened&, const OperationReopened&) = default;
};

struct OperationLeft
{
    static constexpr const char* type = "operation-left";
    OperationId operation;
    QString words;
    static constexpr auto fields = std::tuple{field("operation", &OperationLeft::operation),
                                              field("words", &OperationLeft::words)};
    friend bool operator==(const OperationLeft&, const OperationLeft&) = default;
};

struct OperationBlocked
{
    static constexpr const char* type = "operation-blocked";
    OperationId operation;
    PartOnOrder part;
    static constexpr auto fields = std::tuple{field("operation", &OperationBlocked::operation),
                                              field("part", &OperationBlocked::part)};
    friend bool operator==(const OperationBlocked&, const OperationBlocked&) = default;
};

struct OperationUnblocked
{
    static constexpr const char* type = "operation-unblocked";
    OperationId operation;
    static constexpr auto fields = std::tuple{field("operation", &OperationUnblocked::operation)};
    friend bool operator==(const OperationUnblocked&, const OperationUnblocked&) = default;
};

struct SentOut
{
    static constexpr const char* type = "sent-out";
    OperationId operation;
    OutsideWork work;
    static constexpr auto fields =
        std::tuple{field("operation", &SentOut::operation), field("work", &SentOut::work)};
    friend bool operator==(const SentOut&, const SentOut&) = default;
};

struct ReceivedBack
{
    static constexpr const char* type = "received-back";
    OperationId operation;
    QString document;
    static constexpr auto fields = std::tuple{field("operation", &ReceivedBack::operation),
                                              field("document", &ReceivedBack::document)};
    friend bool operator==(const ReceivedBack&, const ReceivedBack&) = default;
};

struct IsolationSet
{
    static constexpr const char* type = "isolation-set";
    OperationId operation;
    QString lockKeptAt;
    static constexpr auto fields = std::tuple{field("operation", &IsolationSet::operation),
                                              field("lockKeptAt", &IsolationSet::lockKeptAt)};
    friend bool operator==(const IsolationSet&, const IsolationSet&) = default;
};

struct IsolationLifted
{
    static constexpr const char* type = "isolation-lifted";
    OperationId operation;
    QString procedure;
    static constexpr auto fields = std::tuple{field("operation", &IsolationLifted::operation),
                                              field("procedure", &IsolationLifted::procedure)};
    friend bool operator==(const IsolationLifted&, const IsolationLifted&) = default;
};

struct CarMoved
{
    static constexpr const char* type = "car-moved";
    BayId bay;
    QString parking;
    static constexpr auto fields =
        std::tuple{field("bay", &CarMoved::bay), field("parking", &CarMoved::parking)};
    friend bool operator==(const CarMoved&, const CarMoved&) = default;
};

struct CarReleased
{
    static constexpr const char* type = "car-released";
    qint64 upTo = 0;
    static constexpr auto fields = std::tuple{field("upTo", &CarReleased::upTo)};
    friend bool operator==(const CarReleased&, const CarReleased&) = default;
};

struct CarHeldAgain
{
    static constexpr const char* type = "car-held-again";
    QString reason;
    static constexpr auto fields = std::tuple{field("reason", &CarHeldAgain::reason)};
    friend bool operator==(const CarHeldAgain&, const CarHeldAgain&) = default;
};

struct CarLeft
{
    static constexpr const char* type = "car-left";
    LeavingHow how = LeavingHow::Trade;
    QString reason;
    CarId sameAs;
    static constexpr auto fields =
        std::tuple{field("how", &CarLeft::how), field("reason", &CarLeft::reason),
                   field("sameAs", &CarLeft::sameAs)};
    friend bool operator==(const CarLeft&, const CarLeft&) = default;
};

struct CarBroughtBack
{
    static constexpr const char* type = "car-brought-back";
    QString reason;
    static constexpr auto fields = std::tuple{field("reason", &CarBroughtBack::reason)};
    friend bool operator==(const CarBroughtBack&, const CarBroughtBack&) = default;
};

/// Evidence of a car entered twice was carried over to this one.
struct DuplicateLinked
{
    static constexpr const char* type = "duplicate-linked";
    CarId other;
    QString otherStockNumber;
    static constexpr auto fields =
        std::tuple{field("other", &DuplicateLinked::other),
                   field("otherStockNumber", &DuplicateLinked::otherStockNumber)};
    friend bool operator==(const DuplicateLinked&, const DuplicateLinked&) = default;
};

using CarEvent =
    std::variant<CarArrived, IdentityCorrected, FactsCorrected, PromiseChanged, FindingRecorded,
                 FindingCorrected, PlacesFoundSound, TreadRecorded, AppraisalFinished,
                 OperationOpened, OperationExtended, OperationNarrowed, OperationWithdrawn,
                 CautionsRead, WorkStarted, WorkStopped, MinutesCorrected, HandedOver, FigureSet,
                 ReadingTaken, ReadingCorrected, PhotoAttached, OperationSigned, OperationClosed,
                 OperationReopened, OperationLeft, OperationBlocked, OperationUnblocked, SentOut,
                 ReceivedBack, IsolationSet, IsolationLifted, CarMoved, CarReleased, CarHeldAgain,
                 CarLeft, CarBroughtBack, DuplicateLinked>;

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
