// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/oneof.h"

#include <variant>

// What a person can ask of a car. decide() in cardecide.h answers with events or a refusal.
namespace ramplight::car {

/// A car arrives: identity, facts, promised day.
struct BringIn
{
    Identity identity;
    CarFacts facts;
    QDate promised;
    QString parking;
};

struct CorrectIdentity
{
    Identity identity;
    QString reason;
    /// As it was shown where this was typed; nothing: as it is. What was not changed there stays as
    /// others corrected it meanwhile.
    std::optional<Identity> shown = {};
};

struct CorrectFacts
{
    CarFacts facts;
    QString reason;
    PhotoId evidence;
    std::optional<CarFacts> shown = {}; ///< as above
};

/// Another promised day, or what it counts for; the other of the two may stay.
struct ChangePromise
{
    QDate promised;
    QString reason;
    std::optional<PromiseImportance> importance = {}; ///< nothing: as it was
};

struct RecordFinding
{
    static constexpr const char* type = "record-finding";
    FindingData data;
    OperationId during;
    DraftRef draft = {}; ///< of a spoken walk-round: what is recorded decides about it
    // Out of an appraisal file that somebody else takes in than who found it:
    PersonId foundBy = {}; ///< null: whoever records it
    Moment foundAt = {};
    static constexpr auto fields =
        fieldList(field("data", &RecordFinding::data), field("during", &RecordFinding::during),
                  field("draft", &RecordFinding::draft), field("foundBy", &RecordFinding::foundBy),
                  field("foundAt", &RecordFinding::foundAt));
};

/// Somebody had the words of a walk-round read; the same words again change nothing.
struct TakeSpeech
{
    SpokenRound round;
};

/// A draft that is not so, or one that was dropped and is to be looked at again after all.
struct DropDraft
{
    DraftRef draft;
    bool dropped = true;
};

struct FindSound
{
    static constexpr const char* type = "find-sound";
    std::vector<PlaceId> places;
    static constexpr auto fields = fieldList(field("places", &FindSound::places));
};

struct RecordTread
{
    static constexpr const char* type = "record-tread";
    PlaceId place;
    Tread tread;
    static constexpr auto fields =
        fieldList(field("place", &RecordTread::place), field("tread", &RecordTread::tread));
};

/// What was measured and read off one tyre; what is left empty keeps what is known.
struct RecordTyre
{
    static constexpr const char* type = "record-tyre";
    PlaceId place;
    std::optional<Tread> tread = {};
    QString dateCode = {}; ///< last four digits after DOT: week and year
    QString size = {};     ///< may carry load index and speed symbol: "205/55 R16 91V"
    std::optional<int> loadIndex = {};
    QString speedSymbol = {};
    static constexpr auto fields = fieldList(
        field("place", &RecordTyre::place), field("tread", &RecordTyre::tread),
        field("dateCode", &RecordTyre::dateCode), field("size", &RecordTyre::size),
        field("loadIndex", &RecordTyre::loadIndex), field("speedSymbol", &RecordTyre::speedSymbol));
};

/// Micrometres at three points of a metal panel or more.
struct RecordPaintDepth
{
    static constexpr const char* type = "record-paint-depth";
    PlaceId panel;
    std::vector<int> micrometres;
    static constexpr auto fields = fieldList(field("panel", &RecordPaintDepth::panel),
                                             field("micrometres", &RecordPaintDepth::micrometres));
};

/// Somebody looked at a panel whose paint stands out and says that it was repaired before.
struct ConfirmRepair
{
    static constexpr const char* type = "confirm-repair";
    PlaceId panel;
    QString note = {};
    static constexpr auto fields =
        fieldList(field("panel", &ConfirmRepair::panel), field("note", &ConfirmRepair::note));
};

/// The odometer at the road test, at handover or whenever somebody reads it.
struct ReadOdometer
{
    static constexpr const char* type = "read-odometer";
    int value = 0;
    DistanceUnit unit = DistanceUnit::Miles;
    OperationId during = {};
    QString reason = {}; ///< wanted when it shows less than before
    static constexpr auto fields =
        fieldList(field("value", &ReadOdometer::value), field("unit", &ReadOdometer::unit),
                  field("during", &ReadOdometer::during), field("reason", &ReadOdometer::reason));
};

struct FinishAppraisal
{
    static constexpr const char* type = "finish-appraisal";
    static constexpr auto fields = fieldList();
};

/// What was recorded is wrong: other data, or it is not there at all.
struct CorrectFinding
{
    FindingId finding;
    FindingData data;
    bool stands = true;
    QString reason;
    PhotoId evidence;
};

/// By hand, out of the catalogue.
struct OpenOperation
{
    static constexpr const char* type = "open-operation";
    QString kind;
    PlaceId place;
    QString reason;
    static constexpr auto fields =
        fieldList(field("kind", &OpenOperation::kind), field("place", &OpenOperation::place),
                  field("reason", &OpenOperation::reason));
};

/// One that was opened by hand or answers no standing finding, never a safety one.
struct WithdrawOperation
{
    OperationId operation;
    QString reason;
};

/// While the appraisal goes on: the appraiser does not want what a rule suggested, never a safety
/// item. Findings that nothing else answers are disclosed.
struct TakeOut
{
    OperationId operation;
    QString reason;
};

struct ReadCautions
{
    static constexpr const char* type = "read-cautions";
    OperationId operation;
    static constexpr auto fields = fieldList(field("operation", &ReadCautions::operation));
};

/// Also resumes after a pause.
struct StartWork
{
    static constexpr const char* type = "start-work";
    OperationId operation;
    static constexpr auto fields = fieldList(field("operation", &StartWork::operation));
};

struct PauseWork
{
    static constexpr const char* type = "pause-work";
    OperationId operation;
    PersonId person;
    StopKind how = StopKind::Paused;
    Moment at = {}; ///< the house's own, at the end of a shift that is over; null: now
    static constexpr auto fields =
        fieldList(field("operation", &PauseWork::operation), field("person", &PauseWork::person),
                  field("how", &PauseWork::how), field("at", &PauseWork::at));
};

struct CorrectMinutes
{
    OperationId operation;
    SegmentId segment;
    int minutes = 0;
    QString reason;
};

struct HandOver
{
    static constexpr const char* type = "hand-over";
    OperationId operation;
    PersonId to;
    static constexpr auto fields =
        fieldList(field("operation", &HandOver::operation), field("to", &HandOver::to));
};

/// The manager's word about who does an operation, where, and no sooner than when; what is null is
/// the planner's business again.
struct PlanWork
{
    OperationId operation;
    PersonId person = {};
    BayId bay = {};
    Moment from = {};
};

/// A figure or limit of this car, with where it was looked up.
struct SetFigure
{
    static constexpr const char* type = "set-figure";
    OperationId operation;
    QString key;
    PlaceId place;
    int value = 0;
    QString source;
    static constexpr auto fields =
        fieldList(field("operation", &SetFigure::operation), field("key", &SetFigure::key),
                  field("place", &SetFigure::place), field("value", &SetFigure::value),
                  field("source", &SetFigure::source));
};

struct TakeReading
{
    static constexpr const char* type = "take-reading";
    OperationId operation;
    QString key;
    PlaceId place;
    ReadingValue value;
    ToolId tool = {}; ///< measured with; null where the house has none of that kind registered
    static constexpr auto fields =
        fieldList(field("operation", &TakeReading::operation), field("key", &TakeReading::key),
                  field("place", &TakeReading::place), field("value", &TakeReading::value),
                  field("tool", &TakeReading::tool));
    friend bool operator==(const TakeReading&, const TakeReading&) = default;
};

struct CorrectReading
{
    OperationId operation;
    ReadingId reading;
    ReadingValue value;
    QString reason;
    PhotoId evidence;
    ToolId tool = {}; ///< null: the tool of the corrected reading, as it was then
};

/// The figure was typed or looked up wrongly; what was read against it has to be read again.
struct CorrectFigure
{
    OperationId operation;
    QString key;
    PlaceId place;
    int value = 0;
    QString source;
    QString reason;
    PhotoId evidence;
};

struct AttachPhoto
{
    static constexpr const char* type = "attach-photo";
    PhotoId photo;
    PhotoMoment moment = PhotoMoment::During;
    PlaceId place;
    OperationId operation;
    FindingId finding;
    static constexpr auto fields =
        fieldList(field("photo", &AttachPhoto::photo), field("moment", &AttachPhoto::moment),
                  field("place", &AttachPhoto::place), field("operation", &AttachPhoto::operation),
                  field("finding", &AttachPhoto::finding));
};

/// The signer's part of the minutes of work that was done together on several wheels.
struct MinutesShare
{
    int minutes = 0;
    int of = 0;     ///< all of the signer's minutes on them
    int wheels = 0; ///< among so many
};

/// Finish and sign; also signs a check, and work received from an outside firm.
struct SignOff
{
    static constexpr const char* type = "sign-off";
    OperationId operation;
    QString note;
    std::optional<MinutesShare> share = {}; ///< only through Workshop::signTogether
    static constexpr auto fields =
        fieldList(field("operation", &SignOff::operation), field("note", &SignOff::note));
};

struct Countersign
{
    static constexpr const char* type = "countersign";
    OperationId operation;
    static constexpr auto fields = fieldList(field("operation", &Countersign::operation));
};

/// The check or countersignature is refused; the work goes back to who did it.
struct FailCheck
{
    static constexpr const char* type = "fail-check";
    OperationId operation;
    QString reason;
    OperationId work; ///< what goes back, where the check covers more than what opened it
    static constexpr auto fields =
        fieldList(field("operation", &FailCheck::operation), field("reason", &FailCheck::reason),
                  field("work", &FailCheck::work));
};

struct Reopen
{
    OperationId operation;
    QString reason;
};

/// The buyer's page has room for them. Earlier ones may be longer.
inline constexpr int mostWordsForTheBuyer = 600; // characters

struct LeaveAsIs
{
    OperationId operation;
    QString words; ///< for the buyer
};

struct BlockForPart
{
    static constexpr const char* type = "block-for-part";
    OperationId operation;
    PartOnOrder part;
    static constexpr auto fields =
        fieldList(field("operation", &BlockForPart::operation), field("part", &BlockForPart::part));
};

struct Unblock
{
    OperationId operation;
};

struct SendOut
{
    OperationId operation;
    OutsideWork work;
};

struct ReceiveBack
{
    OperationId operation;
    QString document;
    std::optional<int> keys = {}; ///< of those given along, how many came back; where some were
};

/// The part, or the work that is outside, comes on another day.
struct ChangeDue
{
    OperationId operation;
    QDate due;
    QString reason; ///< who said so; may be empty
};

struct SetIsolation
{
    OperationId operation;
    QString lockKeptAt;
};

struct LiftIsolation
{
    OperationId operation;
    QString procedure;
};

struct MoveCar
{
    static constexpr const char* type = "move-car";
    BayId bay;
    QString parking;
    static constexpr auto fields =
        fieldList(field("bay", &MoveCar::bay), field("parking", &MoveCar::parking));
};

struct Release
{
};

struct LeaveUnreleased
{
    LeavingHow how = LeavingHow::Trade;
    QString reason;
};

struct BringBack
{
    QString reason;
};

/// This car was entered twice: the other one's evidence comes over to this one.
struct LinkDuplicate
{
    CarId other;
};

/// The house's retention is over: the photos of a car that is out of prep for so long are kept no
/// longer. What its entries say of them stays.
struct RemovePhotos
{
};

/// This entry is the second one; the other car goes on.
struct CloseDuplicate
{
    CarId sameAs;
    QString reason;
};

} // namespace ramplight::car

namespace ramplight {

using CarCommand = OneOf<std::variant<
    car::BringIn, car::CorrectIdentity, car::CorrectFacts, car::ChangePromise, car::RecordFinding,
    car::FindSound, car::RecordTread, car::FinishAppraisal, car::CorrectFinding, car::OpenOperation,
    car::WithdrawOperation, car::ReadCautions, car::StartWork, car::PauseWork, car::CorrectMinutes,
    car::HandOver, car::SetFigure, car::TakeReading, car::CorrectReading, car::AttachPhoto,
    car::SignOff, car::Countersign, car::FailCheck, car::Reopen, car::LeaveAsIs, car::BlockForPart,
    car::Unblock, car::SendOut, car::ReceiveBack, car::SetIsolation, car::LiftIsolation,
    car::MoveCar, car::Release, car::LeaveUnreleased, car::BringBack, car::LinkDuplicate,
    car::CloseDuplicate, car::RecordTyre, car::RecordPaintDepth, car::ConfirmRepair,
    car::ReadOdometer, car::TakeOut, car::PlanWork, car::TakeSpeech, car::DropDraft,
    car::RemovePhotos, car::ChangeDue, car::CorrectFigure>>;

} // namespace ramplight
