// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Entries against the rules of what is seen of a car, measured and read off it, and corrected.
namespace ramplight::test {

namespace {

FactsCorrected factsOf(Workbench& b, const CarId& id)
{
    const CarState car = b.car(id);
    return {car.facts, car.safetyPlaces, QStringLiteral("looked again"), {}};
}

/// A new screen with a camera behind it: its calibration is due, and the fact is taken back.
std::pair<CarId, FactsCorrected> withoutItsCamera(Workbench& b)
{
    const CarId id = b.appraised(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
    b.found(id, "windscreen", Condition::Crack);
    b.close(id, b.open(id, "windscreen-fit"));
    FactsCorrected event = factsOf(b, id);
    event.facts.has = {Fact::CombustionEngine};
    return {id, event};
}

OperationWithdrawn calibrationGoes(Workbench& b, const CarId& id)
{
    return {b.open(id, "camera-calibration"), QStringLiteral("looked again")};
}

/// A worn brake whose photo was attached when it was found.
FindingCorrected wornNoMore(Workbench& b, const CarId& id, const PhotoId& evidence)
{
    FindingCorrected event;
    event.finding = b.found(id, "brakes-front", Condition::Worn);
    event.data = finding("brakes-front", Condition::Worn);
    event.stands = false;
    event.reason = QStringLiteral("not worn");
    event.evidence = evidence;
    return event;
}

CarriedOver from(const CarId& other, PersonId by, Moment when)
{
    return {other, by, when};
}

} // namespace

std::vector<RuleBreaker> seenBreakers()
{
    return {
        {RefusalId::ValueOutOfRange, "ten keys", "says of a car what cannot be",
         [](Workbench& b) {
             CarArrived event = forgedArrival(b);
             event.facts.keys = 10;
             return Forged{newCar(b), b.appraiser, {event}};
         }},
        {RefusalId::ValueOutOfRange, "corrected to ten keys", "says of a car what cannot be",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             FactsCorrected event = factsOf(b, id);
             event.facts.keys = 10;
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::SecondPersonNeeded, "safety work taken away by who recorded the fact",
         "by a fact what safety hangs on without a second person",
         [](Workbench& b) {
             auto [id, event] = withoutItsCamera(b);
             event.evidence = b.photo();
             return Forged{id, b.appraiser, {event, calibrationGoes(b, id)}};
         }},
        {RefusalId::EvidenceMissing, "safety work taken away and nothing shown",
         "by a fact what safety hangs on without a photo",
         [](Workbench& b) {
             const auto [id, event] = withoutItsCamera(b);
             return Forged{id, b.manager, {event, calibrationGoes(b, id)}};
         }},
        {RefusalId::SecondPersonNeeded, "safety work that was still to come taken away alone",
         "by a fact what safety hangs on without a second person",
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
             b.found(id, "windscreen", Condition::Crack);
             FactsCorrected event = factsOf(b, id);
             event.facts.has = {Fact::CombustionEngine};
             event.evidence = b.photo();
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::SecondPersonNeeded, "safety places taken away alone",
         "by a fact what safety hangs on without a second person",
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             FactsCorrected event = factsOf(b, id);
             event.facts.has = {};
             std::erase_if(event.safetyPlaces,
                           [](const SafetyPlace& place) { return place.ifFact.has_value(); });
             event.evidence = b.photo();
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::CarMissing, "facts of a car that was not joined with it",
         "from a car that was not joined with it",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             FactsCorrected event = factsOf(b, id);
             event.facts.has.push_back(Fact::ScreenCamera);
             event.carriedFrom = b.bringIn();
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::SecondPersonNeeded, "a fact taken away with a second entry",
         "takes from a second entry what is said otherwise here",
         [](Workbench& b) {
             auto [id, event] = withoutItsCamera(b);
             event.carriedFrom = b.bringIn();
             return Forged{id, b.manager, {DuplicateLinked{event.carriedFrom, "K2"}, event}};
         }},
        {RefusalId::EvidenceNotFresh, "shown by the photo of the finding itself",
         "by a photo that was on the car before",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const PhotoId before = b.photo();
             b.must(b.appraiser, id,
                    car::AttachPhoto{before, PhotoMoment::Before, at("brakes-front"), {}, {}});
             return Forged{id, b.technician, {wornNoMore(b, id, before)}};
         }},
        {RefusalId::SafetyCannotBeLeft, "safety work withdrawn beside a corrected number of keys",
         "takes a safety item away without a correction",
         [](Workbench& b) {
             const CarId id = b.appraised();
             FactsCorrected event = factsOf(b, id);
             event.facts.keys = 1;
             return Forged{id,
                           b.manager,
                           {event, OperationWithdrawn{b.open(id, "inspection"),
                                                      QStringLiteral("not needed")}}};
         }},
        {RefusalId::SafetyCannotBeLeft, "a safety place that the car should have",
         "leaves out a safety place: steering",
         [](Workbench& b) {
             return Forged{newCar(b), b.appraiser, {forgedArrival(b)}};
         }},
        {RefusalId::SafetyCannotBeLeft, "brought in without its inspection",
         "without the work that each gets: inspection",
         [](Workbench& b) {
             CarArrived event = forgedArrival(b);
             event.safetyPlaces = b.car(b.bringIn()).safetyPlaces;
             return Forged{newCar(b), b.appraiser, {event}};
         }},
        {RefusalId::SafetyCannotBeLeft, "a safety finding that no work answers",
         "without the work that is said to answer it",
         [](Workbench& b) {
             const CarId id = b.appraised();
             FindingRecorded event = forgedFinding(b, id, "brakes-front");
             event.data.condition = Condition::Worn;
             event.rule = QStringLiteral("brakes");
             event.undecided = false;
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::ValueOutOfRange, "a thousand of them", "finds what cannot be",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             FindingRecorded event = forgedFinding(b, id, "roof");
             event.data.count = 1000;
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::OperationUnknown, "found during work that is not there",
         "during work that is not there",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             FindingRecorded event = forgedFinding(b, id, "roof");
             event.during = OperationId{99};
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::PersonUnknown, "found in somebody else's name",
         "by somebody else than who writes it",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             FindingRecorded event = forgedFinding(b, id, "roof");
             event.foundBy = {b.checker};
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::CarMissing, "brought over from a car that was not joined",
         "brings something over from a car that was not joined",
         [](Workbench& b) {
             const CarId other = b.bringIn();
             return Forged{
                 b.bringIn(),
                 b.manager,
                 {PlacesFoundSound{{at("steering")}, from(other, b.appraiser, b.clock.now())}}};
         }},
        {RefusalId::SameCar, "joined with a car that goes on", "which was never closed as it",
         [](Workbench& b) {
             const CarId other = b.bringIn();
             return Forged{b.bringIn(), b.manager, {DuplicateLinked{other, QStringLiteral("K")}}};
         }},
        {RefusalId::SecondEntryOpen, "ended while a firm has its wheels",
         "ends an entry whose work an outside firm has",
         [](Workbench& b) {
             const CarId other = b.bringIn();
             const CarId id = b.appraised();
             b.found(id, "wheel-front-left", Condition::Kerbed);
             b.must(b.wheels, id,
                    car::SendOut{b.open(id, "wheel-refurb"),
                                 {"Cove Wheels", QDate(2031, 3, 19), 1, {}, false, {}}});
             return Forged{id, b.manager, {CarLeft{LeavingHow::EnteredTwice, {}, other}}};
         }},
        {RefusalId::SameCar, "closed as a car that knows nothing of it",
         "which was never joined with it",
         [](Workbench& b) {
             const CarId other = b.bringIn();
             return Forged{b.bringIn(), b.manager, {CarLeft{LeavingHow::EnteredTwice, {}, other}}};
         }},
        {RefusalId::ReasonMissing, "called a slip long afterwards", "calls a slip what was none",
         [](Workbench& b) {
             const CarId id = b.appraised();
             FindingCorrected event;
             event.finding = b.found(id, "roof", Condition::Scratch);
             event.data = finding("roof", Condition::Scratch);
             event.stands = false;
             event.slip = true;
             event.reason = QStringLiteral("never meant");
             return Forged{id, b.appraiser, {event}};
         }},
        {RefusalId::PlaceUnknown, "the tread of a roof", "the tread of what is no tyre",
         [](Workbench& b) {
             TyreRecorded event;
             event.place = at("roof");
             event.tread = Tread{80, 80, 80};
             return Forged{b.bringIn(), b.appraiser, {event}};
         }},
        {RefusalId::ReadingUnknown, "a tread that no reading says",
         "says of a tyre what nobody reads",
         [](Workbench& b) {
             const CarId id = b.appraised();
             TyreRecorded event;
             event.place = at("tyre-front-left");
             event.tread = Tread{80, 80, 80};
             event.during = startedBy(b, id, "tyre-survey", b.wheels);
             return Forged{id, b.wheels, {event}};
         }},
        {RefusalId::NotStarted, "a new tyre that nobody fitted", "fits a tyre without any work",
         [](Workbench& b) {
             TyreRecorded event;
             event.place = at("tyre-front-left");
             event.fitted = true;
             return Forged{b.bringIn(), b.appraiser, {event}};
         }},
        {RefusalId::ReadingStands, "a tyre fitted, and another one's tread with it",
         "readings outdated that are not of the tyre",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId survey = startedBy(b, id, "tyre-survey", b.wheels);
             b.must(b.wheels, id,
                    car::TakeReading{survey, QStringLiteral("tread"), at("tyre-rear-left"),
                                     number(12)});
             TyreRecorded event;
             event.place = at("tyre-front-left");
             event.fitted = true;
             event.outdated = {b.operation(id, survey).readings.front().id};
             return Forged{id, b.wheels, {event}};
         }},
        {RefusalId::ValueOutOfRange, "paint at one point", "measures paint that cannot be",
         [](Workbench& b) {
             return Forged{b.bringIn(), b.appraiser, {PaintDepthRecorded{at("roof"), {100}}}};
         }},
        {RefusalId::ValueOutOfRange, "an odometer at nothing", "what it cannot show",
         [](Workbench& b) {
             OdometerRead event;
             event.lowerWhy = QStringLiteral("new cluster");
             return Forged{b.bringIn(), b.appraiser, {event}};
         }},
        {RefusalId::DraftDecidedAlready, "the same words read again",
         "has the same words read again",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             SpokenRound round;
             round.transcript = {QStringLiteral("walk")};
             b.must(b.appraiser, id, car::TakeSpeech{round});
             return Forged{id, b.appraiser, {WalkRoundRead{round}}};
         }},
        {RefusalId::DraftUnknown, "kept, and not recorded", "keeps a draft without recording it",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             SpokenRound round;
             round.transcript = {QStringLiteral("walk")};
             round.drafts.resize(1);
             round.drafts.front().data.place = at("roof");
             b.must(b.appraiser, id, car::TakeSpeech{round});
             return Forged{id,
                           b.appraiser,
                           {DraftDecided{round.transcript, 0, DraftEnd::Kept, FindingId{9}}}};
         }},
        {RefusalId::PlaceUnknown, "a photo of no place", "a place that no car has: funnel",
         [](Workbench& b) {
             PhotoAttached event;
             event.photo = b.photo();
             event.place = at("funnel");
             return Forged{b.bringIn(), b.appraiser, {event}};
         }},
        {RefusalId::PlaceUnknown, "taken back at a place that nobody looked at",
         "takes another finding back than there is",
         [](Workbench& b) {
             const CarId id = b.appraised();
             FindingCorrected event;
             event.finding = b.found(id, "roof", Condition::Scratch);
             event.data = finding("steering", Condition::Scratch);
             event.stands = false;
             event.reason = QStringLiteral("not there");
             event.evidence = b.photo();
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::AlreadyReleased, "a low tyre found after the release, and it stays released",
         "leaves a car released that it changes",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             FindingRecorded event = forgedFinding(b, id, "tyre-front-left");
             event.data.condition = Condition::Worn;
             return Forged{id, b.appraiser, {event}};
         }},
    };
}

} // namespace ramplight::test
