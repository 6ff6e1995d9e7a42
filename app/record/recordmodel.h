// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/holds.h"
#include "domain/site.h"

#include <optional>
#include <vector>

// The handover record of a car as plain values: what was found, done and left, who signed, with
// which readings. Pure functions of the ledger's entries; no clock, no files, any thread.
//
// `fields` lists what came from the car's entries and nothing else: the digest is made of it.
// Words, names and house rules are for the reader and stay out, so that a name that was erased or a
// word that was changed does not turn a true record into a false one.
namespace ramplight {

/// Where a car's chain of entries ends.
struct RecordHead
{
    qint64 seq = 0;
    QString hash; ///< lower-case hex
};

struct RecordPerson
{
    PersonId id;
    QString name; ///< from the staff book; empty once erased
    friend bool operator==(const RecordPerson&, const RecordPerson&) = default;
};

struct RecordPhoto
{
    PhotoId photo;
    PhotoMoment moment = PhotoMoment::During;
    PersonId by;
    Moment at;
    QString words;     ///< "before", "evidence of the correction"
    QString gone = {}; ///< "removed after 6 years": no picture is kept any more

    static constexpr auto fields =
        fieldList(field("photo", &RecordPhoto::photo), field("moment", &RecordPhoto::moment),
                  field("by", &RecordPhoto::by), field("at", &RecordPhoto::at));
    friend bool operator==(const RecordPhoto&, const RecordPhoto&) = default;
};

struct RecordFindingVersion
{
    FindingData data;
    bool stands = true;
    PersonId by;
    Moment at;
    QString reason;   ///< of a correction
    PhotoId evidence; ///< of a correction
    QString words;

    static constexpr auto fields = fieldList(
        field("data", &RecordFindingVersion::data), field("stands", &RecordFindingVersion::stands),
        field("by", &RecordFindingVersion::by), field("at", &RecordFindingVersion::at),
        field("reason", &RecordFindingVersion::reason),
        field("evidence", &RecordFindingVersion::evidence));
    friend bool operator==(const RecordFindingVersion&, const RecordFindingVersion&) = default;
};

struct RecordFinding
{
    FindingId id;
    std::vector<RecordFindingVersion> versions; ///< never empty; the last one counts
    OperationId during;                         ///< found while doing this; null: at the appraisal
    std::vector<OperationId> answeredBy;        ///< without withdrawn ones
    bool undecided = false;
    bool disclosed = false;
    std::vector<RecordPhoto> photos; ///< evidence of corrections, and those that no operation shows

    [[nodiscard]] const RecordFindingVersion& now() const { return versions.back(); }
    static constexpr auto fields = fieldList(
        field("id", &RecordFinding::id), field("versions", &RecordFinding::versions),
        field("during", &RecordFinding::during), field("answeredBy", &RecordFinding::answeredBy),
        field("undecided", &RecordFinding::undecided),
        field("disclosed", &RecordFinding::disclosed), field("photos", &RecordFinding::photos));
    friend bool operator==(const RecordFinding&, const RecordFinding&) = default;
};

struct RecordReading
{
    QString key;
    PlaceId place;
    ReadingValue value;
    ReadingOutcome outcome = ReadingOutcome::Recorded;
    std::vector<Limit> limits; ///< as they were when it was taken
    PersonId by;
    Moment at;
    bool superseded = false;
    QString correction; ///< reason, when it corrects an earlier one
    QString name;       ///< what was read, without the place
    QString placeWords; ///< empty when it is the operation's own
    QString valueWords;
    QString limitWords;      ///< bound, who set it and where it stands; empty when there is none
    ToolUsed tool = {};      ///< as it was then
    QString toolWords = {};  ///< empty when the reading wants none
    QString boundWords = {}; ///< the narrowest bound alone: "at least 3.0 mm"

    /// There is no place, or the name says it already: "Horn" of the horn.
    [[nodiscard]] bool namesItsPlace() const;
    [[nodiscard]] QString title() const; ///< name, and place where the name does not say it

    static constexpr auto fields = fieldList(
        field("key", &RecordReading::key), field("place", &RecordReading::place),
        field("value", &RecordReading::value), field("outcome", &RecordReading::outcome),
        field("limits", &RecordReading::limits), field("by", &RecordReading::by),
        field("at", &RecordReading::at), field("superseded", &RecordReading::superseded),
        field("correction", &RecordReading::correction), field("tool", &RecordReading::tool));
    friend bool operator==(const RecordReading&, const RecordReading&) = default;
};

struct RecordFigure
{
    QString key;
    PlaceId place;
    int value = 0;
    QString source;
    PersonId by;
    Moment at;
    QString correction; ///< reason, when it corrects an earlier one
    bool counts = true; ///< nobody typed or corrected it anew
    QString title;
    QString valueWords;

