// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carfacts.h"
#include "domain/catalogue.h"
#include "domain/ids.h"
#include "domain/moment.h"
#include "domain/paintdepth.h"
#include "domain/spokenround.h"
#include "domain/vocabulary.h"

#include <QDate>
#include <QMap>

#include <map>
#include <optional>
#include <set>
#include <vector>

// A car in preparation as its stream of events has made it: identity, findings, operations and
// what was done about them. Plain values; carevents.h changes them, holds.h reads them.
namespace ramplight {

enum class BodyShape { Hatch, Saloon, Estate, Suv, Coupe, Convertible, Van, Pickup, Mpv };
template <>
struct Names<BodyShape>
{
    static constexpr std::array table{
        std::pair{BodyShape::Hatch, "hatch"},   std::pair{BodyShape::Saloon, "saloon"},
        std::pair{BodyShape::Estate, "estate"}, std::pair{BodyShape::Suv, "suv"},
        std::pair{BodyShape::Coupe, "coupe"},   std::pair{BodyShape::Convertible, "convertible"},
        std::pair{BodyShape::Van, "van"},       std::pair{BodyShape::Pickup, "pickup"},
        std::pair{BodyShape::Mpv, "mpv"},
    };
};

struct Identity
{
    QString stockNumber; ///< unique among the cars of a site
    QString registration;
    QString vin;
    QString make;
    QString model;
    BodyShape shape = BodyShape::Hatch;
    QString colour;
    QString paintCode;

    static constexpr auto fields =
        fieldList(field("stockNumber", &Identity::stockNumber),
                  field("registration", &Identity::registration), field("vin", &Identity::vin),
                  field("make", &Identity::make), field("model", &Identity::model),
                  field("shape", &Identity::shape), field("colour", &Identity::colour),
                  field("paintCode", &Identity::paintCode));
    friend bool operator==(const Identity&, const Identity&) = default;
};

struct FindingVersion
{
    FindingData data;
    bool stands = true; ///< false: corrected to "is not there"
    PersonId by;
    Moment at;
    QString reason;   ///< of the correction
    PhotoId evidence; ///< of the correction
    friend bool operator==(const FindingVersion&, const FindingVersion&) = default;
};

struct Finding
{
    FindingId id;
    std::vector<FindingVersion> versions; ///< first as recorded, last as it stands
    std::optional<OperationId> during;    ///< found while doing this
    bool undecided = false;               ///< no rule of the catalogue answers it
    bool disclosed = false; ///< a rule or the appraiser leaves it as it is; printed for the buyer
    bool slip = false;      ///< taken back at once: it was never meant
    QString rule;           ///< id of the rule that decided; empty when none did
    QString why;            ///< its words
    /// Came over from a second entry of the car: who found it there or corrected it, who joined
    /// them.
    std::set<PersonId> carriedBy;

