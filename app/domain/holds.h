// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

#include <QString>

#include <optional>
#include <vector>

// What a car's state means: what holds its release, what must not be done with it, what it is
// called on the wall. Pure functions of the state.
namespace ramplight {

enum class CarStatus { Arriving, InPrep, Held, ReadyForRelease, Released, Withdrawn };
template <>
struct Names<CarStatus>
{
    static constexpr std::array table{std::pair{CarStatus::Arriving, "arriving"},
                                      std::pair{CarStatus::InPrep, "in-prep"},
                                      std::pair{CarStatus::Held, "held"},
                                      std::pair{CarStatus::ReadyForRelease, "ready-for-release"},
                                      std::pair{CarStatus::Released, "released"},
                                      std::pair{CarStatus::Withdrawn, "withdrawn"}};
};

enum class HoldKind {
    NotAppraised,       ///< the appraisal is not finished
    SafetyOperation,    ///< an open safety operation
    SafetyPlaceNotSeen, ///< a safety place that nobody looked at
    UndecidedFinding,   ///< a finding at a safety place that no rule answers
    OpenOperation,      ///< other open work: to be done, or left and disclosed
    Isolated,           ///< high voltage is isolated
    Curing,             ///< a waiting time is not over
    TooOld,             ///< what was done counts for some days only, and they are over
    SpokenNotReviewed,  ///< findings of a spoken walk-round that nobody has decided about
};
template <>
struct Names<HoldKind>
{
    static constexpr std::array table{
        std::pair{HoldKind::NotAppraised, "not-appraised"},
        std::pair{HoldKind::SafetyOperation, "safety-operation"},
        std::pair{HoldKind::SafetyPlaceNotSeen, "safety-place-not-seen"},
        std::pair{HoldKind::UndecidedFinding, "undecided-finding"},
        std::pair{HoldKind::OpenOperation, "open-operation"},
        std::pair{HoldKind::Isolated, "isolated"},
        std::pair{HoldKind::Curing, "curing"},
        std::pair{HoldKind::TooOld, "too-old"},
        std::pair{HoldKind::SpokenNotReviewed, "spoken-not-reviewed"}};
};

/// One thing that stands between the car and its sale.
struct Hold
{
    HoldKind kind = HoldKind::OpenOperation;
    bool safety = false;
    OperationId operation; ///< the way to it; null when there is none yet
    PlaceId place;
    FindingId finding;
    QString words;      ///< a sentence for a person
    QString opens = {}; ///< the kind of work that would answer it, where none is open; may be empty

    friend bool operator==(const Hold&, const Hold&) = default;
};

/// Complete, safety first, in the order in which the operations were opened.
[[nodiscard]] std::vector<Hold> holds(const CarState& car, const HouseRules& rules, Moment now);
/// The same without their sentences, for who counts them.
[[nodiscard]] std::vector<Hold> holdsWithoutWords(const CarState& car, const HouseRules& rules,
                                                  Moment now);
[[nodiscard]] CarStatus statusOf(const CarState& car, const HouseRules& rules, Moment now);
/// The same where the holds are known.
[[nodiscard]] CarStatus statusOf(const CarState& car, const std::vector<Hold>& held);
/// The last day on which everything that counts for some days only still counts; invalid when
/// nothing of the kind was done.
[[nodiscard]] QDate freshUntil(const CarState& car, const HouseRules& rules);
/// Closed work that counts for some days only, and by now no longer.
[[nodiscard]] std::vector<OperationId> tooOld(const CarState& car, const HouseRules& rules,
                                              Moment now);
/// Safety places of this car that nobody looked at and no closed inspection cleared.
[[nodiscard]] std::vector<SafetyPlace> notLookedAt(const CarState& car);

/// Whether a finding is this person's own, of an appraisal that still goes on, with no work on it
/// begun: then it can be taken back or said better like a slip of the tongue, by nobody else.
[[nodiscard]] bool isOwnSlip(const CarState& car, const Finding& finding, PersonId person);
/// An operation is only there for findings of that kind: who takes them back takes it back.
[[nodiscard]] bool isOfOwnSlips(const CarState& car, const Operation& operation, PersonId person);

/// Why something may not be done with the car, and because of which operation.
struct RestraintReason
{
    Restraint what = Restraint::Move;
    OperationId operation;
    QString words;
    Moment until = {}; ///< the end of a waiting time; null: until work ends it

    friend bool operator==(const RestraintReason&, const RestraintReason&) = default;
};
[[nodiscard]] std::vector<RestraintReason> restraints(const CarState& car, Moment now);
/// It was begun and keeps the car as it stands: something is apart until it is put together and
/// signed, whatever becomes of what it was opened for.
[[nodiscard]] bool keepsCarApart(const Operation& operation);

/// Both can be in hand on one car at a time.
[[nodiscard]] bool mayRunBeside(const OperationSpec& one, const OperationSpec& other);

/// The open operations that have to close before this one may start, in the order in which they
/// were opened.
[[nodiscard]] std::vector<OperationId> comesFirst(const CarState& car, const Operation& operation);

/// What still has to close or stop before this operation may start (order, restraints, what is in
/// hand beside it); empty: it can.
[[nodiscard]] QString whyNotYet(const CarState& car, const Operation& operation,
                                const HouseRules& rules, Moment now);

/// Whether there is anything of the kind.
[[nodiscard]] bool isNotYet(const CarState& car, const Operation& operation,
                            const HouseRules& rules, Moment now);

/// The photos that show an operation at a moment of it, since it was opened last ("before": ever),
/// in the order in which they came. Each counts once, for the moment that was said first: no
/// picture shows the work undone and done.
[[nodiscard]] std::vector<const AttachedPhoto*>
evidencePhotos(const Operation& operation, const CarState& car, PhotoMoment moment);

/// What sign-off still misses: readings, photos; each in words. Empty: it can be signed.
[[nodiscard]] QStringList missingEvidence(const Operation& operation, const CarState& car,
                                          const HouseRules& rules);

} // namespace ramplight