    static constexpr auto fields = fieldList(
        field("key", &RecordFigure::key), field("place", &RecordFigure::place),
        field("value", &RecordFigure::value), field("source", &RecordFigure::source),
        field("by", &RecordFigure::by), field("at", &RecordFigure::at),
        field("correction", &RecordFigure::correction), field("counts", &RecordFigure::counts));
    friend bool operator==(const RecordFigure&, const RecordFigure&) = default;
};

/// One stretch of work of one person.
struct RecordStretch
{
    PersonId person;
    Moment start;
    Moment end; ///< null while it runs
    int measuredMinutes = 0;
    std::optional<int> correctedMinutes;
    QString correctionReason;
    PersonId correctedBy;
    bool clockSetBack = false;
    bool clockPutForward = false; ///< while the timer ran

    static constexpr auto fields =
        fieldList(field("person", &RecordStretch::person), field("start", &RecordStretch::start),
                  field("end", &RecordStretch::end),
                  field("measuredMinutes", &RecordStretch::measuredMinutes),
                  field("correctedMinutes", &RecordStretch::correctedMinutes),
                  field("correctionReason", &RecordStretch::correctionReason),
                  field("correctedBy", &RecordStretch::correctedBy),
                  field("clockSetBack", &RecordStretch::clockSetBack),
                  field("clockPutForward", &RecordStretch::clockPutForward));
    friend bool operator==(const RecordStretch&, const RecordStretch&) = default;
};

struct RecordSignature
{
    PersonId by;
    Moment at;
    SignatureMeaning meaning = SignatureMeaning::DidTheWork;
    int minutes = 0;
    QString note;
    bool voided = false;

    static constexpr auto fields = fieldList(
        field("by", &RecordSignature::by), field("at", &RecordSignature::at),
        field("meaning", &RecordSignature::meaning), field("minutes", &RecordSignature::minutes),
        field("note", &RecordSignature::note), field("voided", &RecordSignature::voided));
    friend bool operator==(const RecordSignature&, const RecordSignature&) = default;
};

/// Something that happened on the way: reopened, waited for a part, sent out, withdrawn; and of the
/// car: identity corrected, held again, brought back.
struct RecordStep
{
    Moment at;
    PersonId by;
    QString kind;  ///< the entry's type in the ledger
    QString text;  ///< as it was typed
    QString words; ///< what happened, with the text

    static constexpr auto fields =
        fieldList(field("at", &RecordStep::at), field("by", &RecordStep::by),
                  field("kind", &RecordStep::kind), field("text", &RecordStep::text));
    friend bool operator==(const RecordStep&, const RecordStep&) = default;
};

/// Who did something, and when.
struct RecordDeed
{
    PersonId by;
    Moment at;

    static constexpr auto fields =
        fieldList(field("by", &RecordDeed::by), field("at", &RecordDeed::at));
    friend bool operator==(const RecordDeed&, const RecordDeed&) = default;
};

struct RecordOperation
{
    OperationId id;
    QString kind; ///< catalogue id
    PlaceId place;
    QString title;  ///< with its place
    QString name;   ///< without it
    QString reason; ///< of one opened by hand
    Origin origin = Origin::Baseline;
    bool safety = false;
    OperationState state = OperationState::Waiting;
    std::vector<FindingId> findings;
    int minutes = 0; ///< all people's, as corrected
    std::vector<RecordStretch> stretches;
    std::vector<RecordReading> readings;
    std::vector<RecordFigure> figures;
    std::vector<RecordSignature> signatures;
    std::vector<RecordPhoto> photos;
    QStringList cautions;
    std::vector<RecordDeed> cautionsRead;
    std::vector<RecordStep> steps;
    QString leftWords;  ///< for the buyer
    QStringList advice; ///< what the buyer is to do, now that it was done
    QString withdrawnWhy;
    SecondPerson second = SecondPerson::None;
    std::vector<PersonId> checked; ///< whose work this one checks, where it names that work
    RecordDeed ended; ///< who closed it, left it or found that it is not needed; null while open

    [[nodiscard]] bool isOpen() const;
    /// Whose names stand under it as it is now, each once, in the order of signing.
    [[nodiscard]] std::vector<PersonId> names() const;
    static constexpr auto fields = fieldList(
        field("id", &RecordOperation::id), field("kind", &RecordOperation::kind),
        field("place", &RecordOperation::place), field("reason", &RecordOperation::reason),
        field("origin", &RecordOperation::origin), field("safety", &RecordOperation::safety),
        field("state", &RecordOperation::state), field("findings", &RecordOperation::findings),
        field("minutes", &RecordOperation::minutes),
        field("stretches", &RecordOperation::stretches),
        field("readings", &RecordOperation::readings), field("figures", &RecordOperation::figures),
        field("signatures", &RecordOperation::signatures),
        field("photos", &RecordOperation::photos), field("cautions", &RecordOperation::cautions),
        field("cautionsRead", &RecordOperation::cautionsRead),
        field("steps", &RecordOperation::steps), field("leftWords", &RecordOperation::leftWords),
        field("advice", &RecordOperation::advice),
        field("withdrawnWhy", &RecordOperation::withdrawnWhy),
        field("ended", &RecordOperation::ended));
    friend bool operator==(const RecordOperation&, const RecordOperation&) = default;
};

struct RecordTread
{
    PlaceId place;
    Tread tread;
    QString placeWords;