    /// Everybody whose word it is, also the words that were corrected since.
    [[nodiscard]] std::set<PersonId> recorders() const;
    [[nodiscard]] const FindingData& data() const { return versions.back().data; }
    [[nodiscard]] bool stands() const { return versions.back().stands; }
    friend bool operator==(const Finding&, const Finding&) = default;
};

enum class OperationState {
    Waiting,
    InHand,
    Paused,
    AwaitingCheck,
    Closed,
    LeftAsIs,
    Blocked,
    Withdrawn,
};
template <>
struct Names<OperationState>
{
    static constexpr std::array table{
        std::pair{OperationState::Waiting, "waiting"},
        std::pair{OperationState::InHand, "in-hand"},
        std::pair{OperationState::Paused, "paused"},
        std::pair{OperationState::AwaitingCheck, "awaiting-check"},
        std::pair{OperationState::Closed, "closed"},
        std::pair{OperationState::LeftAsIs, "left-as-is"},
        std::pair{OperationState::Blocked, "blocked"},
        std::pair{OperationState::Withdrawn, "withdrawn"},
    };
};

/// Why an operation exists.
enum class Origin { Baseline, Finding, Trigger, Reading, Fact, ByHand };
template <>
struct Names<Origin>
{
    static constexpr std::array table{
        std::pair{Origin::Baseline, "baseline"}, std::pair{Origin::Finding, "finding"},
        std::pair{Origin::Trigger, "trigger"},   std::pair{Origin::Reading, "reading"},
        std::pair{Origin::Fact, "fact"},         std::pair{Origin::ByHand, "by-hand"},
    };
};

enum class StopKind { Paused, HandedOver, Finished, ShiftEnd, Blocked };
template <>
struct Names<StopKind>
{
    static constexpr std::array table{
        std::pair{StopKind::Paused, "paused"},     std::pair{StopKind::HandedOver, "handed-over"},
        std::pair{StopKind::Finished, "finished"}, std::pair{StopKind::ShiftEnd, "shift-end"},
        std::pair{StopKind::Blocked, "blocked"},
    };
};

/// One stretch of work of one person, by the timer; a correction is kept beside it.
struct Segment
{
    SegmentId id;
    PersonId person;
    Moment start;
    Moment end; ///< null while it runs
    StopKind stop = StopKind::Paused;
    bool clockSetBack =
        false; ///< the clock was behind the ledger when it was written, or went back
    std::optional<qint64> ranMs; ///< where the clock was set meanwhile: how long it really ran
    std::optional<int> correctedMinutes;
    QString correctionReason;
    PersonId correctedBy;

    [[nodiscard]] bool running() const { return end.isNull(); }
    [[nodiscard]] int measuredMinutes() const
    {
        return running() ? 0 : minutesOfSpan(ranMs.value_or(end.ms - start.ms));
    }
    [[nodiscard]] int minutes() const { return correctedMinutes.value_or(measuredMinutes()); }
    /// The same while it still runs: so far.
    [[nodiscard]] int minutesUntil(Moment now) const
    {
        return running() ? minutesBetween(start, now) : minutes();
    }
    friend bool operator==(const Segment&, const Segment&) = default;
};

enum class ReadingOutcome { Recorded, Inside, Outside };
template <>
struct Names<ReadingOutcome>
{
    static constexpr std::array table{std::pair{ReadingOutcome::Recorded, "recorded"},
                                      std::pair{ReadingOutcome::Inside, "inside"},
                                      std::pair{ReadingOutcome::Outside, "outside"}};
};

struct ReadingValue
{
    std::optional<int> number; ///< counts of 10^-decimals of the spec's unit
    QString text;              ///< choice id or words

    static constexpr auto fields =
        fieldList(field("number", &ReadingValue::number), field("text", &ReadingValue::text));
    friend bool operator==(const ReadingValue&, const ReadingValue&) = default;
};

struct Reading
{
    ReadingId id;
    QString key;
    PlaceId place; ///< empty when the reading is the operation's own
    ReadingValue value;
    ReadingOutcome outcome = ReadingOutcome::Recorded;
    std::vector<Limit> limits; ///< as they were when it was taken
    PersonId by;
    Moment at;
    bool superseded = false; ///< measured or corrected again later; stays on record
    QString correction;      ///< reason, when this one corrects an earlier one
    ToolUsed tool = {};      ///< as it was then
    /// After it somebody began on its work again, or an outside firm gave it back.
    bool workedSince = false;
    friend bool operator==(const Reading&, const Reading&) = default;
};

/// A figure or limit of this car, entered with its source before work.
struct Figure
{
    QString key;
    PlaceId place;
    int value = 0;
    QString source;
    PersonId by;
    Moment at;
    QString correction = {}; ///< reason, when this one corrects an earlier one
    friend bool operator==(const Figure&, const Figure&) = default;
};

enum class SignatureMeaning { DidTheWork, CheckedTheWork, Countersigned, ReceivedFromOutside };
template <>
struct Names<SignatureMeaning>
{
    static constexpr std::array table{
        std::pair{SignatureMeaning::DidTheWork, "did-the-work"},
        std::pair{SignatureMeaning::CheckedTheWork, "checked-the-work"},
        std::pair{SignatureMeaning::Countersigned, "countersigned"},
        std::pair{SignatureMeaning::ReceivedFromOutside, "received-from-outside"},
    };
};

struct Signature
{
    PersonId by;
    Moment at;
    SignatureMeaning meaning = SignatureMeaning::DidTheWork;
    int minutes = 0; ///< all minutes of all people on the operation at that time
    QString note;
    bool voided = false; ///< the operation was reopened afterwards
    friend bool operator==(const Signature&, const Signature&) = default;
};

struct AttachedPhoto
{
    PhotoId photo;
    PhotoMoment moment = PhotoMoment::During;
    PlaceId place;
    OperationId operation; ///< null when it belongs to a finding or to the car
    FindingId finding;     ///< null when it belongs to an operation or to the car
    PersonId by;
    Moment at;
    friend bool operator==(const AttachedPhoto&, const AttachedPhoto&) = default;
};

/// What became of a photo that the car's entries name.
struct PhotoFate
{
    Moment named;   ///< by the last entry that rests on it
    Moment removed; ///< under the house's retention; null while it is kept
    int years = 0;  ///< for which it was kept, by the rule of that day

