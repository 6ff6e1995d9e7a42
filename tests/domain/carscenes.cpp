// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "refusalscenes.h"

// Refusals of the house and of a car as a whole.
namespace ramplight::test {

std::vector<RefusalScene> siteScenes()
{
    const QDate day(2031, 9, 1);
    return {
        {RefusalId::ToolNumberTaken,
         [day](Workbench& b) {
             b.tool("T 7", ToolKind::TorqueWrench, day);
             return b.ask(b.manager, site::SetTool{{{}, "T 7", ToolKind::DialGauge, day, true}});
         }},
        {RefusalId::CatalogueFaulty,
         [](Workbench& b) { return b.ask(b.manager, site::AdoptCatalogue{"{}"}); }},
        {RefusalId::NeverLeftHere,
         [](Workbench& b) {
             HouseRules rules;
             rules.neverLeft = {Skill::Valet};
             b.ask(b.manager, site::SetHouseRules{rules});
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::LeaveAsIs{b.open(id, "valet"), "dusty"});
         }},
        {RefusalId::NotAllowed,
         [](Workbench& b) { return b.ask(b.painter, site::SetHouseRules{}); }},
        {RefusalId::PersonUnknown,
         [](Workbench& b) {
             return b.ask(b.manager, site::ChangePerson{PersonId{99}, {}, {}, true});
         }},
        {RefusalId::SiteNotSetUp,
         [](Workbench&) {
             const auto events = decide(SiteState{}, SiteContext{}, site::AddPerson{});
             return events ? done : idText(events.error().id);
         }},
        {RefusalId::AlreadySetUp,
         [](Workbench& b) {
             return b.ask(b.manager, site::SetUp{"Again", false, {}, {}}, "Al");
         }},
        {RefusalId::LastManager,
         [](Workbench& b) {
             b.ask(b.manager, site::ChangePerson{b.checker, {}, {Right::Check}, true});
             return b.ask(b.manager, site::ChangePerson{b.manager, {}, {}, true});
         }},
        {RefusalId::NameMissing,
         [](Workbench& b) { return b.ask(b.manager, site::AddPerson{}, "  "); }},
        {RefusalId::NameTaken,
         [](Workbench& b) {
             b.ask(b.manager, site::AddPerson{}, "Wren Ashby");
             return b.ask(b.manager, site::AddPerson{}, " wren ashby ");
         }},
        {RefusalId::BayUnknown,
         [](Workbench& b) {
             return b.ask(b.manager, b.appraised(), car::MoveCar{BayId{99}, {}});
         }},
        {RefusalId::BayTaken,
         [](Workbench& b) {
             b.must(b.manager, b.appraised(), car::MoveCar{b.lift, {}});
             return b.ask(b.manager, b.appraised(), car::MoveCar{b.lift, {}});
         }},
        {RefusalId::BayNumberTaken,
         [](Workbench& b) {
             return b.ask(b.manager, site::SetBay{{{}, 1, "Twice", BayKind::Any, true}});
         }},
        {RefusalId::PersonIsWorking,
         [](Workbench& b) {
             started(b, b.appraised(), "valet", b.painter);
             return b.ask(b.manager, site::ChangePerson{b.painter, {}, {}, false});
         }},
        {RefusalId::RuleOutOfRange,
         [](Workbench& b) {
             HouseRules rules;
             rules.lockSeconds = 1;
             return b.ask(b.manager, site::SetHouseRules{rules});
         }},
    };
}

