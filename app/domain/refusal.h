// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/names.h"

#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <vector>

// Why a command was not carried out. The id is stable (tests, logs, support); the words are for the
// person at the wall and say what is missing.
namespace ramplight {

enum class RefusalId {
    NotAllowed,           ///< the person lacks the right
    WrongSkill,           ///< the person lacks the operation's skill
    PersonUnknown,        ///< not a person of this site, or no longer active
    SiteNotSetUp,         ///< there is no workshop yet
    AlreadySetUp,         ///< there is one already
    LastManager,          ///< nobody could manage afterwards
    NameMissing,          ///< a name or number was left empty
    NameTaken,            ///< somebody else of the site is or was called that
    BayUnknown,           ///< no such bay, or it is closed
    BayTaken,             ///< another car stands in it
    BayNumberTaken,       ///< two bays cannot have one number
    PersonIsWorking,      ///< cannot be deactivated while a timer runs
    RuleOutOfRange,       ///< a house rule has an impossible value
    CarExists,            ///< it was brought in already
    CarMissing,           ///< no such car
    StockNumberTaken,     ///< another car carries that stock number
    VinMalformed,         ///< not a VIN by ISO 3779
    FieldMissing,         ///< something that the form needs is empty
    ValueOutOfRange,      ///< a number that cannot be
    PlaceUnknown,         ///< not a place of the vocabulary
    ReasonMissing,        ///< a correction, reopening or leaving needs its reason
    EvidenceMissing,      ///< a correction needs a fresh photo
    SecondPersonNeeded,   ///< it must be somebody else than who recorded or did it
    AlreadyAppraised,     ///< the appraisal is finished
    FindingUnknown,       ///< no such finding
    OperationUnknown,     ///< no such operation on this car
    KindUnknown,          ///< not an operation of the catalogue
    OperationNotOpen,     ///< closed, left or withdrawn
    OperationNotClosed,   ///< only a closed one can be reopened
    OperationRunning,     ///< somebody works on it now
    AlreadyRunning,       ///< the person is already on it
    PersonBusy,           ///< the person's timer runs on other work
    NotRunning,           ///< nothing to pause
    NotStarted,           ///< signed without anybody having worked on it
    CautionsUnread,       ///< read them first
    NotYet,               ///< something must be finished before it
    DoNotMove,            ///< the car must not be moved
    DoNotDrive,           ///< the car must not be driven
    DoNotPower,           ///< the car must not be powered
    Blocked,              ///< it waits for a part or is away
    NotBlocked,           ///< nothing to unblock
    NotOut,               ///< it is not with an outside firm
    CheckStaysInHouse,    ///< no firm's word is a second pair of eyes in this house
    ReadingUnknown,       ///< the operation asks for no such reading
    ReadingMalformed,     ///< not a value that this reading can have
    LimitMissing,         ///< this car's limit or figure is not entered
    FigureBySigner,       ///< who entered the figure cannot sign against it
    FigureDiffers,        ///< the value is not this car's figure
    FigureInUse,          ///< read against or corrected already: it is corrected
    EvidenceOpen,         ///< readings or photos are missing
    ReadingOutside,       ///< a reading is outside its limit and was not measured again
    AnswerForbidsClosing, ///< with this answer it cannot close
    CheckByDoer,          ///< the checker did some of the work that is checked
    NothingToCountersign, ///< it is not awaiting a countersignature
    NotACheck,            ///< only a check or countersignature can be failed
    SafetyCannotBeLeft,   ///< there is no override
    NotWithdrawable,      ///< only what was opened by hand and is no safety item
    Isolated,             ///< high voltage is isolated already
    NotIsolated,          ///< nothing to lift
    IsolatedBySomebody,   ///< only who set it, or the qualified procedure
    NoIsolationHere,      ///< this operation does not isolate
    CarHeld,              ///< release: the list of holds follows
    PinNotFresh,          ///< the PIN must be entered again for this
    ReleaserAlone,        ///< the only name under the safety work
    AlreadyReleased,      ///< it is released
    CarGone,              ///< it left sale preparation
    NotGone,              ///< it did not leave
    SameCar,              ///< a car is not its own duplicate
    SecondEntryOpen,      ///< work of the entry that ends would be asked for nowhere
    MinutesOverlap,       ///< the minutes would overlap other work of that person
    PhotoUnknown,         ///< no photo named
    SpecialityMissing,    ///< the person lacks the speciality within the skill
    QualificationMissing, ///< the person never held the qualification
    QualificationOver,    ///< the person's qualification is over
    ToolUnknown,          ///< no such tool here, or not of the kind that the reading wants
    ToolNumberTaken,      ///< two tools cannot have one number
    ToolNeeded,           ///< the reading names the tool that it was taken with
    ToolOverdue,          ///< the tool must be calibrated first
    NeverLeftHere,        ///< the house leaves no work of this skill, or this work never
    CatalogueFaulty,      ///< a catalogue file with faults; the list follows
    OdometerLower,        ///< it shows less than before, and nobody said why
    PaintAlike,           ///< the paint of that panel does not stand out
    NotTogether,          ///< these cannot be signed off in one step
    OneOfTogether,        ///< of several that were to be signed in one step, one could not be
    TyreMarkMalformed,    ///< a date code, size, load index or speed symbol that cannot be
    WrongPlace,           ///< the operation is for other kinds of places
    BayUnfit,             ///< the operation is not done in bays of that kind
    DraftUnknown,         ///< no such draft of a spoken walk-round
    DraftDecidedAlready,  ///< somebody has kept, changed or dropped it
    PhotosKept,           ///< the house's retention is not over, or it has none
    ReadingStands,        ///< taken already: measured again after the work, or corrected
    EvidenceNotFresh,     ///< the photo of a correction was on the car before
    WordsTooLong,         ///< more words for the buyer than the page has room for
};
/// Every id with its stable text, e.g. "safety-cannot-be-left".
[[nodiscard]] QString idText(RefusalId id);
[[nodiscard]] const std::vector<RefusalId>& allRefusals();

struct Refusal
{
    RefusalId id = RefusalId::NotAllowed;
    QStringList details; ///< words that fill the sentence, or the list of holds

    friend bool operator==(const Refusal&, const Refusal&) = default;
};

/// A sentence or two for a technician: what is missing and what to do.
[[nodiscard]] QString words(const Refusal& refusal);

[[nodiscard]] inline tl::unexpected<Refusal> refuse(RefusalId id, QStringList details = {})
{
    return tl::unexpected(Refusal{id, std::move(details)});
}

} // namespace ramplight