    [[nodiscard]] bool isRemoved() const { return !removed.isNull(); }
    friend bool operator==(const PhotoFate&, const PhotoFate&) = default;
};

struct PartOnOrder
{
    QString part;
    QString supplier;
    QDate due;

    static constexpr auto fields =
        fieldList(field("part", &PartOnOrder::part), field("supplier", &PartOnOrder::supplier),
                  field("due", &PartOnOrder::due));
    friend bool operator==(const PartOnOrder&, const PartOnOrder&) = default;
};

struct OutsideWork
{
    QString firm;
    QDate dueBack;
    int keys = 0;     ///< keys given along
    QString document; ///< order or delivery note
    bool received = false;
    QString receivedDocument;
    std::optional<int> keysBack = {}; ///< counted when it came back; older entries say nothing

    /// Of those given along, as far as they were counted.
    [[nodiscard]] int keysMissing() const { return keysBack ? keys - *keysBack : 0; }

    static constexpr auto fields =
        fieldList(field("firm", &OutsideWork::firm), field("dueBack", &OutsideWork::dueBack),
                  field("keys", &OutsideWork::keys), field("document", &OutsideWork::document));
    friend bool operator==(const OutsideWork&, const OutsideWork&) = default;
};

struct Operation
{
    Operation(); // these six are compiled once: copies cost every unit that makes one a second
    Operation(const Operation& other);
    Operation(Operation&& other) noexcept;
    Operation& operator=(const Operation& other);
    Operation& operator=(Operation&& other) noexcept;
    ~Operation();

    OperationId id;
    Shared<OperationSpec> spec;
    PlaceId place; ///< "car" when it is the whole car's
    Origin origin = Origin::Baseline;
    QString reason;                      ///< of one opened by hand
    std::vector<FindingId> findings;     ///< that it answers
    std::vector<OperationId> restsOn;    ///< whose closing opened it
    std::vector<ReadingId> fromReadings; ///< whose being outside opened it
    QString catalogueHash;
    OperationState state = OperationState::Waiting;
    PersonId assigned;  ///< handed to or planned for; null: anybody with the skill
    BayId plannedBay;   ///< the manager wants it done there; null: wherever it can be done
    Moment plannedFrom; ///< the manager wants it begun no sooner; null: as soon as it can be
    std::set<PersonId> cautionsReadBy;
    std::vector<Segment> segments;
    std::vector<Reading> readings;
    std::vector<Figure> figures;
    std::vector<Signature> signatures;
    std::optional<PartOnOrder> part;
    std::optional<OutsideWork> outside;
    QString leftWords;   ///< for the buyer
    QString sentBackWhy; ///< a check failed: what is to be put right
    QString withdrawnWhy;
    Moment openedAt;
    Moment closedAt;
    Moment reopenedAt; ///< evidence of the work before it counts no longer
    Moment waitUntil;  ///< cure or drying ends
    int timesReopened = 0;
    bool wasIsolated = false;     ///< high voltage was isolated for it since it was last opened
    bool cameFromOutside = false; ///< an outside firm had it before it was opened again
    bool partWasOutside = false;  ///< and only a part of the car was there

