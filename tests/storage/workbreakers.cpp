// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Entries against the rules of work on an operation.
namespace ramplight::test {

CarEvent forgedStart(Workbench& bench, const CarId& car, OperationId operation, PersonId who)
{
    WorkStarted event;
    event.operation = operation;
    event.segment = SegmentId{bench.car(car).nextSegment};
    event.person = who;
    event.at = bench.clock.now();
    return event;
}

std::vector<CarEvent> forgedClosing(Workbench& bench, const CarId& car, OperationId operation,
                                    SignatureMeaning meaning)
{
    std::vector<CarEvent> events;
    for (const Segment& segment : bench.operation(car, operation).segments)
        if (segment.running())
            events.emplace_back(
                WorkStopped{operation, segment.id, bench.clock.now(), StopKind::Finished});
    CarState after = bench.car(car);
    for (const CarEvent& event : events)
        apply(after, {after.seq + 1, bench.clock.now(), {}, {}, event});
    events.emplace_back(
        OperationSigned{operation, meaning, after.operation(operation)->minutes(), {}});
    events.emplace_back(OperationClosed{operation, {}});
    return events;
}

ReadingTaken forgedReading(Workbench& bench, const CarId& car, OperationId operation,
                           const char* key, ReadingValue value, ReadingOutcome outcome)
{
    ReadingTaken event;
    event.operation = operation;
    event.reading = ReadingId{bench.car(car).nextReading};
    event.key = QString::fromLatin1(key);
    event.value = std::move(value);
    event.outcome = outcome;
    return event;
}

namespace {

Forged startOf(Workbench& b, const CarId& id, const char* kind, PersonId who)
{
    return {id, who, {forgedStart(b, id, b.open(id, kind), who)}};
}

} // namespace

OutsideWork coveWorks()
{
    return {QStringLiteral("Cove Works"), QDate(2031, 3, 19), 1, {}, false, {}};
}

CarId isolatedCar(Workbench& b)
{
    const CarId id = b.appraised(carWith({Fact::TractionBattery}));
    b.found(id, "traction-battery", Condition::Broken);
    const OperationId operation = startedBy(b, id, "high-voltage-repair", b.mechanic);
    b.must(b.mechanic, id, car::SetIsolation{operation, QStringLiteral("key safe")});
    return id;
}

OperationOpened forgedOpening(Workbench& b, const CarId& id, const char* kind, const char* place)
{
    OperationOpened event;
    event.operation = OperationId{b.car(id).nextOperation};
    event.spec = b.spec(kind);
    event.place = at(place);
    event.origin = Origin::ByHand;
    event.reason = QStringLiteral("why not");
    event.catalogueHash = b.catalogue.hash;
    return event;
}

OperationId startedBy(Workbench& b, const CarId& id, const char* kind, PersonId who)
{
    const OperationId operation = b.open(id, kind);
    b.start(id, operation, who);
    return operation;
}

std::vector<RuleBreaker> workBreakers()
{
    return {
        {RefusalId::WrongSkill, "a painter under the car", "may not do that work (wrong-skill)",
         [](Workbench& b) { return startOf(b, b.appraised(), "inspection", b.painter); }},
        {RefusalId::SpecialityMissing, "without the speciality", "(speciality-missing)",
         [](Workbench& b) {
             b.spec("valet").speciality = QStringLiteral("dry-ice");
             return startOf(b, b.appraised(), "valet", b.painter);
         },
         nullptr, true},
        {RefusalId::QualificationMissing, "never held", "without the qualification for",
         [](Workbench& b) {
             b.spec("valet").qualification = Qualification::Refrigerant;
             b.ask(b.manager, site::SetCompetence{b.painter, {}, {}});
             return startOf(b, b.appraised(), "valet", b.painter);
         },
         nullptr, true},
        {RefusalId::QualificationOver, "over since yesterday", "without the qualification for",
         [](Workbench& b) {
             b.spec("valet").qualification = Qualification::Refrigerant;
             const QDate over = b.today().addDays(-1);
             b.ask(b.manager,
                   site::SetCompetence{b.painter, {{Qualification::Refrigerant, over}}, {}});
             return startOf(b, b.appraised(), "valet", b.painter);
         },
         nullptr, true},
        {RefusalId::OperationUnknown, "work that is not there", "an operation that is not open",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.painter, {CautionsRead{OperationId{99}}}};
         }},
        {RefusalId::OperationNotOpen, "work that is closed", "an operation that is not open",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = b.open(id, "valet");
             b.close(id, operation);
             b.clock.pass(1);
             return Forged{id, b.painter, {forgedStart(b, id, operation, b.painter)}};
         }},
        {RefusalId::OperationNotClosed, "reopened while it waits", "reopens what was not closed",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id,
                           b.manager,
                           {OperationReopened{b.open(id, "valet"), QStringLiteral("why"), {}, {}}}};
         }},
        {RefusalId::OperationRunning, "left while somebody is on it", "that somebody is on",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             return Forged{id, b.manager, {OperationLeft{operation, QStringLiteral("dusty")}}};
         }},
        {RefusalId::AlreadyRunning, "started twice", "starts a second timer of one person",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             return Forged{id, b.painter, {forgedStart(b, id, operation, b.painter)}};
         },
         "one_running_segment_per_person"},
        {RefusalId::PersonBusy, "on two cars at once", "and on car car-1 at one time",
         [](Workbench& b) {
             startedBy(b, b.appraised(), "valet", b.painter);
             b.clock.pass(1);
             return startOf(b, b.appraised(), "valet", b.painter);
         },
         "one_running_segment_per_person"},
        {RefusalId::PersonBusy, "somebody else's timer", "starts somebody else's timer",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {forgedStart(b, id, b.open(id, "valet"), b.painter)}};
         }},
        {RefusalId::NotRunning, "stopped without running", "stops a timer that does not run",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id,
                 b.painter,
                 {WorkStopped{b.open(id, "valet"), SegmentId{7}, b.clock.now(), StopKind::Paused}}};
         }},
        {RefusalId::MinutesOverlap, "minutes into the next work", "at one time",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             b.clock.pass(5);
             b.must(b.painter, id, car::PauseWork{operation, {}, StopKind::Paused});
             b.clock.pass(1);
             startedBy(b, b.appraised(), "valet", b.painter);
             return Forged{
                 id,
                 b.painter,
                 {MinutesCorrected{operation, SegmentId{1}, 60, QStringLiteral("longer")}}};
         },
         nullptr, true},
        {RefusalId::ValueOutOfRange, "minutes below zero", "minutes below zero",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             b.must(b.painter, id, car::PauseWork{operation, {}, StopKind::Paused});
             return Forged{
                 id,
                 b.painter,
                 {MinutesCorrected{operation, SegmentId{1}, -60, QStringLiteral("less")}}};
         }},
        {RefusalId::CautionsUnread, "cautions not read", "whose cautions were not read",
         [](Workbench& b) { return startOf(b, b.appraised(), "inspection", b.mechanic); }},
        {RefusalId::NotYet, "the last check first", "starts work out of its order",
         [](Workbench& b) { return startOf(b, b.appraised(), "final-check", b.checker); }},
        {RefusalId::NotYet, "the last check signed first", "is signed out of its order",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id, b.checker,
                 forgedClosing(b, id, b.open(id, "final-check"), SignatureMeaning::CheckedTheWork)};
         }},
        {RefusalId::DoNotMove, "moved with a wheel off", "moves a car that must not be moved",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             startedBy(b, id, "tyre-fit", b.wheels);
             return Forged{id, b.manager, {CarMoved{b.lift, {}}}};
         }},
        {RefusalId::DoNotMove, "sent out with a wheel off",
         "sends a car out that must not be moved",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             startedBy(b, id, "tyre-fit", b.wheels);
             return Forged{id, b.manager, {SentOut{b.open(id, "valet"), coveWorks()}}};
         }},
        {RefusalId::DoNotDrive, "sent out on unchecked fixings",
         "sends a car out that must not be driven",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"));
             return Forged{id, b.manager, {SentOut{b.open(id, "valet"), coveWorks()}}};
         }},
        {RefusalId::Blocked, "withdrawn while a firm has it",
         "withdraws work that an outside firm has",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.must(b.manager, id, car::OpenOperation{"valet", at("car"), "stains"});
             const OperationId op = b.open(id, "valet");
             b.must(b.manager, id, car::SendOut{op, coveWorks()});
             return Forged{id, b.manager, {OperationWithdrawn{op, "not needed"}}};
         }},
        {RefusalId::DoNotMove, "a wheel off, and its work withdrawn",
         "withdraws work that keeps the car as it stands",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId cut = b.found(id, "tyre-front-left", Condition::Cut);
             const OperationId fit = startedBy(b, id, "tyre-fit", b.wheels);
             const SegmentId segment{b.car(id).nextSegment - 1};
             FindingCorrected event;
             event.finding = cut;
             event.data = finding("tyre-front-left", Condition::Cut);
             event.stands = false;
             event.reason = QStringLiteral("only a mark");
             event.evidence = b.photo();
             return Forged{id,
                           b.checker,
                           {event, WorkStopped{fit, segment, b.clock.now(), StopKind::Finished},
                            OperationWithdrawn{fit, QStringLiteral("only a mark")}}};
         }},
        {RefusalId::DoNotDrive, "driven on unchecked fixings", "drives a car that must not be",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"));
             b.must(b.manager, id,
                    car::OpenOperation{QStringLiteral("road-test"), at("car"),
                                       QStringLiteral("noise")});
             return startOf(b, id, "road-test", b.mechanic);
         }},
        {RefusalId::DoNotPower, "powered while it is apart", "powers a car that must not be",
         [](Workbench& b) { return startOf(b, isolatedCar(b), "battery-check", b.technician); }},
        {RefusalId::Blocked, "started while it is away", "starts work that is blocked",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = b.open(id, "valet");
             b.must(b.painter, id, car::SendOut{operation, coveWorks()});
             return Forged{id, b.painter, {forgedStart(b, id, operation, b.painter)}};
         }},
        {RefusalId::NotBlocked, "no part to wait for", "unblocks what waits for no part",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {OperationUnblocked{b.open(id, "valet")}}};
         }},
        {RefusalId::NotBlocked, "another day for nothing",
         "gives another day to what waits for nothing",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id, b.manager, {DueChanged{b.open(id, "valet"), QDate(2031, 3, 26), {}}}};
         }},
        {RefusalId::NotOut, "back, never out", "takes back what was not out",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {ReceivedBack{b.open(id, "valet"), {}}}};
         }},
        {RefusalId::CheckStaysInHouse, "a check given away", "gives a check away",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {SentOut{b.open(id, "final-check"), coveWorks()}}};
         }},
        {RefusalId::SafetyCannotBeLeft, "a safety item left", "leaves a safety item as it is",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id,
                           b.manager,
                           {OperationLeft{b.open(id, "inspection"), QStringLiteral("as seen")}}};
         }},
        {RefusalId::SafetyCannotBeLeft, "a safety item withdrawn",
         "takes a safety item away without a correction",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id,
                 b.manager,
                 {OperationWithdrawn{b.open(id, "inspection"), QStringLiteral("not needed")}}};
         }},
        {RefusalId::SafetyCannotBeLeft, "a safety item under a number of its own",
         "takes the number of another operation",
         [](Workbench& b) {
             const CarId id = b.appraised();
             OperationOpened event = forgedOpening(b, id, "valet", "car");
             event.operation = b.open(id, "inspection");
             return Forged{id, b.manager, {event}};
         }},
        {RefusalId::NeverLeftHere, "what this house never leaves", "that this house never leaves",
         [](Workbench& b) {
             HouseRules rules;
             rules.neverLeft = {Skill::Valet};
             b.ask(b.manager, site::SetHouseRules{rules});
             const CarId id = b.appraised();
             return Forged{
                 id, b.manager, {OperationLeft{b.open(id, "valet"), QStringLiteral("dusty")}}};
         },
         nullptr, true},
        {RefusalId::NeverLeftHere, "what nobody leaves", "that this house never leaves",
         [](Workbench& b) {
             b.spec("arrival-check").neverLeft = true;
             const CarId id = b.appraised();
             return Forged{id,
                           b.manager,
                           {OperationLeft{b.open(id, "arrival-check"), QStringLiteral("later")}}};
         },
         nullptr, true},
        {RefusalId::NotWithdrawable, "every car's own work", "withdraws work that was not opened",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id, b.manager, {OperationWithdrawn{b.open(id, "valet"), QStringLiteral("no")}}};
         }},
        {RefusalId::WrongPlace, "touch-in on glass", "at a place that it is not for",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {forgedOpening(b, id, "touch-in", "windscreen")}};
         }},
        {RefusalId::BayUnfit, "planned where it cannot be done", "a bay that is not made for it",
         [](Workbench& b) {
             b.spec("inspection").bay = BayKind::Lift;
             const CarId id = b.appraised();
             return Forged{
                 id, b.manager, {WorkPlanned{b.open(id, "inspection"), {}, b.paintBay, {}}}};
         },
         nullptr, true},
        {RefusalId::Isolated, "isolated twice", "isolates what is isolated",
         [](Workbench& b) {
             const CarId id = isolatedCar(b);
             return Forged{
                 id,
                 b.mechanic,
                 {IsolationSet{b.open(id, "high-voltage-repair"), QStringLiteral("key safe")}}};
         }},
        {RefusalId::NotIsolated, "lifted, never set", "lifts an isolation that is not set",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.mechanic, {IsolationLifted{b.open(id, "inspection"), {}}}};
         }},
        {RefusalId::IsolatedBySomebody, "lifted by another", "that somebody else set",
         [](Workbench& b) {
             const CarId id = isolatedCar(b);
             return Forged{
                 id, b.technician, {IsolationLifted{b.open(id, "high-voltage-repair"), {}}}};
         }},
        {RefusalId::NoIsolationHere, "isolated for an inspection", "for work that needs none",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "inspection", b.mechanic);
             return Forged{id, b.mechanic, {IsolationSet{operation, QStringLiteral("key safe")}}};
         }},
        {RefusalId::MinutesOverlap, "started an hour ago", "before it was touched",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const PersonId fresh = b.hire(QStringLiteral("Vera"), {Skill::Valet}, {Right::Work});
             WorkStarted event;
             event.operation = b.open(id, "valet");
             event.segment = SegmentId{b.car(id).nextSegment};
             event.person = fresh;
             event.at = b.clock.now().plusMinutes(-60);
             return Forged{id, fresh, {event}};
         }},
        {RefusalId::NotRunning, "a stretch out of number", "another number than the next",
         [](Workbench& b) {
             const CarId id = b.appraised();
             WorkStarted event;
             event.operation = b.open(id, "valet");
             event.segment = SegmentId{40};
             event.person = b.painter;
             event.at = b.clock.now();
             return Forged{id, b.painter, {event}};
         }},
        {RefusalId::MinutesOverlap, "stopped in an hour", "at another time than it was touched",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             const SegmentId segment{b.car(id).nextSegment - 1};
             return Forged{id,
                           b.painter,
                           {WorkStopped{operation, segment, b.clock.now().plusMinutes(60),
                                        StopKind::Paused}}};
         },
         nullptr, true},
        {RefusalId::MinutesOverlap, "more minutes than went by", "counts more time than went by",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             const SegmentId segment{b.car(id).nextSegment - 1};
             WorkStopped stopped{operation, segment, b.clock.now(), StopKind::Paused};
             stopped.ranMs = 60 * 60'000;
             return Forged{id, b.painter, {stopped}};
         },
         nullptr, true},
        {RefusalId::PersonUnknown, "paused by nobody", "by nobody of this site",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             const SegmentId segment{b.car(id).nextSegment - 1};
             return Forged{
                 id, {}, {WorkStopped{operation, segment, b.clock.now(), StopKind::Paused}}};
         }},
        {RefusalId::WrongSkill, "handed to somebody who cannot", "hands work over to somebody",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {HandedOver{b.open(id, "valet"), b.glazier}}};
         }},
        {RefusalId::WrongSkill, "planned for somebody who cannot", "plans work for somebody",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {WorkPlanned{b.open(id, "valet"), b.glazier, {}, {}}}};
         }},
        {RefusalId::ValueOutOfRange, "planned for next year", "farther off than anybody plans",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id,
                 b.manager,
                 {WorkPlanned{
                     b.open(id, "valet"), {}, {}, b.clock.now().plusMinutes(365 * 24 * 60)}}};
         }},
        {RefusalId::Blocked, "blocked with a timer running", "blocks work that somebody is on",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             return Forged{
                 id,
                 b.painter,
                 {OperationBlocked{operation, {QStringLiteral("mats"), {}, QDate(2031, 3, 22)}}}};
         }},
        {RefusalId::ValueOutOfRange, "ten keys given along", "keys along that no car has",
         [](Workbench& b) {
             const CarId id = b.appraised();
             OutsideWork work = coveWorks();
             work.keys = 10;
             return Forged{id, b.manager, {SentOut{b.open(id, "valet"), work}}};
         }},
        {RefusalId::NotIsolated, "another isolation lifted", "another isolation than is set",
         [](Workbench& b) {
             const CarId id = isolatedCar(b);
             return Forged{id, b.mechanic, {IsolationLifted{b.open(id, "inspection"), {}}}};
         }},
    };
}

} // namespace ramplight::test
