// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "smallcatalogue.h"

namespace ramplight::test {

namespace {

const std::vector<PlaceId> tyres{at("tyre-front-left"), at("tyre-front-right"),
                                 at("tyre-rear-left"), at("tyre-rear-right")};
const std::vector<PlaceId> wheels{at("wheel-front-left"), at("wheel-front-right"),
                                  at("wheel-rear-left"), at("wheel-rear-right")};

OperationSpec operation(const char* id, const char* title, Skill skill, Scope scope)
{
    OperationSpec spec;
    spec.id = QString::fromLatin1(id);
    spec.title = QString::fromLatin1(title);
    spec.skill = skill;
    spec.scope = scope;
    spec.minutes = {10, 20, 40};
    return spec;
}

ReadingSpec reading(const char* key, ReadingKind kind, Unit unit = Unit::None, int decimals = 0)
{
    ReadingSpec spec;
    spec.key = QString::fromLatin1(key);
    spec.title = spec.key;
    spec.kind = kind;
    spec.unit = unit;
    spec.decimals = decimals;
    return spec;
}

ReadingSpec atLeast(ReadingSpec spec, int least, const char* opens)
{
    spec.limits = {{LimitOwner::House, QStringLiteral("house default"), least, {}}};
    spec.opens = QString::fromLatin1(opens);
    return spec;
}

ReadingSpec atMost(ReadingSpec spec, int most, const char* opens)
{
    spec.limits = {{LimitOwner::House, QStringLiteral("house default"), {}, most}};
    spec.opens = QString::fromLatin1(opens);
    return spec;
}

/// Two answers: one that closes, one that does not and may open something.
ReadingSpec choice(const char* key, const char* good, const char* bad, const char* opens = "")
{
    ReadingSpec spec = reading(key, ReadingKind::Choice);
    spec.options = {
        {QString::fromLatin1(good), QString::fromLatin1(good), true, {}},
        {QString::fromLatin1(bad), QString::fromLatin1(bad), false, QString::fromLatin1(opens)}};
    return spec;
}

ReadingSpec figure(const char* key, Unit unit)
{
    ReadingSpec spec = reading(key, ReadingKind::Figure, unit);
    spec.neededFrom = LimitOwner::VehicleData;
    return spec;
}

PhotoSpec photo(PhotoMoment moment)
{
    return {moment, QStringLiteral("the work")};
}

Immobilises forbids(std::vector<Restraint> what, RestraintFrom from, const char* words)
{
    return {std::move(what), from, QString::fromLatin1(words)};
}

QStringList names(std::initializer_list<const char*> ids)
{
    QStringList list;
    for (const char* id : ids)
        list.append(QString::fromLatin1(id));
    return list;
}

std::vector<OperationSpec> baseline()
{
    OperationSpec arrival = operation("arrival-check", "Arrival", Skill::Office, Scope::Car);
    arrival.readings = {choice("papers", "agree", "differ")};

    OperationSpec inspection = operation("inspection", "Inspection", Skill::Mechanical, Scope::Car);
    inspection.safety = true;
    inspection.cautions = names({"Stands under the car."});
    inspection.photos = {photo(PhotoMoment::During)};
    ReadingSpec lining =
        atLeast(reading("lining", ReadingKind::Limit, Unit::Millimetre, 1), 30, "brake-pads");
    lining.limits.push_back({LimitOwner::AnnualTest, QStringLiteral("annual test"), 15, {}});
    lining.places = {at("brakes-front"), at("brakes-rear")};
    ReadingSpec disc = reading("disc", ReadingKind::Limit, Unit::Millimetre, 1);
    disc.neededFrom = LimitOwner::VehicleData;
    disc.places = {at("brakes-front")};
    disc.opens = QStringLiteral("brake-pads");
    ReadingSpec play = choice("play", "sound", "unsafe", "steering-part");
    play.options.insert(play.options.begin() + 1,
                        {QStringLiteral("noted"), QStringLiteral("noted"), true, {}});
    play.places = {at("steering")};
    ReadingSpec note = reading("note", ReadingKind::Text);
    note.optional = true;
    inspection.readings = {lining, disc, play, note};
    inspection.clears = {at("brakes-front"), at("brakes-rear"), at("steering")};

    OperationSpec survey = operation("tyre-survey", "Tyre survey", Skill::Wheels, Scope::Car);
    survey.safety = true;
    ReadingSpec tread =
        atLeast(reading("tread", ReadingKind::Limit, Unit::Millimetre, 1), 30, "tyre-fit");
    tread.places = tyres;
    survey.readings = {tread};
    survey.clears = tyres;
    survey.clears.insert(survey.clears.end(), wheels.begin(), wheels.end());

    OperationSpec battery =
        operation("battery-check", "Traction battery", Skill::Mechanical, Scope::Car);
    battery.safety = true;
    battery.ifFact = Fact::TractionBattery;
    battery.needs = {Restraint::Power};
    battery.readings = {reading("charge", ReadingKind::Record, Unit::Percent)};
    battery.clears = {at("traction-battery")};

    OperationSpec valet = operation("valet", "Valet", Skill::Valet, Scope::Car);
    valet.after = names({"touch-in", "wheel-refurb"});

    OperationSpec last = operation("final-check", "Final check", Skill::Checks, Scope::Car);
    last.safety = true;
    last.secondPerson = SecondPerson::Check;
    last.checksWorkOf = names({"*"});
    last.after = names({"*"});
    last.readings = {choice("overall", "good", "poor")};

    std::vector<OperationSpec> list{arrival, inspection, survey, battery, valet, last};
    for (OperationSpec& spec : list)
        spec.baseline = true;
    return list;
}

std::vector<OperationSpec> wheelWork()
{
    OperationSpec refurb = operation("wheel-refurb", "Refurbish", Skill::Wheels, Scope::Place);
    refurb.wait = {60, QStringLiteral("bakes and cools"), {}};
    refurb.readings = {choice("metal", "whole", "cracked", "wheel-replace")};
    refurb.photos = {photo(PhotoMoment::Before), photo(PhotoMoment::After)};
    refurb.immobilises = {
        forbids({Restraint::Move, Restraint::Drive}, RestraintFrom::Started, "wheels are off")};
    refurb.triggers = {{QStringLiteral("wheel-true-check"), {}}};

    OperationSpec truth =
        operation("wheel-true-check", "Wheel runs true", Skill::Checks, Scope::Place);
    truth.safety = true;
    truth.secondPerson = SecondPerson::Check;
    truth.checksWorkOf = names({"wheel-refurb"});
    truth.after = names({"wheel-refurb"});
    truth.readings = {
        atMost(reading("run-out", ReadingKind::Limit, Unit::Millimetre, 1), 10, "wheel-replace")};

    OperationSpec fit = operation("tyre-fit", "Fit a tyre", Skill::Wheels, Scope::Place);
    fit.safety = true;
    fit.readings = {reading("marks", ReadingKind::Text)};
    fit.photos = {photo(PhotoMoment::After)};
    fit.immobilises = {
        forbids({Restraint::Move, Restraint::Drive}, RestraintFrom::Started, "a wheel is off")};
    fit.triggers = {{QStringLiteral("wheel-fixing-check"), {}}};

    OperationSpec replace = fit;
    replace.id = QStringLiteral("wheel-replace");
    replace.title = QStringLiteral("Replace a wheel");

    OperationSpec fixing =
        operation("wheel-fixing-check", "Wheel fixings", Skill::Checks, Scope::Car);
    fixing.safety = true;
    fixing.secondPerson = SecondPerson::Check;
    fixing.checksWorkOf = names({"tyre-fit", "wheel-replace"});
    fixing.after = names({"tyre-fit", "wheel-replace"});
    fixing.readings = {figure("torque", Unit::NewtonMetre), reading("wrench", ReadingKind::Text)};
    fixing.immobilises = {
        forbids({Restraint::Drive}, RestraintFrom::Opened, "wheel fixings are not checked")};

    return {refurb, truth, fit, replace, fixing};
}

std::vector<OperationSpec> mechanicalWork()
{
    OperationSpec pads = operation("brake-pads", "Brake pads", Skill::Mechanical, Scope::Axle);
    pads.safety = true;
    pads.photos = {photo(PhotoMoment::After)};
    pads.readings = {reading("part", ReadingKind::Text)};
    pads.immobilises = {
        forbids({Restraint::Move, Restraint::Drive}, RestraintFrom::Started, "brakes are apart")};
    pads.triggers = {{QStringLiteral("road-test"), {}}};

    OperationSpec steering =
        operation("steering-part", "Steering part", Skill::Mechanical, Scope::Place);
    steering.safety = true;
    steering.secondPerson = SecondPerson::Countersign;
    steering.readings = {reading("part", ReadingKind::Text)};
    steering.triggers = {{QStringLiteral("road-test"), {}}};

    OperationSpec high =
        operation("high-voltage-repair", "High voltage", Skill::Mechanical, Scope::Place);
    high.safety = true;
    high.highVoltageIsolation = true;
    high.readings = {atMost(reading("proved", ReadingKind::Limit, Unit::Volt), 0, "")};
    high.immobilises = {forbids({Restraint::Move, Restraint::Drive, Restraint::Power},
                                RestraintFrom::Started, "high voltage is isolated")};
    high.triggers = {{QStringLiteral("battery-check"), Fact::TractionBattery}};

    OperationSpec test = operation("road-test", "Road test", Skill::Mechanical, Scope::Car);
    test.safety = true;
    test.needs = {Restraint::Drive, Restraint::Power};
    test.after = names({"inspection", "brake-pads", "steering-part"});
    test.readings = {choice("result", "good", "poor")};

    return {pads, steering, high, test};
}

std::vector<OperationSpec> glassAndPaint()
{
    OperationSpec screen = operation("windscreen-fit", "Fit a screen", Skill::Glass, Scope::Place);
    screen.safety = true;
    screen.readings = {reading("cure", ReadingKind::Record, Unit::Minute)};
    screen.wait = {60, QStringLiteral("adhesive cures"), QStringLiteral("cure")};
    screen.immobilises = {
        forbids({Restraint::Move, Restraint::Drive}, RestraintFrom::Waiting, "adhesive cures")};
    screen.triggers = {{QStringLiteral("camera-calibration"), Fact::ScreenCamera}};

    OperationSpec camera =
        operation("camera-calibration", "Calibrate the camera", Skill::Glass, Scope::Car);
    camera.safety = true;
    camera.needs = {Restraint::Drive};
    camera.readings = {choice("result", "good", "poor")};

    OperationSpec touch = operation("touch-in", "Touch in", Skill::SmartRepair, Scope::Place);
    touch.photos = {photo(PhotoMoment::After)};
    touch.placeKinds = {PlaceKind::Panel};
    touch.refer = QStringList{QStringLiteral("Rust at an edge: painted.")};

    return {screen, camera, touch};
}

FindingRule rule(const char* id, std::vector<PlaceKind> kinds, std::vector<Condition> conditions,
                 QStringList opens)
{
    FindingRule made;
    made.id = QString::fromLatin1(id);
    made.placeKinds = std::move(kinds);
    made.conditions = std::move(conditions);
    made.opens = std::move(opens);
    return made;
}

} // namespace

Catalogue smallCatalogue()
{
    Catalogue catalogue;
    catalogue.title = QStringLiteral("A catalogue in small");
    catalogue.standingLine = QStringLiteral("Follow the maker's data.");
    catalogue.hash = QStringLiteral("small");
    for (const auto& part : {baseline(), wheelWork(), mechanicalWork(), glassAndPaint()})
        catalogue.operations.insert(catalogue.operations.end(), part.begin(), part.end());

    FindingRule left = rule("left", {PlaceKind::Panel}, {}, {});
    left.remedies = {Remedy::Leave};
    FindingRule high = rule("high-voltage", {PlaceKind::HighVoltage}, {Condition::Broken},
                            names({"high-voltage-repair"}));
    high.ifFact = Fact::TractionBattery;
    catalogue.rules = {
        left,
        high,
        rule("kerbed", {PlaceKind::Wheel}, {Condition::Kerbed}, names({"wheel-refurb"})),
        rule("cracked-wheel", {PlaceKind::Wheel}, {Condition::Crack}, names({"wheel-replace"})),
        rule("tyre", {PlaceKind::Tyre}, {Condition::Cut, Condition::Bulge, Condition::Worn},
             names({"tyre-fit"})),
        rule("brakes", {PlaceKind::Brake}, {Condition::Worn}, names({"brake-pads"})),
        rule("steering", {PlaceKind::Steering}, {Condition::Loose}, names({"steering-part"})),
        rule("glass", {PlaceKind::Glass}, {Condition::Crack}, names({"windscreen-fit"})),
        rule("paint", {PlaceKind::Panel}, {Condition::Scratch, Condition::Chip},
             names({"touch-in"})),
    };
    for (const char* place : {"brakes-front", "brakes-rear", "steering"})
        catalogue.safetyPlaces.push_back({at(place), QStringLiteral("inspection"), {}});
    for (const auto& places : {tyres, wheels})
        for (const PlaceId& place : places)
            catalogue.safetyPlaces.push_back({place, QStringLiteral("tyre-survey"), {}});
    catalogue.safetyPlaces.push_back(
        {at("traction-battery"), QStringLiteral("battery-check"), Fact::TractionBattery});
    catalogue.tread = {30, LimitOwner::House, QStringLiteral("house default"),
                       QStringLiteral("tyre-fit")};
    return catalogue;
}

} // namespace ramplight::test