    [[nodiscard]] bool isOpen() const;
    [[nodiscard]] bool wasStarted() const
    {
        return !segments.empty() || outside.has_value() || cameFromOutside;
    }
    [[nodiscard]] bool isAway() const { return outside && !outside->received; } ///< at a firm
    /// Begun by one of ours, or only a part went to the firm: the car itself stood here apart.
    [[nodiscard]] bool wasBegunHere() const;
    /// Somebody's signature stands: what still awaits a check awaits the second one.
    [[nodiscard]] bool isSigned() const;
    /// Whoever did it signed: somebody else, with the right to check, signs next.
    [[nodiscard]] bool awaitsSecond() const;
    /// Back from an outside firm: one of ours with the skill looks at it and signs next.
    [[nodiscard]] bool awaitsReceipt() const;
    /// Somebody has done something about it since it was last opened.
    [[nodiscard]] bool isBegun() const;
    [[nodiscard]] bool isRunning() const;
    /// Of the part or the outside work that it waits for; nothing when it waits for neither.
    [[nodiscard]] std::optional<QDate> due() const;
    [[nodiscard]] int minutes() const; ///< all people's, corrected ones as corrected
    /// Who worked on it, measured at it or signed the work: no countersigner, no mere corrector.
    [[nodiscard]] std::set<PersonId> doers() const;
    /// The reading that counts for a key and place: the last that is not superseded.
    [[nodiscard]] const Reading* reading(const QString& key, const PlaceId& place) const;
    [[nodiscard]] const Figure* figure(const QString& key, const PlaceId& place) const;
    /// Who took a reading, and who corrected what it was before; not who measured before that.
    [[nodiscard]] std::set<PersonId> recorders(ReadingId reading) const;
    /// Work on it begins, or was done outside: what was read so far is from before it.
    void workedOn();
    friend bool operator==(const Operation&, const Operation&) = default;
};

/// What the promised day of a car counts for when not every promise can be kept.
enum class PromiseImportance { CanWait, Usual, MustBeKept };
template <>
struct Names<PromiseImportance>
{
    static constexpr std::array table{std::pair{PromiseImportance::CanWait, "can-wait"},
                                      std::pair{PromiseImportance::Usual, "usual"},
                                      std::pair{PromiseImportance::MustBeKept, "must-be-kept"}};
};

enum class LeavingHow { Trade, Scrap, BackToOwner, EnteredTwice };
template <>
struct Names<LeavingHow>
{
    static constexpr std::array table{std::pair{LeavingHow::Trade, "trade"},
                                      std::pair{LeavingHow::Scrap, "scrap"},
                                      std::pair{LeavingHow::BackToOwner, "back-to-owner"},
                                      std::pair{LeavingHow::EnteredTwice, "entered-twice"}};
};

struct Isolation
{
    OperationId operation;
    PersonId by;
    Moment at;
    QString lockKeptAt; ///< where lock and key are
    friend bool operator==(const Isolation&, const Isolation&) = default;
};

struct ReleaseSigned
{
    PersonId by;
    Moment at;
    qint64 seq = 0;
    friend bool operator==(const ReleaseSigned&, const ReleaseSigned&) = default;
};

struct PlaceSeen
{
    PersonId by;
    Moment at;
    bool sound = false;  ///< said to be in good order; false: a finding stands or stood on it
    bool byWork = false; ///< nobody said so: work that looks at it was signed
    friend bool operator==(const PlaceSeen&, const PlaceSeen&) = default;
};

/// By whom and when something of the car was measured last.
struct Measured
{
    PersonId by;
    Moment at;
    friend bool operator==(const Measured&, const Measured&) = default;
};

struct TyreMeasured
{
    Measured tread;
    Measured marking;
    Moment fitted; ///< what is older was of another tyre
    friend bool operator==(const TyreMeasured&, const TyreMeasured&) = default;
};

struct CarState
{
    CarState(); // these six are compiled once: copies cost every unit that makes one a second
    CarState(const CarState& other);
    CarState(CarState&& other) noexcept;
    CarState& operator=(const CarState& other);
    CarState& operator=(CarState&& other) noexcept;
    ~CarState();

