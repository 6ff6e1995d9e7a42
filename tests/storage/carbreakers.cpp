// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Entries against the rules of the house and of a car as a whole.
namespace ramplight::test {

CarArrived forgedArrival(Workbench& bench)
{
    CarArrived event;
    event.identity.stockNumber = bench.command().text;
    event.identity.make = QStringLiteral("Halden");
    event.identity.model = QStringLiteral("Skerry");
    event.promised = QDate(2031, 3, 20);
    return event;
}

CarId newCar(Workbench& bench)
{
    return CarId{QStringLiteral("another-") + bench.command().text};
}

FindingRecorded forgedFinding(Workbench& bench, const CarId& car, const char* place)
{
    FindingRecorded event;
    event.finding = FindingId{bench.car(car).nextFinding};
    event.data = finding(place, Condition::Scratch);
    event.undecided = true;
    return event;
}

PersonId leaver(Workbench& bench)
{
    const auto number = bench.ledger.site().value().people.size();
    const PersonId who =
        bench.hire(QStringLiteral("Odd %1").arg(number), {Skill::Valet}, {Right::Work});
    bench.ask(bench.manager, site::ChangePerson{who, {Skill::Valet}, {Right::Work}, false});
    return who;
}

namespace {

FindingCorrected gone(FindingId id, const char* place, const QString& reason)
{
    FindingCorrected event;
    event.finding = id;
    event.data = finding(place, Condition::Worn);
    event.stands = false;
    event.reason = reason;
    return event;
}

Forged atSite(PersonId by, std::vector<SiteEvent> events)
{
    return {{}, by, {}, std::move(events)};
}

/// Walk-round with one draft, read and kept.
CarId spokenOf(Workbench& b)
{
    const CarId id = b.bringIn();
    SpokenRound round;
    round.transcript = {QStringLiteral("walk")};
    round.drafts.resize(1);
    round.drafts.front().data.place = at("roof");
    b.must(b.appraiser, id, car::TakeSpeech{round});
    b.must(b.appraiser, id,
           car::RecordFinding{round.drafts.front().data, {}, {round.transcript, 0}});
    return id;
}

/// Everything on the car is done by one person, who may release as well.
Forged doneByOneAlone(Workbench& b)
{
    HouseRules rules;
    rules.finalCheckByWorker = true;
    b.ask(b.manager, site::SetHouseRules{rules});
    const PersonId one =
        b.hire(QStringLiteral("Una"), {Skill::Mechanical, Skill::Wheels, Skill::Valet},
               {Right::Appraise, Right::Work, Right::Check, Right::Manage, Right::Release});
    const CarId id = b.appraised();
    for (const char* kind : {"arrival-check", "inspection", "tyre-survey", "valet", "final-check"})
        b.close(id, b.open(id, kind), one);
    return {id, one, {CarReleased{b.car(id).seq}}};
}

} // namespace

std::vector<RuleBreaker> siteBreakers()
{
    const QDate day(2031, 9, 1);
    return {
        {RefusalId::NotAllowed, "rules by a painter", "without the right to manage",
         [](Workbench& b) { return atSite(b.painter, {HouseRulesSet{}}); }},
        {RefusalId::NotAllowed, "rights for oneself", "without the right to manage",
         [](Workbench& b) {
             return atSite(
                 b.mechanic,
                 {PersonChanged{
                     b.mechanic, {Skill::Mechanical}, {Right::Work, Right::Release}, true}});
         },
         nullptr, true},
        {RefusalId::NotAllowed, "somebody else's PIN", "without the right to manage",
         [](Workbench& b) {
             return atSite(b.mechanic, {AccessChanged{b.manager, QStringLiteral("pin")}});
         }},
        {RefusalId::PersonUnknown, "rules by nobody", "by nobody of this site",
         [](Workbench&) { return atSite(PersonId{77}, {HouseRulesSet{}}); }},
        {RefusalId::PersonUnknown, "a person who is not there", "person who is not there",
         [](Workbench& b) {
             return atSite(b.manager, {PersonChanged{PersonId{77}, {}, {Right::Manage}, true}});
         },
         nullptr, true},
        {RefusalId::AlreadySetUp, "set up again", "sets up a workshop that is set up",
         [](Workbench& b) {
             return atSite(b.manager, {SiteSetUp{QStringLiteral("Again"), false, {}}});
         },
         nullptr, true},
        {RefusalId::LastManager, "the last one goes", "leaves nobody who could manage",
         [](Workbench& b) {
             b.ask(b.manager, site::ChangePerson{b.checker, {}, {Right::Check}, true});
             return atSite(b.manager, {PersonChanged{b.manager, {}, {}, true}});
         },
         nullptr, true},
        {RefusalId::NameMissing, "a bay without one", "a bay without a name",
         [](Workbench& b) {
             return atSite(b.manager, {BaySet{{BayId{9}, 9, {}, BayKind::Any, true}}});
         }},
        {RefusalId::BayNumberTaken, "a second bay 1", "takes the number of another bay",
         [](Workbench& b) {
             return atSite(b.manager,
                           {BaySet{{BayId{9}, 1, QStringLiteral("Twice"), BayKind::Any, true}}});
         }},
        {RefusalId::ToolNumberTaken, "a second T 7", "takes the number of another tool",
         [day](Workbench& b) {
             b.tool("T 7", ToolKind::TorqueWrench, day);
             return atSite(b.manager, {ToolSet{{ToolId{9}, QStringLiteral("t 7"),
                                                ToolKind::DialGauge, day, true}}});
         }},
        {RefusalId::RuleOutOfRange, "never signed out", "sets a rule that cannot be",
         [](Workbench& b) {
             HouseRulesSet set;
             set.rules.lockSeconds = 1'000'000;
             return atSite(b.manager, {set});
         },
         nullptr, true},
        {RefusalId::RuleOutOfRange, "away until the day before",
         "sets a person's times that cannot be",
         [day](Workbench& b) {
             return atSite(b.manager,
                           {PersonTimesSet{b.painter, {{}, {{day, day.addDays(-1)}}, {}}}});
         }},
        {RefusalId::BayUnknown, "a bay that is not there", "changes a bay that is not there",
         [](Workbench& b) {
             return atSite(b.manager, {BaySet{{BayId{700}, 70, QStringLiteral("Far off"),
                                               BayKind::Any, false}}});
         }},
        {RefusalId::ToolUnknown, "a tool that is not there", "changes a tool that is not there",
         [day](Workbench& b) {
             return atSite(b.manager, {ToolSet{{ToolId{700}, QStringLiteral("X 1"),
                                                ToolKind::DialGauge, day, false}}});
         }},
        {RefusalId::RuleOutOfRange, "minutes that fall", "changes work to what cannot be",
         [](Workbench& b) {
             OperationAdjusted event;
             event.adjustment.operation = QStringLiteral("valet");
             event.adjustment.minutes = Minutes{30, 20, 10};
             return atSite(b.manager, {event});
         },
         nullptr, true},
        {RefusalId::RuleOutOfRange, "one limit twice", "sets one limit of the house twice",
         [](Workbench& b) {
             HouseRulesSet set;
             set.rules.limits = {{QStringLiteral("least-tread"), 30},
                                 {QStringLiteral("least-tread"), 10}};
             return atSite(b.manager, {set});
         },
         nullptr, true},
        {RefusalId::ValueOutOfRange, "an alarm about nothing", "raises an alarm about nothing",
         [](Workbench& b) {
             return atSite({}, {PinAlarm{b.painter, 0}});
         }},
        {RefusalId::PersonUnknown, "a PIN by somebody who left", "by nobody of this site",
         [](Workbench& b) {
             const PersonId who = leaver(b);
             return atSite(who, {AccessChanged{who, QStringLiteral("pin")}});
         }},
    };
}

std::vector<RuleBreaker> carBreakers()
{
    return {
        {RefusalId::CarExists, "brought in twice", "brings in a car that is here already",
         [](Workbench& b) {
             return Forged{b.bringIn(), b.appraiser, {forgedArrival(b)}};
         }},
        {RefusalId::CarMissing, "never brought in", "a car that was never brought in",
         [](Workbench& b) {
             const CarId id = newCar(b);
             return Forged{id, b.appraiser, {forgedFinding(b, id, "roof")}};
         }},
        {RefusalId::StockNumberTaken, "one number on two cars", "one stock number with car another",
         [](Workbench& b) {
             CarArrived event = forgedArrival(b);
             event.identity.stockNumber = b.car(b.bringIn()).identity.stockNumber;
             return Forged{CarId{QStringLiteral("another")}, b.appraiser, {event}};
         },
         "one_car_per_stock_number"},
        {RefusalId::PhotosKept, "photos of a car in prep", "removes photos that were to be kept",
         [](Workbench& b) {
             const CarId id = b.appraised();
             PhotosRemoved event;
             event.photos = {b.photo()};
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::VinMalformed, "a VIN that is none", "identification number that is none",
         [](Workbench& b) {
             CarArrived event = forgedArrival(b);
             event.identity.vin = QStringLiteral("NOTAVIN");
             return Forged{newCar(b), b.appraiser, {event}};
         }},
        {RefusalId::FieldMissing, "no model", "without its number, make, model",
         [](Workbench& b) {
             CarArrived event = forgedArrival(b);
             event.identity.model.clear();
             return Forged{newCar(b), b.appraiser, {event}};
         }},
        {RefusalId::NotAllowed, "brought in by a seller", "without the right to appraise",
         [](Workbench& b) {
             return Forged{newCar(b), b.seller, {forgedArrival(b)}};
         }},
        {RefusalId::PersonUnknown, "found by nobody", "by nobody of this site",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             return Forged{id, PersonId{77}, {forgedFinding(b, id, "roof")}};
         }},
        {RefusalId::PersonUnknown, "found by somebody who left", "did not work here any more",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             return Forged{id, leaver(b), {forgedFinding(b, id, "roof")}};
         }},
        {RefusalId::PlaceUnknown, "found on no place", "a place that no car has",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             return Forged{id, b.appraiser, {forgedFinding(b, id, "funnel")}};
         }},
        {RefusalId::FindingUnknown, "corrected, never found", "corrects a finding that is not",
         [](Workbench& b) {
             return Forged{
                 b.bringIn(), b.appraiser, {gone(FindingId{9}, "roof", QStringLiteral("no"))}};
         }},
        {RefusalId::ReasonMissing, "corrected without", "corrects without a reason",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId found = b.found(id, "roof", Condition::Scratch);
             return Forged{id, b.manager, {gone(found, "roof", {})}};
         }},
        {RefusalId::SecondPersonNeeded, "a safety finding, by its finder",
         "corrects a safety finding without a second person",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId found = b.found(id, "brakes-front", Condition::Worn);
             FindingCorrected event = gone(found, "brakes-front", QStringLiteral("no"));
             event.evidence = b.photo();
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::SecondPersonNeeded, "a fact, by its recorder, behind another's correction",
         "without a second person",
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             CarFacts facts = b.car(id).facts;
             facts.keys = 1;
             b.must(b.checker, id, car::CorrectFacts{facts, QStringLiteral("counted"), b.photo()});
             FactsCorrected event;
             event.facts = facts;
             event.facts.has = {Fact::CombustionEngine};
             event.safetyPlaces = b.car(b.bringIn()).safetyPlaces;
             event.reason = QStringLiteral("not electric");
             event.evidence = b.photo();
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::EvidenceMissing, "a safety finding, without a photo",
         "corrects a safety finding without a photo",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId found = b.found(id, "brakes-front", Condition::Worn);
             return Forged{id, b.manager, {gone(found, "brakes-front", QStringLiteral("no"))}};
         }},
        {RefusalId::EvidenceMissing, "a scratch that is not there, without a photo",
         "corrects a finding without a photo",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId found = b.found(id, "roof", Condition::Scratch);
             return Forged{id, b.manager, {gone(found, "roof", QStringLiteral("dirt"))}};
         }},
        {RefusalId::EvidenceNotFresh, "a scratch corrected by a photo of before",
         "corrects a finding by a photo that was on the car before",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId found = b.found(id, "roof", Condition::Scratch);
             const PhotoId old = b.photo();
             b.must(b.appraiser, id, car::AttachPhoto{old, PhotoMoment::Before, {}, {}, found});
             FindingCorrected event = gone(found, "roof", QStringLiteral("dirt"));
             event.evidence = old;
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::EvidenceMissing, "a number of keys without a photo",
         "corrects a fact without a photo",
         [](Workbench& b) {
             const CarId id = b.appraised();
             FactsCorrected event;
             event.facts = b.car(id).facts;
             event.facts.keys += 1;
             event.safetyPlaces = b.car(id).safetyPlaces;
             event.reason = QStringLiteral("counted");
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::AlreadyAppraised, "finished twice", "finishes an appraisal that was finished",
         [](Workbench& b) {
             return Forged{b.appraised(), b.appraiser, {AppraisalFinished{}}};
         }},
        {RefusalId::AlreadyAppraised, "sound afterwards", "finds places sound after",
         [](Workbench& b) {
             return Forged{b.appraised(), b.appraiser, {PlacesFoundSound{{at("roof")}}}};
         }},
        {RefusalId::ValueOutOfRange, "sound with a finding", "sound that has a finding",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.found(id, "roof", Condition::Scratch);
             return Forged{id, b.appraiser, {PlacesFoundSound{{at("roof")}}}};
         }},
        {RefusalId::TyreMarkMalformed, "week 51 of year 9 by three digits", "cannot stand there",
         [](Workbench& b) {
             TyreRecorded event;
             event.place = at("tyre-front-left");
             event.marking.dateCode = QStringLiteral("519");
             return Forged{b.bringIn(), b.appraiser, {event}};
         }},
        {RefusalId::OdometerLower, "turned back", "reads less from the odometer",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.must(b.appraiser, id, car::ReadOdometer{48'200, DistanceUnit::Miles});
             return Forged{id, b.mechanic, {OdometerRead{40'000, DistanceUnit::Miles, {}, {}}}};
         }},
        {RefusalId::OdometerLower, "turned back as of before",
         "dates a reading of the odometer that it does not correct",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.must(b.appraiser, id, car::ReadOdometer{48'200, DistanceUnit::Miles});
             OdometerRead event{40'000, DistanceUnit::Miles, {}, {}};
             event.readAt = b.clock.now();
             return Forged{id, b.mechanic, {event}};
         }},
        {RefusalId::PhotoUnknown, "no photo", "attaches no photo",
         [](Workbench& b) {
             return Forged{b.bringIn(), b.appraiser, {PhotoAttached{}}};
         }},
        {RefusalId::DraftUnknown, "of no walk-round", "a draft that is not there",
         [](Workbench& b) {
             return Forged{b.bringIn(),
                           b.appraiser,
                           {DraftDecided{{QStringLiteral("walk")}, 0, DraftEnd::Dropped, {}}}};
         }},
        {RefusalId::DraftDecidedAlready, "dropped after it was kept", "a draft that was decided",
         [](Workbench& b) {
             return Forged{spokenOf(b),
                           b.appraiser,
                           {DraftDecided{{QStringLiteral("walk")}, 0, DraftEnd::Dropped, {}}}};
         }},
        {RefusalId::SameCar, "its own double", "calls a car its own double",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             return Forged{id, b.manager, {DuplicateLinked{id, QStringLiteral("K1")}}};
         }},
        {RefusalId::BayUnknown, "a bay that is not there", "a bay that is not there",
         [](Workbench& b) {
             return Forged{b.appraised(), b.manager, {CarMoved{BayId{900}, {}}}};
         }},
        {RefusalId::BayTaken, "two cars in one bay", "stands in one bay with car car-1",
         [](Workbench& b) {
             b.must(b.manager, b.appraised(), car::MoveCar{b.lift, {}});
             return Forged{b.appraised(), b.manager, {CarMoved{b.lift, {}}}};
         },
         "one_car_per_bay"},
        {RefusalId::CarHeld, "an open safety item", "releases a held car: ",
         [](Workbench& b) {
             return Forged{b.appraised(), b.seller, {CarReleased{3}}};
         }},
        {RefusalId::NotAllowed, "released by a mechanic", "without the right to release",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             b.clock.pass(120);
             return Forged{id, b.mechanic, {CarReleased{b.car(id).seq}}};
         }},
        {RefusalId::ReleaserAlone, "one name under all of it", "by the only name under",
         doneByOneAlone, nullptr, true},
        {RefusalId::AlreadyReleased, "released twice", "to a car that was released",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             return Forged{id, b.seller, {CarReleased{b.car(id).seq}}};
         }},
        {RefusalId::AlreadyReleased, "found, and released all the same",
         "leaves a car released that it changes",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             return Forged{id, b.appraiser, {forgedFinding(b, id, "roof")}};
         }},
        {RefusalId::CarGone, "after it left", "to a car that had left",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.must(b.manager, id, car::LeaveUnreleased{LeavingHow::Scrap, QStringLiteral("rust")});
             return Forged{id, b.appraiser, {forgedFinding(b, id, "roof")}};
         }},
        {RefusalId::NotGone, "brought back, never gone", "brings a car back that did not leave",
         [](Workbench& b) {
             return Forged{b.bringIn(), b.manager, {CarBroughtBack{QStringLiteral("why")}}};
         }},
        {RefusalId::NotAllowed, "let go by a seller", "without the right to manage",
         [](Workbench& b) {
             return Forged{
                 b.bringIn(), b.seller, {CarLeft{LeavingHow::Trade, QStringLiteral("sold"), {}}}};
         }},
    };
}

} // namespace ramplight::test
