// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What a technician reads when something is refused; the ids are in refusal.cpp.
#include "domain/refusal.h"
#include "domain/say.h"

namespace ramplight {

namespace {

const char* sentence(RefusalId id)
{
    switch (id) {
    case RefusalId::NotAllowed:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This needs the right to %1. Ask somebody who has it.");
    case RefusalId::WrongSkill:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This is work for: %1. Ask somebody with that skill.");
    case RefusalId::PersonUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "That person does not work here, or not any more.");
    case RefusalId::SiteNotSetUp:
        return QT_TRANSLATE_NOOP("ramplight", "There is no workshop yet. Set it up first.");
    case RefusalId::AlreadySetUp:
        return QT_TRANSLATE_NOOP("ramplight", "This workshop is set up already.");
    case RefusalId::LastManager:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Nobody could manage this workshop afterwards. Give somebody else "
                                 "the right to manage and a PIN first.");
    case RefusalId::NameMissing:
        return QT_TRANSLATE_NOOP("ramplight", "A name or number is missing.");
    case RefusalId::NameTaken:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Somebody here, or who left, is called %1 already, and nobody "
                                 "could tell who signed. Add a second name or a letter.");
    case RefusalId::BayUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "There is no such bay, or it is closed.");
    case RefusalId::BayTaken:
        return QT_TRANSLATE_NOOP("ramplight", "%1 stands there. Move it first.");
    case RefusalId::BayNumberTaken:
        return QT_TRANSLATE_NOOP("ramplight", "There is a bay %1 already. Choose another number.");
    case RefusalId::PersonIsWorking:
        return QT_TRANSLATE_NOOP("ramplight", "A timer of that person is running. Pause it first.");
    case RefusalId::RuleOutOfRange:
        return QT_TRANSLATE_NOOP("ramplight", "That cannot be: %1.");
    case RefusalId::CarExists:
        return QT_TRANSLATE_NOOP("ramplight", "This car is here already.");
    case RefusalId::CarMissing:
        return QT_TRANSLATE_NOOP("ramplight", "There is no such car here.");
    case RefusalId::StockNumberTaken:
        return QT_TRANSLATE_NOOP(
            "ramplight",
            "Another car has stock number %1. If it is the same car, open it instead.");
    case RefusalId::VinMalformed:
        return QT_TRANSLATE_NOOP("ramplight", "That is not a vehicle identification number: %1.");
    case RefusalId::FieldMissing:
        return QT_TRANSLATE_NOOP("ramplight", "Still missing: %1.");
    case RefusalId::ValueOutOfRange:
        return QT_TRANSLATE_NOOP("ramplight", "That value cannot be: %1.");
    case RefusalId::PlaceUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "There is no such place on a car: %1.");
    case RefusalId::ReasonMissing:
        return QT_TRANSLATE_NOOP(
            "ramplight", "Say why, in a few words. Both the old and the new stay on record.");
    case RefusalId::EvidenceMissing:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This is corrected with a fresh photo that shows it.");
    case RefusalId::SecondPersonNeeded:
        return QT_TRANSLATE_NOOP(
            "ramplight", "%1 recorded this. At a safety item somebody else must correct it.");
    case RefusalId::AlreadyAppraised:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "The appraisal is finished. Record what you found as a finding.");
    case RefusalId::FindingUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "There is no such finding on this car.");
    case RefusalId::OperationUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "There is no such operation on this car.");
    case RefusalId::KindUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "The catalogue has no operation %1.");
    case RefusalId::OperationNotOpen:
        return QT_TRANSLATE_NOOP("ramplight", "%1 is not open any more.");
    case RefusalId::OperationNotClosed:
        return QT_TRANSLATE_NOOP("ramplight", "%1 is not closed, so it cannot be reopened.");
    case RefusalId::OperationRunning:
        return QT_TRANSLATE_NOOP("ramplight", "Somebody is working on %1. Pause it first.");
    case RefusalId::AlreadyRunning:
        return QT_TRANSLATE_NOOP("ramplight", "Your timer runs on this already.");
    case RefusalId::PersonBusy:
        return QT_TRANSLATE_NOOP("ramplight", "Your timer runs on %1. Pause or finish that first.");
    case RefusalId::NotRunning:
        return QT_TRANSLATE_NOOP("ramplight", "No timer is running here.");
    case RefusalId::NotStarted:
        return QT_TRANSLATE_NOOP("ramplight", "You have not worked on this. Start it first.");
    case RefusalId::CautionsUnread:
        return QT_TRANSLATE_NOOP("ramplight", "Read the cautions first.");
    case RefusalId::NotYet:
        return QT_TRANSLATE_NOOP("ramplight", "Not yet: %1.");
    case RefusalId::DoNotMove:
        return QT_TRANSLATE_NOOP("ramplight", "Do not move this car: %1.");
    case RefusalId::DoNotDrive:
        return QT_TRANSLATE_NOOP("ramplight", "Do not drive this car: %1.");
    case RefusalId::DoNotPower:
        return QT_TRANSLATE_NOOP("ramplight", "Do not power this car: %1.");
    case RefusalId::Blocked:
        return QT_TRANSLATE_NOOP("ramplight", "This waits: %1.");
    case RefusalId::NotBlocked:
        return QT_TRANSLATE_NOOP("ramplight", "This is not blocked.");
    case RefusalId::NotOut:
        return QT_TRANSLATE_NOOP("ramplight", "This is not with an outside firm.");
    case RefusalId::CheckStaysInHouse:
        return QT_TRANSLATE_NOOP(
            "ramplight", "A check is made by our own person: it cannot be given to a firm.");
    case RefusalId::ReadingUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "This operation does not ask for that reading.");
    case RefusalId::ReadingMalformed:
        return QT_TRANSLATE_NOOP("ramplight", "That is not a value for: %1.");
    case RefusalId::LimitMissing:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This car's figure is missing for: %1. Somebody with the right to "
                                 "manage or check enters it, with its source, from the %2.");
    case RefusalId::FigureBySigner:
        return QT_TRANSLATE_NOOP(
            "ramplight", "You entered the figure for: %1. Somebody else must sign against it.");
    case RefusalId::FigureDiffers:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "The figure for this car is %1. Set the tool to it and do it "
                                 "again. If the figure is wrong, it is put right first.");
    case RefusalId::FigureInUse:
        return QT_TRANSLATE_NOOP("ramplight", "This figure was read against or corrected already. "
                                              "If it is wrong, correct it, with the reason.");
    case RefusalId::EvidenceOpen:
        return QT_TRANSLATE_NOOP("ramplight", "Still missing: %1.");
    case RefusalId::ReadingOutside:
        return QT_TRANSLATE_NOOP(
            "ramplight", "Outside its limit: %1. Measure again when what that calls for is done.");
    case RefusalId::AnswerForbidsClosing:
        return QT_TRANSLATE_NOOP("ramplight", "This cannot be closed with the answer: %1. Answer "
                                              "again when what that calls for is done.");
    case RefusalId::CheckByDoer:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Nobody checks work of their own. Somebody else must check it.");
    case RefusalId::NothingToCountersign:
        return QT_TRANSLATE_NOOP("ramplight", "This does not wait for a second signature.");
    case RefusalId::NotACheck:
        return QT_TRANSLATE_NOOP("ramplight", "Only a check or a second signature can be refused.");
    case RefusalId::SafetyCannotBeLeft:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This is a safety item. It is closed or corrected, never left.");
    case RefusalId::NotWithdrawable:
        return QT_TRANSLATE_NOOP("ramplight", "Only work that was added by hand or suggested for a "
                                              "finding, is no safety item and was not started "
                                              "can be taken out.");
    case RefusalId::Isolated:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "High voltage is isolated already; lock kept at: %1.");
    case RefusalId::NotIsolated:
        return QT_TRANSLATE_NOOP("ramplight", "High voltage is not isolated.");
    case RefusalId::IsolatedBySomebody:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "%1 isolated the high voltage. Only that person lifts it, or a "
                                 "qualified person who writes down the procedure followed.");
    case RefusalId::NoIsolationHere:
        return QT_TRANSLATE_NOOP("ramplight", "This operation does not isolate the high voltage.");
    case RefusalId::CarHeld:
        return QT_TRANSLATE_NOOP("ramplight", "This car is held: %1");
    case RefusalId::PinNotFresh:
        return QT_TRANSLATE_NOOP("ramplight", "Enter your PIN again for this.");
    case RefusalId::ReleaserAlone:
        return QT_TRANSLATE_NOOP(
            "ramplight",
            "Yours is the only name under the safety work. Somebody else must release this car.");
    case RefusalId::AlreadyReleased:
        return QT_TRANSLATE_NOOP("ramplight", "This car is released already.");
    case RefusalId::CarGone:
        return QT_TRANSLATE_NOOP("ramplight", "This car left sale preparation: %1.");
    case RefusalId::NotGone:
        return QT_TRANSLATE_NOOP("ramplight", "This car did not leave.");
    case RefusalId::SecondEntryOpen:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "The other entry has work open that would be lost with it: %1. "
                                 "Finish it there first, or join the two the other way round.");
    case RefusalId::SameCar:
        return QT_TRANSLATE_NOOP("ramplight", "That is the same car.");
    case RefusalId::MinutesOverlap:
        return QT_TRANSLATE_NOOP(
            "ramplight",
            "These minutes would overlap other work of the same person. At most %1 fit.");
    case RefusalId::PhotoUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "The photo is missing.");
    case RefusalId::SpecialityMissing:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This is work for: %1. Ask somebody with that speciality.");
    case RefusalId::QualificationMissing:
        return QT_TRANSLATE_NOOP("ramplight", "This needs a qualification: %1. Ask somebody who "
                                              "holds it.");
    case RefusalId::QualificationOver:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Your qualification for %1 ended on %2. Pause this and ask "
                                 "somebody whose own is in date.");
    case RefusalId::ToolUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "That is not a tool for this: %1.");
    case RefusalId::ToolNumberTaken:
        return QT_TRANSLATE_NOOP("ramplight", "There is a tool %1 already. Choose another number.");
    case RefusalId::ToolNeeded:
        return QT_TRANSLATE_NOOP("ramplight", "Say which tool this was measured with: %1.");
    case RefusalId::ToolOverdue:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Tool %1 was due for calibration on %2. Measure with one that is "
                                 "in date.");
    case RefusalId::WordsTooLong:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "These are %1 characters; the buyer's page has room for %2. Say "
                                 "it in fewer words.");
    case RefusalId::NeverLeftHere:
        return QT_TRANSLATE_NOOP("ramplight", "This is never left as it is here: %1. Finish it.");
    case RefusalId::CatalogueFaulty:
        return QT_TRANSLATE_NOOP("ramplight", "The catalogue was not taken: %1.");
    case RefusalId::OdometerLower:
        return QT_TRANSLATE_NOOP("ramplight", "The odometer showed %1 before and now shows less. "
                                              "Read it again; where it is right, say why.");
    case RefusalId::PaintAlike:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Nothing in the paint of this panel stands out: %1. Record what "
                                 "you see as a finding.");
    case RefusalId::NotTogether:
        return QT_TRANSLATE_NOOP("ramplight", "These cannot be signed off together: %1.");
    case RefusalId::OneOfTogether:
        return QT_TRANSLATE_NOOP("ramplight", "%1: %2 Nothing was signed, for none of them.");
    case RefusalId::TyreMarkMalformed:
        return QT_TRANSLATE_NOOP("ramplight", "That cannot stand on this tyre: %1.");
    case RefusalId::WrongPlace:
        return QT_TRANSLATE_NOOP("ramplight", "This is not work for: %1. It is for: %2.");
    case RefusalId::BayUnfit:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "Bay %1 is not made for this: %2. Choose another bay.");
    case RefusalId::DraftUnknown:
        return QT_TRANSLATE_NOOP("ramplight", "There is no such draft of a spoken walk-round.");
    case RefusalId::DraftDecidedAlready:
        return QT_TRANSLATE_NOOP("ramplight", "Somebody has decided about this draft already: %1.");
    case RefusalId::PhotosKept:
        return QT_TRANSLATE_NOOP("ramplight", "The photos of this car are kept: %1.");
    case RefusalId::ReadingStands:
        return QT_TRANSLATE_NOOP("ramplight", "This reading stands (%1): %2.");
    case RefusalId::EvidenceNotFresh:
        return QT_TRANSLATE_NOOP("ramplight",
                                 "This photo was on the car before: a correction is shown by one "
                                 "that was taken for it.");
    }
    return "";
}

} // namespace

QString words(const Refusal& refusal)
{
    const QString text = say(sentence(refusal.id));
    const QStringList& details = refusal.details;
    if (refusal.id == RefusalId::CarHeld || refusal.id == RefusalId::EvidenceOpen ||
        refusal.id == RefusalId::CatalogueFaulty)
        return text.arg(details.join(QStringLiteral("; ")));
    // All at once: what a person typed may look like a place holder itself.
    if (text.contains(QLatin1String("%2")))
        return text.arg(details.value(0), details.value(1));
    return text.contains(QLatin1String("%1")) ? text.arg(details.value(0)) : text;
}

} // namespace ramplight
