// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/country.h"
#include "domain/findingdata.h"
#include "domain/moment.h"
#include "domain/odometer.h"

#include <array>
#include <utility>

// A walk-round that somebody spoke, as the reader understood it: drafts, until a person decides
// about each. They stand in the car's ledger as they were read, so that a review goes on after a
// power cut, at another kiosk and under a newer reader. The words themselves are kept beside the
// photos, by content.
namespace ramplight {

/// Lower-case hex SHA-256 of the transcript file.
using TranscriptId = Key<struct TranscriptTag>;

/// What became of a draft.
enum class DraftEnd { Open, Kept, Changed, Dropped };
template <>
struct Names<DraftEnd>
{
    static constexpr std::array table{
        std::pair{DraftEnd::Open, "open"}, std::pair{DraftEnd::Kept, "kept"},
        std::pair{DraftEnd::Changed, "changed"}, std::pair{DraftEnd::Dropped, "dropped"}};
};

/// A finding as it was understood.
struct SpokenDraft
{
    FindingData data; ///< with its quote and moment
    int percent = 0;  ///< of a hundred drafts with this figure, so many are right
    int first = 0;    ///< where the quote stands: bytes of the transcript's words
    int last = 0;     ///< behind its end

    static constexpr auto fields =
        fieldList(field("data", &SpokenDraft::data), field("percent", &SpokenDraft::percent),
                  field("first", &SpokenDraft::first), field("last", &SpokenDraft::last));
    friend bool operator==(const SpokenDraft&, const SpokenDraft&) = default;
};

/// A tyre's depth as it was said, once or from one figure to another.
struct SpokenDepth
{
    PlaceId tyre;
    int lowTenthsMm = 0;
    int highTenthsMm = 0;
    QString quote;
    std::optional<int> atSeconds;

    static constexpr auto fields = fieldList(
        field("tyre", &SpokenDepth::tyre), field("lowTenthsMm", &SpokenDepth::lowTenthsMm),
        field("highTenthsMm", &SpokenDepth::highTenthsMm), field("quote", &SpokenDepth::quote),
        field("atSeconds", &SpokenDepth::atSeconds));
    friend bool operator==(const SpokenDepth&, const SpokenDepth&) = default;
};

/// What was said of the vehicle.
struct SaidOfCar
{
    std::optional<int> odometer;
    DistanceUnit odometerUnit = DistanceUnit::Miles;
    std::optional<int> keys;
    std::optional<int> testCertificateMonths;

    static constexpr auto fields =
        fieldList(field("odometer", &SaidOfCar::odometer),
                  field("odometerUnit", &SaidOfCar::odometerUnit), field("keys", &SaidOfCar::keys),
                  field("testCertificateMonths", &SaidOfCar::testCertificateMonths));
    friend bool operator==(const SaidOfCar&, const SaidOfCar&) = default;
};

struct SpokenRound
{
    TranscriptId transcript;
    QString name;     ///< of the file, for people
    QString language; ///< of the lexicon: "en"
    TrafficSide traffic = TrafficSide::Left;
    std::vector<SpokenDraft> drafts; ///< in the order in which they were said
    std::vector<SpokenDepth> depths;
    std::vector<PlaceId> sound;
    std::vector<PlaceId> notMentioned; ///< of the places that a full walk-round names
    SaidOfCar facts;

    static constexpr auto fields = fieldList(
        field("transcript", &SpokenRound::transcript), field("name", &SpokenRound::name),
        field("language", &SpokenRound::language), field("traffic", &SpokenRound::traffic),
        field("drafts", &SpokenRound::drafts), field("depths", &SpokenRound::depths),
        field("sound", &SpokenRound::sound), field("notMentioned", &SpokenRound::notMentioned),
        field("facts", &SpokenRound::facts));
    friend bool operator==(const SpokenRound&, const SpokenRound&) = default;
};

/// One draft of a car.
struct DraftRef
{
    TranscriptId transcript;
    int draft = 0; ///< counted from 0

    [[nodiscard]] bool isNull() const { return transcript.isEmpty(); }
    static constexpr auto fields =
        fieldList(field("transcript", &DraftRef::transcript), field("draft", &DraftRef::draft));
    friend bool operator==(const DraftRef&, const DraftRef&) = default;
};

struct DraftDecision
{
    DraftEnd end = DraftEnd::Open;
    FindingId finding; ///< what it was recorded as
    friend bool operator==(const DraftDecision&, const DraftDecision&) = default;
};

/// A round, and what people have decided about its drafts so far.
struct SpokenReview
{
    SpokenRound round;
    PersonId by; ///< had it read
    Moment at;
    std::vector<DraftDecision> decisions; ///< one for each draft

    [[nodiscard]] int open() const;
    friend bool operator==(const SpokenReview&, const SpokenReview&) = default;
};

/// What a draft was recorded as was taken back: somebody has to decide about it once more.
inline void reopenDraftOf(FindingId finding, std::vector<SpokenReview>& reviews)
{
    for (SpokenReview& review : reviews)
        for (DraftDecision& decision : review.decisions)
            if (decision.finding == finding)
                decision = {};
}

} // namespace ramplight
