// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Words of words.h for single values of the vocabulary and of the rules, a switch each.
#include "domain/words.h"

#include "domain/say.h"

namespace ramplight {

QString words(Condition condition)
{
    switch (condition) {
    case Condition::Mark:
        return say("mark");
    case Condition::Scratch:
        return say("scratch");
    case Condition::Scuff:
        return say("scuff");
    case Condition::Chip:
        return say("chip");
    case Condition::Dent:
        return say("dent");
    case Condition::Kerbed:
        return say("scuffed on a kerb");
    case Condition::Corrosion:
        return say("corrosion");
    case Condition::Crack:
        return say("crack");
    case Condition::Pepper:
        return say("stone peppering");
    case Condition::Fade:
        return say("faded");
    case Condition::Peel:
        return say("lacquer peeling");
    case Condition::Tear:
        return say("torn");
    case Condition::Stain:
        return say("stained");
    case Condition::Wear:
        return say("wear");
    case Condition::Burn:
        return say("burn");
    case Condition::Hole:
        return say("hole");
    case Condition::Missing:
        return say("missing");
    case Condition::Broken:
        return say("broken");
    case Condition::Loose:
        return say("loose");
    case Condition::Misaligned:
        return say("out of line");
    case Condition::Contamination:
        return say("contaminated");
    case Condition::Dirty:
        return say("dirty");
    case Condition::Odour:
        return say("smell");
    case Condition::Cut:
        return say("cut");
    case Condition::Bulge:
        return say("bulge");
    case Condition::Perished:
        return say("perished");
    case Condition::Worn:
        return say("worn");
    case Condition::Leak:
        return say("leak");
    case Condition::Lit:
        return say("lamp lit");
    case Condition::Inoperative:
        return say("does not work");
    case Condition::Noise:
        return say("noise");
    case Condition::Vibration:
        return say("vibration");
    case Condition::Overspray:
        return say("overspray");
    case Condition::PreviousRepair:
        return say("earlier repair");
    case Condition::Flat:
        return say("flat");
    case Condition::Overdue:
        return say("overdue");
    case Condition::Mismatched:
        return say("does not match");
    }
    return {};
}

QString words(Severity severity)
{
    switch (severity) {
    case Severity::Trace:
        return say("barely there");
    case Severity::Light:
        return say("light");
    case Severity::Moderate:
        return say("moderate");
    case Severity::Heavy:
        return say("heavy");
    }
    return {};
}

QString words(Remedy remedy)
{
    switch (remedy) {
    case Remedy::Polish:
        return say("polish");
    case Remedy::TouchIn:
        return say("touch in");
    case Remedy::FlatAndPolish:
        return say("flat and polish");
    case Remedy::Refinish:
        return say("paint");
    case Remedy::Refurbish:
        return say("refurbish");
    case Remedy::DentRepair:
        return say("push the dent out");
    case Remedy::Clean:
        return say("clean");
    case Remedy::Replace:
        return say("replace");
    case Remedy::Repair:
        return say("repair");
    case Remedy::Adjust:
        return say("adjust");
    case Remedy::Recharge:
        return say("recharge");
    case Remedy::Calibrate:
        return say("calibrate");
    case Remedy::Investigate:
        return say("find out");
    case Remedy::Leave:
        return say("leave as it is");
    }
    return {};
}

QString words(OperationState state)
{
    switch (state) {
    case OperationState::Waiting:
        return say("waiting");
    case OperationState::InHand:
        return say("in hand");
    case OperationState::Paused:
        return say("paused");
    case OperationState::AwaitingCheck:
        return say("awaiting check");
    case OperationState::Closed:
        return say("closed");
    case OperationState::LeftAsIs:
        return say("left as is");
    case OperationState::Blocked:
        return say("blocked");
    case OperationState::Withdrawn:
        return say("withdrawn");
    }
    return {};
}

QString words(Skill skill)
{
    switch (skill) {
    case Skill::Mechanical:
        return say("mechanical");
    case Skill::Wheels:
        return say("wheels");
    case Skill::SmartRepair:
        return say("smart repair");
    case Skill::Glass:
        return say("glass");
    case Skill::Trim:
        return say("trim");
    case Skill::Valet:
        return say("valet");
    case Skill::Checks:
        return say("checks");
    case Skill::Office:
        return say("office");
    }
    return {};
}

QString words(Right right)
{
    switch (right) {
    case Right::Appraise:
        return say("appraise");
    case Right::Work:
        return say("sign work off");
    case Right::Check:
        return say("check other people's work");
    case Right::Manage:
        return say("manage");
    case Right::Release:
        return say("release to sale");
    }
    return {};
}

QString words(BayKind kind)
{
    switch (kind) {
    case BayKind::Any:
        return say("any work");
    case BayKind::Lift:
        return say("lift");
    case BayKind::Wheels:
        return say("wheels");
    case BayKind::Paint:
        return say("paint");
    case BayKind::SmartRepair:
        return say("smart repair");
    case BayKind::Glass:
        return say("glass");
    case BayKind::Valet:
        return say("valet");
    case BayKind::Parking:
        return say("parking");
    }
    return {};
}

QString words(PlaceKind kind)
{
    switch (kind) {
    case PlaceKind::Panel:
        return say("metal panels");
    case PlaceKind::Bumper:
        return say("bumpers");
    case PlaceKind::Glass:
        return say("glass");
    case PlaceKind::Lamp:
        return say("lamps");
    case PlaceKind::OutsideTrim:
        return say("outside trim");
    case PlaceKind::Plate:
        return say("number plates");
    case PlaceKind::Underbody:
        return say("underbody");
    case PlaceKind::Wheel:
        return say("wheels");
    case PlaceKind::Tyre:
        return say("tyres");
    case PlaceKind::Brake:
        return say("brakes");
    case PlaceKind::Interior:
        return say("interior");
    case PlaceKind::Restraint:
        return say("belts and airbags");
    case PlaceKind::Drivetrain:
        return say("drivetrain");
    case PlaceKind::Steering:
        return say("steering");
    case PlaceKind::Suspension:
        return say("suspension");
    case PlaceKind::Battery:
        return say("12 V battery");
    case PlaceKind::HighVoltage:
        return say("high-voltage system");
    case PlaceKind::Electrical:
        return say("electrical system");
    case PlaceKind::Keys:
        return say("keys");
    case PlaceKind::WholeCar:
        return say("the whole car");
    }
    return {};
}

QString words(LimitOwner owner)
{
    switch (owner) {
    case LimitOwner::Law:
        return say("law");
    case LimitOwner::AnnualTest:
        return say("annual test");
    case LimitOwner::Standard:
        return say("standard");
    case LimitOwner::VehicleData:
        return say("vehicle maker's data");
    case LimitOwner::ProductData:
        return say("product data sheet");
    case LimitOwner::House:
        return say("house");
    }
    return {};
}

QString words(BodyShape shape)
{
    switch (shape) {
    case BodyShape::Hatch:
        return say("hatch");
    case BodyShape::Saloon:
        return say("saloon");
    case BodyShape::Estate:
        return say("estate");
    case BodyShape::Suv:
        return say("SUV");
    case BodyShape::Coupe:
        return say("coupe");
    case BodyShape::Convertible:
        return say("convertible");
    case BodyShape::Van:
        return say("van");
    case BodyShape::Pickup:
        return say("pickup");
    case BodyShape::Mpv:
        return say("MPV");
    }
    return {};
}

QString words(Fact fact)
{
    switch (fact) {
    case Fact::CombustionEngine:
        return say("engine");
    case Fact::TractionBattery:
        return say("traction battery");
    case Fact::ScreenCamera:
        return say("camera at the screen");
    case Fact::FrontRadar:
        return say("radar behind the front bumper");
    case Fact::RearRadar:
        return say("radar behind the rear bumper");
    case Fact::ValveSensors:
        return say("pressure sensors in the valves");
    case Fact::RunFlats:
        return say("run-flat tyres");
    case Fact::SpecialFinish:
        return say("special paint finish");
    case Fact::ElectricParkingBrake:
        return say("electric parking brake");
    case Fact::FaceCutWheels:
        return say("wheel faces cut on a lathe");
    case Fact::LeatherTrim:
        return say("leather trim");
    case Fact::RepairKit:
        return say("repair kit instead of a spare");
    }
    return {};
}

QString words(LeavingHow how)
{
    switch (how) {
    case LeavingHow::Trade:
        return say("to the trade");
    case LeavingHow::Scrap:
        return say("for scrap");
    case LeavingHow::BackToOwner:
        return say("back to its owner");
    case LeavingHow::EnteredTwice:
        return say("entered twice");
    }
    return {};
}

QString words(PromiseImportance importance)
{
    switch (importance) {
    case PromiseImportance::CanWait:
        return say("can wait");
    case PromiseImportance::Usual:
        return say("as usual");
    case PromiseImportance::MustBeKept:
        return say("must be kept");
    }
    return {};
}

QString words(SignatureMeaning meaning)
{
    switch (meaning) {
    case SignatureMeaning::DidTheWork:
        return say("did the work");
    case SignatureMeaning::CheckedTheWork:
        return say("checked the work of others");
    case SignatureMeaning::Countersigned:
        return say("countersigned");
    case SignatureMeaning::ReceivedFromOutside:
        return say("checked the outside firm's work");
    }
    return {};
}

QString words(PhotoMoment moment)
{
    switch (moment) {
    case PhotoMoment::Before:
        return say("before");
    case PhotoMoment::During:
        return say("during");
    case PhotoMoment::After:
        return say("after");
    }
    return {};
}

} // namespace ramplight