std::vector<RefusalScene> carScenes()
{
    return {
        {RefusalId::CarExists,
         [](Workbench& b) { return b.ask(b.manager, b.bringIn(), car::BringIn{}); }},
        {RefusalId::CarMissing,
         [](Workbench& b) { return b.ask(b.manager, CarId{"nowhere"}, car::FinishAppraisal{}); }},
        {RefusalId::StockNumberTaken,
         [](Workbench& b) {
             const Identity first = b.car(b.bringIn()).identity;
             return b.ask(b.appraiser, b.bringIn(), car::CorrectIdentity{first, "misread"});
         }},
        {RefusalId::VinMalformed,
         [](Workbench& b) {
             Identity identity{"K9", {}, "SHORT", "Halden", "Skerry", {}, {}, {}};
             return b.ask(b.appraiser, CarId{"new"},
                          car::BringIn{identity, {}, QDate(2031, 3, 20), {}});
         }},
        {RefusalId::FieldMissing,
         [](Workbench& b) {
             return b.ask(b.appraiser, CarId{"new"}, car::BringIn{{}, {}, QDate(2031, 3, 20), {}});
         }},
        {RefusalId::ValueOutOfRange,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::RecordTread{at("tyre-front-left"), {999, 70, 70}});
         }},
        {RefusalId::PlaceUnknown,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::RecordFinding{finding("flux-capacitor", Condition::Worn), {}});
         }},
        {RefusalId::ReasonMissing,
         [](Workbench& b) {
             return b.ask(b.manager, b.bringIn(), car::LeaveUnreleased{LeavingHow::Scrap, {}});
         }},
        {RefusalId::EvidenceMissing,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             const FindingId cut = b.found(id, "tyre-front-left", Condition::Cut);
             return b.ask(b.checker, id, car::CorrectFinding{cut, {}, false, "a mark", {}});
         }},
        {RefusalId::EvidenceNotFresh,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             const FindingId cut = b.found(id, "tyre-front-left", Condition::Cut);
             const PhotoId photo = b.photo();
             b.must(b.appraiser, id, car::AttachPhoto{photo, PhotoMoment::Before, {}, {}, cut});
             return b.ask(b.checker, id, car::CorrectFinding{cut, {}, false, "a mark", photo});
         }},
        {RefusalId::SecondPersonNeeded,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             const FindingId cut = b.found(id, "tyre-front-left", Condition::Cut);
             b.must(b.appraiser, id, car::FinishAppraisal{});
             return b.ask(b.appraiser, id,
                          car::CorrectFinding{cut, {}, false, "a mark", b.photo()});
         }},
        {RefusalId::AlreadyAppraised,
         [](Workbench& b) { return b.ask(b.appraiser, b.appraised(), car::FinishAppraisal{}); }},
        {RefusalId::FindingUnknown,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::CorrectFinding{FindingId{99}, {}, false, "no", {}});
         }},
        {RefusalId::OperationUnknown,
         [](Workbench& b) {
             return b.ask(b.mechanic, b.bringIn(), car::StartWork{OperationId{99}});
         }},
        {RefusalId::KindUnknown,
         [](Workbench& b) {
             return b.ask(b.manager, b.bringIn(),
                          car::OpenOperation{"gold-plating", at("bonnet"), "why not"});
         }},
        {RefusalId::WrongPlace,
         [](Workbench& b) {
             b.spec("touch-in").placeKinds = {PlaceKind::Panel, PlaceKind::Bumper};
             return b.ask(b.manager, b.bringIn(),
                          car::OpenOperation{"touch-in", at("windscreen"), "a chip"});
         }},
        {RefusalId::DraftUnknown,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(), car::DropDraft{{{"walk"}, 0}, true});
         }},
        {RefusalId::DraftDecidedAlready,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             SpokenRound round;
             round.transcript = {"walk"};
             round.drafts.resize(1);
             round.drafts.front().data.place = at("roof");
             b.must(b.appraiser, id, car::TakeSpeech{round});
             const car::RecordFinding keep{round.drafts.front().data, {}, {{"walk"}, 0}};
             b.must(b.appraiser, id, keep);
             return b.ask(b.appraiser, id, keep);
         }},
        {RefusalId::PhotosKept,
         [](Workbench& b) { return b.ask(b.manager, b.appraised(), car::RemovePhotos{}); }},
        {RefusalId::SameCar,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             return b.ask(b.manager, id, car::LinkDuplicate{id});
         }},
        {RefusalId::SecondEntryOpen,
         [](Workbench& b) {
             const CarId second = b.appraised();
             b.must(b.mechanic, second,
                    car::OpenOperation{"steering-part", at("steering"), "noise"});
             return b.askToJoin(b.manager, b.bringIn(), second);
         }},
        {RefusalId::TyreMarkMalformed,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::RecordTyre{at("tyre-front-left"), {}, "519"});
         }},
        {RefusalId::OdometerLower,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.must(b.appraiser, id, car::ReadOdometer{48'200, DistanceUnit::Miles});
             return b.ask(b.mechanic, id, car::ReadOdometer{48'199, DistanceUnit::Miles});
         }},
        {RefusalId::PaintAlike,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(), car::ConfirmRepair{at("bonnet")});
         }},
        {RefusalId::PhotoUnknown,
         [](Workbench& b) { return b.ask(b.manager, b.bringIn(), car::AttachPhoto{}); }},
        {RefusalId::CarHeld,
         [](Workbench& b) { return b.ask(b.seller, b.appraised(), car::Release{}, true); }},
        {RefusalId::PinNotFresh,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             return b.ask(b.seller, id, car::Release{}, false);
         }},
        {RefusalId::ReleaserAlone,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             CarState state = b.car(id);
             for (auto& [number, operation] : state.operations)
                 for (Signature& signature : operation.signatures)
                     signature.by = b.seller;
             const SiteState site = b.ledger.site().value();
             CarContext context;
             context.actor = b.seller;
             context.now = b.clock.now();
             context.catalogue = &b.catalogue;
             context.site = &site;
             context.pinFresh = true;
             const auto events = decide(state, context, car::Release{});
             return events ? done : idText(events.error().id);
         }},
        {RefusalId::AlreadyReleased,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             return b.ask(b.seller, id, car::Release{}, true);
         }},
        {RefusalId::CarGone,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.must(b.manager, id, car::LeaveUnreleased{LeavingHow::Scrap, "rust"});
             return b.ask(b.manager, id, car::FinishAppraisal{});
         }},
        {RefusalId::NotGone,
         [](Workbench& b) { return b.ask(b.manager, b.bringIn(), car::BringBack{"why"}); }},
    };
}

} // namespace ramplight::test
