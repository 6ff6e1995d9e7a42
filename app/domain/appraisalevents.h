// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/carriedover.h"

// Events of a car until its appraisal is done, and of what was corrected later: arrival, facts,
// findings, words that were read. How events are made and changed: carevents.h.
namespace ramplight {

struct CarArrived
{
    static constexpr const char* type = "car-arrived";
    Identity identity;
    CarFacts facts;
    QDate promised;
    std::vector<SafetyPlace> safetyPlaces;
    QString parking;
    static constexpr auto fields = fieldList(
        field("identity", &CarArrived::identity), field("facts", &CarArrived::facts),
        field("promised", &CarArrived::promised), field("safetyPlaces", &CarArrived::safetyPlaces),
        field("parking", &CarArrived::parking));
    friend bool operator==(const CarArrived&, const CarArrived&) = default;
};

struct IdentityCorrected
{
    static constexpr const char* type = "identity-corrected";
    Identity identity;
    QString reason;
    static constexpr auto fields = fieldList(field("identity", &IdentityCorrected::identity),
                                             field("reason", &IdentityCorrected::reason));
    friend bool operator==(const IdentityCorrected&, const IdentityCorrected&) = default;
};

struct FactsCorrected
{
    static constexpr const char* type = "facts-corrected";
    CarFacts facts;
    std::vector<SafetyPlace> safetyPlaces;
    QString reason;
    PhotoId evidence;
    CarId carriedFrom = {};            ///< the second entry of the car, which alone had said it
    std::vector<PersonId> saidBy = {}; ///< carried over: whose words it is there
    static constexpr auto fields = fieldList(field("facts", &FactsCorrected::facts),
                                             field("safetyPlaces", &FactsCorrected::safetyPlaces),
                                             field("reason", &FactsCorrected::reason),
                                             field("evidence", &FactsCorrected::evidence),
                                             field("carriedFrom", &FactsCorrected::carriedFrom),
                                             field("saidBy", &FactsCorrected::saidBy));
    friend bool operator==(const FactsCorrected&, const FactsCorrected&) = default;
};

struct PromiseChanged
{
    static constexpr const char* type = "promise-changed";
    QDate promised;
    QString reason;
    std::optional<PromiseImportance> importance; ///< nothing: as it was
    static constexpr auto fields = fieldList(field("promised", &PromiseChanged::promised),
                                             field("reason", &PromiseChanged::reason),
                                             field("importance", &PromiseChanged::importance));
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
    QString why; ///< the rule's words
    // Where it is carried over, or out of an appraisal file of somebody else than who took it in:
    std::vector<PersonId> foundBy =
        {}; ///< found it there, then corrected it; the last one's word it is
    Moment foundAt = {};
    static constexpr auto fields = fieldList(
        field("finding", &FindingRecorded::finding), field("data", &FindingRecorded::data),
        field("during", &FindingRecorded::during), field("rule", &FindingRecorded::rule),
        field("undecided", &FindingRecorded::undecided),
        field("disclosed", &FindingRecorded::disclosed),
        field("carriedFrom", &FindingRecorded::carriedFrom), field("why", &FindingRecorded::why),
        field("foundBy", &FindingRecorded::foundBy), field("foundAt", &FindingRecorded::foundAt));
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
    bool slip = false; ///< never meant: the place was looked at only if something else says so
    QString rule;
    QString why;
    static constexpr auto fields = fieldList(
        field("finding", &FindingCorrected::finding), field("data", &FindingCorrected::data),
        field("stands", &FindingCorrected::stands), field("reason", &FindingCorrected::reason),
        field("evidence", &FindingCorrected::evidence),
        field("undecided", &FindingCorrected::undecided),
        field("disclosed", &FindingCorrected::disclosed), field("slip", &FindingCorrected::slip),
        field("rule", &FindingCorrected::rule), field("why", &FindingCorrected::why));
    friend bool operator==(const FindingCorrected&, const FindingCorrected&) = default;
};

/// The car's facts were corrected, and the rules say something else now of a finding that stands.
struct FindingAnswered
{
    static constexpr const char* type = "finding-answered";
    FindingId finding;
    QString rule;
    QString why;
    bool undecided = false;
    bool disclosed = false;
    static constexpr auto fields = fieldList(
        field("finding", &FindingAnswered::finding), field("rule", &FindingAnswered::rule),
        field("why", &FindingAnswered::why), field("undecided", &FindingAnswered::undecided),
        field("disclosed", &FindingAnswered::disclosed));
    friend bool operator==(const FindingAnswered&, const FindingAnswered&) = default;
};

struct PlacesFoundSound
{
    static constexpr const char* type = "places-found-sound";
    std::vector<PlaceId> places;
    CarriedOver carried = {};
    static constexpr auto fields = fieldList(field("places", &PlacesFoundSound::places),
                                             field("carried", &PlacesFoundSound::carried));
    friend bool operator==(const PlacesFoundSound&, const PlacesFoundSound&) = default;
};

/// Tread in tenths of a millimetre at three points across a tyre, as the appraiser measured it.
struct TreadRecorded
{
    static constexpr const char* type = "tread-recorded";
    PlaceId place;
    Tread tread;
    static constexpr auto fields =
        fieldList(field("place", &TreadRecorded::place), field("tread", &TreadRecorded::tread));
    friend bool operator==(const TreadRecorded&, const TreadRecorded&) = default;
};

/// What was measured and read off a tyre, whoever did it; what is empty was not.
struct TyreRecorded
{
    static constexpr const char* type = "tyre-recorded";
    PlaceId place;
    std::optional<Tread> tread;
    TyreMarking marking;
    OperationId during;  ///< the readings of this operation say so
    bool fitted = false; ///< it is another tyre than before: what was known of that one is gone
    CarriedOver carried = {};
    /// Fitted: readings of open work that were of the old one and count no longer; older entries
    /// name none.
    std::vector<ReadingId> outdated = {};
    static constexpr auto fields =
        fieldList(field("place", &TyreRecorded::place), field("tread", &TyreRecorded::tread),
                  field("marking", &TyreRecorded::marking), field("during", &TyreRecorded::during),
                  field("fitted", &TyreRecorded::fitted), field("carried", &TyreRecorded::carried),
                  field("outdated", &TyreRecorded::outdated));
    friend bool operator==(const TyreRecorded&, const TyreRecorded&) = default;
};

/// Micrometres at several points of a panel.
struct PaintDepthRecorded
{
    static constexpr const char* type = "paint-depth-recorded";
    PlaceId panel;
    std::vector<int> micrometres;
    CarriedOver carried = {};
    static constexpr auto fields = fieldList(field("panel", &PaintDepthRecorded::panel),
                                             field("micrometres", &PaintDepthRecorded::micrometres),
                                             field("carried", &PaintDepthRecorded::carried));
    friend bool operator==(const PaintDepthRecorded&, const PaintDepthRecorded&) = default;
};

struct OdometerRead
{
    static constexpr const char* type = "odometer-read";
    int value = 0;
    DistanceUnit unit = DistanceUnit::Miles;
    OperationId during;
    QString lowerWhy; ///< it shows less than before, and why
    CarriedOver carried = {};
    Moment readAt = {}; ///< a correction of what was read then; null: it is read now
    static constexpr auto fields = fieldList(
        field("value", &OdometerRead::value), field("unit", &OdometerRead::unit),
        field("during", &OdometerRead::during), field("lowerWhy", &OdometerRead::lowerWhy),
        field("carried", &OdometerRead::carried), field("readAt", &OdometerRead::readAt));
    friend bool operator==(const OdometerRead&, const OdometerRead&) = default;
};

struct AppraisalFinished
{
    static constexpr const char* type = "appraisal-finished";
    std::vector<PlaceId> notLookedAt;
    static constexpr auto fields = fieldList(field("notLookedAt", &AppraisalFinished::notLookedAt));
    friend bool operator==(const AppraisalFinished&, const AppraisalFinished&) = default;
};

/// Somebody had the words of a walk-round read.
struct WalkRoundRead
{
    static constexpr const char* type = "walk-round-read";
    SpokenRound round;
    static constexpr auto fields = fieldList(field("round", &WalkRoundRead::round));
    friend bool operator==(const WalkRoundRead&, const WalkRoundRead&) = default;
};

/// A draft was kept, changed or dropped, or is open again.
struct DraftDecided
{
    static constexpr const char* type = "draft-decided";
    TranscriptId transcript;
    int draft = 0;
    DraftEnd end = DraftEnd::Open;
    FindingId finding; ///< as which it was recorded
    static constexpr auto fields = fieldList(
        field("transcript", &DraftDecided::transcript), field("draft", &DraftDecided::draft),
        field("end", &DraftDecided::end), field("finding", &DraftDecided::finding));
    friend bool operator==(const DraftDecided&, const DraftDecided&) = default;
};

} // namespace ramplight
