// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The ids of refusals; their words are in refusalwords.cpp.
#include "domain/refusal.h"

namespace ramplight {

QString idText(RefusalId id)
{
    switch (id) {
    case RefusalId::NotAllowed:
        return QStringLiteral("not-allowed");
    case RefusalId::WrongSkill:
        return QStringLiteral("wrong-skill");
    case RefusalId::PersonUnknown:
        return QStringLiteral("person-unknown");
    case RefusalId::SiteNotSetUp:
        return QStringLiteral("site-not-set-up");
    case RefusalId::AlreadySetUp:
        return QStringLiteral("already-set-up");
    case RefusalId::LastManager:
        return QStringLiteral("last-manager");
    case RefusalId::NameMissing:
        return QStringLiteral("name-missing");
    case RefusalId::NameTaken:
        return QStringLiteral("name-taken");
    case RefusalId::BayUnknown:
        return QStringLiteral("bay-unknown");
    case RefusalId::BayTaken:
        return QStringLiteral("bay-taken");
    case RefusalId::BayNumberTaken:
        return QStringLiteral("bay-number-taken");
    case RefusalId::PersonIsWorking:
        return QStringLiteral("person-is-working");
    case RefusalId::RuleOutOfRange:
        return QStringLiteral("rule-out-of-range");
    case RefusalId::CarExists:
        return QStringLiteral("car-exists");
    case RefusalId::CarMissing:
        return QStringLiteral("car-missing");
    case RefusalId::StockNumberTaken:
        return QStringLiteral("stock-number-taken");
    case RefusalId::VinMalformed:
        return QStringLiteral("vin-malformed");
    case RefusalId::FieldMissing:
        return QStringLiteral("field-missing");
    case RefusalId::ValueOutOfRange:
        return QStringLiteral("value-out-of-range");
    case RefusalId::PlaceUnknown:
        return QStringLiteral("place-unknown");
    case RefusalId::ReasonMissing:
        return QStringLiteral("reason-missing");
    case RefusalId::EvidenceMissing:
        return QStringLiteral("evidence-missing");
    case RefusalId::SecondPersonNeeded:
        return QStringLiteral("second-person-needed");
    case RefusalId::AlreadyAppraised:
        return QStringLiteral("already-appraised");
    case RefusalId::FindingUnknown:
        return QStringLiteral("finding-unknown");
    case RefusalId::OperationUnknown:
        return QStringLiteral("operation-unknown");
    case RefusalId::KindUnknown:
        return QStringLiteral("kind-unknown");
    case RefusalId::OperationNotOpen:
        return QStringLiteral("operation-not-open");
    case RefusalId::OperationNotClosed:
        return QStringLiteral("operation-not-closed");
    case RefusalId::OperationRunning:
        return QStringLiteral("operation-running");
    case RefusalId::AlreadyRunning:
        return QStringLiteral("already-running");
    case RefusalId::PersonBusy:
        return QStringLiteral("person-busy");
    case RefusalId::NotRunning:
        return QStringLiteral("not-running");
    case RefusalId::NotStarted:
        return QStringLiteral("not-started");
    case RefusalId::CautionsUnread:
        return QStringLiteral("cautions-unread");
    case RefusalId::NotYet:
        return QStringLiteral("not-yet");
    case RefusalId::DoNotMove:
        return QStringLiteral("do-not-move");
    case RefusalId::DoNotDrive:
        return QStringLiteral("do-not-drive");
    case RefusalId::DoNotPower:
        return QStringLiteral("do-not-power");
    case RefusalId::Blocked:
        return QStringLiteral("blocked");
    case RefusalId::NotBlocked:
        return QStringLiteral("not-blocked");
    case RefusalId::NotOut:
        return QStringLiteral("not-out");
    case RefusalId::CheckStaysInHouse:
        return QStringLiteral("check-stays-in-house");
    case RefusalId::ReadingUnknown:
        return QStringLiteral("reading-unknown");
    case RefusalId::ReadingMalformed:
        return QStringLiteral("reading-malformed");
    case RefusalId::LimitMissing:
        return QStringLiteral("limit-missing");
    case RefusalId::FigureBySigner:
        return QStringLiteral("figure-by-signer");
    case RefusalId::FigureDiffers:
        return QStringLiteral("figure-differs");
    case RefusalId::FigureInUse:
        return QStringLiteral("figure-in-use");
    case RefusalId::EvidenceOpen:
        return QStringLiteral("evidence-open");
    case RefusalId::ReadingOutside:
        return QStringLiteral("reading-outside");
    case RefusalId::AnswerForbidsClosing:
        return QStringLiteral("answer-forbids-closing");
    case RefusalId::CheckByDoer:
        return QStringLiteral("check-by-doer");
    case RefusalId::NothingToCountersign:
        return QStringLiteral("nothing-to-countersign");
    case RefusalId::NotACheck:
        return QStringLiteral("not-a-check");
    case RefusalId::SafetyCannotBeLeft:
        return QStringLiteral("safety-cannot-be-left");
    case RefusalId::NotWithdrawable:
        return QStringLiteral("not-withdrawable");
    case RefusalId::Isolated:
        return QStringLiteral("isolated");
    case RefusalId::NotIsolated:
        return QStringLiteral("not-isolated");
    case RefusalId::IsolatedBySomebody:
        return QStringLiteral("isolated-by-somebody");
    case RefusalId::NoIsolationHere:
        return QStringLiteral("no-isolation-here");
    case RefusalId::CarHeld:
        return QStringLiteral("car-held");
    case RefusalId::PinNotFresh:
        return QStringLiteral("pin-not-fresh");
    case RefusalId::ReleaserAlone:
        return QStringLiteral("releaser-alone");
    case RefusalId::AlreadyReleased:
        return QStringLiteral("already-released");
    case RefusalId::CarGone:
        return QStringLiteral("car-gone");
    case RefusalId::NotGone:
        return QStringLiteral("not-gone");
    case RefusalId::SecondEntryOpen:
        return QStringLiteral("second-entry-open");
    case RefusalId::SameCar:
        return QStringLiteral("same-car");
    case RefusalId::MinutesOverlap:
        return QStringLiteral("minutes-overlap");
    case RefusalId::PhotoUnknown:
        return QStringLiteral("photo-unknown");
    case RefusalId::SpecialityMissing:
        return QStringLiteral("speciality-missing");
    case RefusalId::QualificationMissing:
        return QStringLiteral("qualification-missing");
    case RefusalId::QualificationOver:
        return QStringLiteral("qualification-over");
    case RefusalId::ToolUnknown:
        return QStringLiteral("tool-unknown");
    case RefusalId::ToolNumberTaken:
        return QStringLiteral("tool-number-taken");
    case RefusalId::ToolNeeded:
        return QStringLiteral("tool-needed");
    case RefusalId::ToolOverdue:
        return QStringLiteral("tool-overdue");
    case RefusalId::WordsTooLong:
        return QStringLiteral("words-too-long");
    case RefusalId::NeverLeftHere:
        return QStringLiteral("never-left-here");
    case RefusalId::CatalogueFaulty:
        return QStringLiteral("catalogue-faulty");
    case RefusalId::OdometerLower:
        return QStringLiteral("odometer-lower");
    case RefusalId::PaintAlike:
        return QStringLiteral("paint-alike");
    case RefusalId::NotTogether:
        return QStringLiteral("not-together");
    case RefusalId::OneOfTogether:
        return QStringLiteral("one-of-together");
    case RefusalId::TyreMarkMalformed:
        return QStringLiteral("tyre-mark-malformed");
    case RefusalId::WrongPlace:
        return QStringLiteral("wrong-place");
    case RefusalId::BayUnfit:
        return QStringLiteral("bay-unfit");
    case RefusalId::DraftUnknown:
        return QStringLiteral("draft-unknown");
    case RefusalId::DraftDecidedAlready:
        return QStringLiteral("draft-decided-already");
    case RefusalId::PhotosKept:
        return QStringLiteral("photos-kept");
    case RefusalId::ReadingStands:
        return QStringLiteral("reading-stands");
    case RefusalId::EvidenceNotFresh:
        return QStringLiteral("evidence-not-fresh");
    }
    return {};
}

const std::vector<RefusalId>& allRefusals()
{
    static const std::vector<RefusalId> all{
        RefusalId::NotAllowed,
        RefusalId::WrongSkill,
        RefusalId::PersonUnknown,
        RefusalId::SiteNotSetUp,
        RefusalId::AlreadySetUp,
        RefusalId::LastManager,
        RefusalId::NameMissing,
        RefusalId::NameTaken,
        RefusalId::BayUnknown,
        RefusalId::BayTaken,
        RefusalId::BayNumberTaken,
        RefusalId::PersonIsWorking,
        RefusalId::RuleOutOfRange,
        RefusalId::CarExists,
        RefusalId::CarMissing,
        RefusalId::StockNumberTaken,
        RefusalId::VinMalformed,
        RefusalId::FieldMissing,
        RefusalId::ValueOutOfRange,
        RefusalId::PlaceUnknown,
        RefusalId::ReasonMissing,
        RefusalId::EvidenceMissing,
        RefusalId::SecondPersonNeeded,
        RefusalId::AlreadyAppraised,
        RefusalId::FindingUnknown,
        RefusalId::OperationUnknown,
        RefusalId::KindUnknown,
        RefusalId::OperationNotOpen,
        RefusalId::OperationNotClosed,
        RefusalId::OperationRunning,
        RefusalId::AlreadyRunning,
        RefusalId::PersonBusy,
        RefusalId::NotRunning,
        RefusalId::NotStarted,
        RefusalId::CautionsUnread,
        RefusalId::NotYet,
        RefusalId::DoNotMove,
        RefusalId::DoNotDrive,
        RefusalId::DoNotPower,
        RefusalId::Blocked,
        RefusalId::NotBlocked,
        RefusalId::NotOut,
        RefusalId::CheckStaysInHouse,
        RefusalId::ReadingUnknown,
        RefusalId::ReadingMalformed,
        RefusalId::LimitMissing,
        RefusalId::FigureBySigner,
        RefusalId::FigureDiffers,
        RefusalId::FigureInUse,
        RefusalId::EvidenceOpen,
        RefusalId::ReadingOutside,
        RefusalId::AnswerForbidsClosing,
        RefusalId::CheckByDoer,
        RefusalId::NothingToCountersign,
        RefusalId::NotACheck,
        RefusalId::SafetyCannotBeLeft,
        RefusalId::NotWithdrawable,
        RefusalId::Isolated,
        RefusalId::NotIsolated,
        RefusalId::IsolatedBySomebody,
        RefusalId::NoIsolationHere,
        RefusalId::CarHeld,
        RefusalId::PinNotFresh,
        RefusalId::ReleaserAlone,
        RefusalId::AlreadyReleased,
        RefusalId::CarGone,
        RefusalId::NotGone,
        RefusalId::SameCar,
        RefusalId::SecondEntryOpen,
        RefusalId::MinutesOverlap,
        RefusalId::PhotoUnknown,
        RefusalId::SpecialityMissing,
        RefusalId::QualificationMissing,
        RefusalId::QualificationOver,
        RefusalId::ToolUnknown,
        RefusalId::ToolNumberTaken,
        RefusalId::ToolNeeded,
        RefusalId::ToolOverdue,
        RefusalId::NeverLeftHere,
        RefusalId::CatalogueFaulty,
        RefusalId::OdometerLower,
        RefusalId::PaintAlike,
        RefusalId::NotTogether,
        RefusalId::OneOfTogether,
        RefusalId::TyreMarkMalformed,
        RefusalId::WrongPlace,
        RefusalId::BayUnfit,
        RefusalId::DraftUnknown,
        RefusalId::DraftDecidedAlready,
        RefusalId::PhotosKept,
        RefusalId::ReadingStands,
        RefusalId::EvidenceNotFresh,
        RefusalId::WordsTooLong,
    };
    return all;
}

} // namespace ramplight