    static constexpr auto fields =
        fieldList(field("place", &RecordTread::place), field("tread", &RecordTread::tread));
    friend bool operator==(const RecordTread&, const RecordTread&) = default;
};

/// What stands on a tyre.
struct RecordTyre
{
    PlaceId place;
    TyreMarking marking;

    static constexpr auto fields =
        fieldList(field("place", &RecordTyre::place), field("marking", &RecordTyre::marking));
    friend bool operator==(const RecordTyre&, const RecordTyre&) = default;
};

/// Paint depth of a panel, micrometres.
struct RecordPaint
{
    PlaceId panel;
    std::vector<int> micrometres;
    int median = 0;
    int highest = 0;
    QString words; ///< where it stands out against the other panels

    static constexpr auto fields = fieldList(field("panel", &RecordPaint::panel),
                                             field("micrometres", &RecordPaint::micrometres));
    friend bool operator==(const RecordPaint&, const RecordPaint&) = default;
};

/// What the odometer showed after arrival.
struct RecordOdometer
{
    int value = 0;
    DistanceUnit unit = DistanceUnit::Miles;
    RecordDeed read;
    QString lowerWhy;

    static constexpr auto fields = fieldList(
        field("value", &RecordOdometer::value), field("unit", &RecordOdometer::unit),
        field("read", &RecordOdometer::read), field("lowerWhy", &RecordOdometer::lowerWhy));
    friend bool operator==(const RecordOdometer&, const RecordOdometer&) = default;
};

/// What still stands between the car and its sale.
struct RecordHold
{
    HoldKind kind = HoldKind::OpenOperation;
    bool safety = false;
    OperationId operation;
    PlaceId place;
    FindingId finding;
    QString words;

    static constexpr auto fields =
        fieldList(field("kind", &RecordHold::kind), field("safety", &RecordHold::safety),
                  field("operation", &RecordHold::operation), field("place", &RecordHold::place),
                  field("finding", &RecordHold::finding));
    friend bool operator==(const RecordHold&, const RecordHold&) = default;
};

struct RecordModel
{
    CarId car;
    qint64 seq = 0; ///< the entry up to which it was made
    Moment madeAt;
    Identity identity;
    CarFacts facts;
    QDate promised;
    Moment arrivedAt;
    CarStatus status = CarStatus::Arriving;
    std::vector<RecordHold> holds; ///< complete; empty once released or withdrawn
    std::optional<RecordDeed> released;
    QString heldAgainWhy;
    std::optional<LeavingHow> left;
    QString leftWhy;
    std::vector<RecordFinding> findings;
    std::vector<RecordOperation> operations; ///< in the order in which they were opened
    std::vector<RecordTread> treads;
    std::vector<RecordTyre> tyres;
    std::vector<RecordPaint> paint;
    std::vector<RecordOdometer> odometer;
    std::vector<PlaceId> sound;       ///< said to be in good order
    std::vector<PlaceId> notLookedAt; ///< by nobody, up to now
    std::vector<RecordStep> steps;    ///< of the car
    std::vector<RecordPhoto> photos;  ///< of the car, of no finding and no operation

    // For the reader; not part of the digest.
    std::vector<PlaceId> newTyres; ///< fitted by the workshop, and not measured since
    QString site;
    bool demo = false;
    HouseRules rules;
    QString standingLine; ///< the catalogue's safety line
    QString headHash;
    QString fingerprint; ///< "a3f1 09bc 77de 0142, entry 57"
    std::vector<RecordPerson> people;

    [[nodiscard]] const RecordOperation* operation(OperationId id) const;
    /// The name, or "person 7" when there is none any more.
    [[nodiscard]] QString nameOf(PersonId id) const;
    /// SHA-256 over the canonical JSON of the fields, lower-case hex.
    [[nodiscard]] QString digest() const;
    static constexpr auto fields = fieldList(
        field("car", &RecordModel::car), field("seq", &RecordModel::seq),
        field("madeAt", &RecordModel::madeAt), field("identity", &RecordModel::identity),
        field("facts", &RecordModel::facts), field("promised", &RecordModel::promised),
        field("arrivedAt", &RecordModel::arrivedAt), field("status", &RecordModel::status),
        field("holds", &RecordModel::holds), field("released", &RecordModel::released),
        field("heldAgainWhy", &RecordModel::heldAgainWhy), field("left", &RecordModel::left),
        field("leftWhy", &RecordModel::leftWhy), field("findings", &RecordModel::findings),
        field("operations", &RecordModel::operations), field("treads", &RecordModel::treads),
        field("sound", &RecordModel::sound), field("notLookedAt", &RecordModel::notLookedAt),
        field("steps", &RecordModel::steps), field("photos", &RecordModel::photos),
        field("tyres", &RecordModel::tyres), field("paint", &RecordModel::paint),
        field("odometer", &RecordModel::odometer));
};

/// The record of a car as `car` has it. history: its entries from the first on; later ones than the
/// car's own are left aside. standingLine: the catalogue's.
[[nodiscard]] RecordModel buildRecord(const CarState& car, const std::vector<CarEnvelope>& history,
                                      const SiteState& site, const RecordHead& head,
                                      const QString& standingLine, Moment madeAt);

} // namespace ramplight