    CarId id;
    qint64 seq = 0; ///< of the last event; 0: the car is not here yet
    Moment lastAt;
    Identity identity;
    CarFacts facts;
    QDate promised;
    PromiseImportance importance = PromiseImportance::Usual; ///< of that promise
    Moment arrivedAt;
    std::vector<SafetyPlace> safetyPlaces; ///< of this car, as the catalogue had them on arrival
    bool appraised = false;
    FactsBy factsBy;                 ///< who recorded the facts as they stand
    QMap<PlaceId, PlaceSeen> seen;   ///< copies of a car share it: it is long, and seldom changes
    std::map<PlaceId, Tread> treads; ///< as last measured
    std::map<PlaceId, TyreMarking> tyres; ///< as last read
    PaintDepths paint;                    ///< as last measured
    std::map<PlaceId, TyreMeasured> tyresMeasured;
    std::map<PlaceId, Measured> paintMeasured;
    std::vector<OdometerReading> odometer; ///< by time; facts hold what it showed on arrival
    std::map<FindingId, Finding> findings;
    std::map<OperationId, Operation> operations;
    std::vector<AttachedPhoto> photos;
    std::vector<AttachedPhoto> proofs;       ///< that corrections were shown by
    std::map<PhotoId, PhotoFate> photoFates; ///< of every photo, also of proofs
    std::vector<SpokenReview> spoken; ///< walk-rounds that were read, in the order of reading
    BayId bay;                        ///< null when it stands in no bay
    QString parking;                  ///< words, when it stands in no bay
    std::optional<Isolation> isolation;
    std::optional<ReleaseSigned> released;
    QString heldAgainWhy; ///< set when something after the release holds it
    std::optional<LeavingHow> left;
    QString leftWhy;
    Moment leftAt;
    CarId sameAs; ///< linked: entered twice
    int nextFinding = 1;
    int nextOperation = 1;
    int nextSegment = 1;
    int nextReading = 1;

    [[nodiscard]] bool exists() const { return seq > 0; }
    [[nodiscard]] const Operation* operation(OperationId id) const;
    [[nodiscard]] const Finding* finding(FindingId id) const;
    [[nodiscard]] const PhotoFate* removedPhoto(const PhotoId& photo) const; ///< null while kept
    [[nodiscard]] const SpokenReview* review(const TranscriptId& transcript) const;
    /// Null when there is no such draft.
    [[nodiscard]] const SpokenDraft* draft(const DraftRef& ref) const;
    [[nodiscard]] int openDrafts() const; ///< that nobody has decided about
    /// Something besides a slip says what a place is like: a tread, a finding, work that is done.
    [[nodiscard]] bool isKnownOtherwise(const PlaceId& place) const;
    [[nodiscard]] bool hasFinding(const PlaceId& place) const;
    /// Whether one like it stands.
    [[nodiscard]] bool hasFinding(const PlaceId& place, Condition condition) const;
    /// In the order in which they were opened.
    [[nodiscard]] std::vector<const Operation*> openOperations() const;
    /// The newest that is known; empty when nobody has read it.
    [[nodiscard]] std::optional<OdometerReading> lastOdometer() const;
    /// In which it counts: as it was read, unless that was corrected among the facts since.
    [[nodiscard]] DistanceUnit unitOf(const std::optional<OdometerReading>& read) const;
    [[nodiscard]] const Segment* runningSegment(PersonId person, OperationId* operation) const;
    friend bool operator==(const CarState&, const CarState&) = default;
};

} // namespace ramplight
