// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Entries that open work without a cause, or ask for less by it than the catalogue does; and such
// as let it go.
namespace ramplight::test {

namespace {

/// As if a rule, a trigger or a reading had opened it.
OperationOpened because(Workbench& b, const CarId& id, const char* kind, const char* place,
                        Origin origin)
{
    OperationOpened event = forgedOpening(b, id, kind, place);
    event.origin = origin;
    event.reason.clear();
    return event;
}

/// The brakes of an appraised car, with a specification of the forger's own.
Forged changed(Workbench& b, const char* kind, const QString& catalogueHash,
               const std::function<void(OperationSpec&)>& change)
{
    const CarId id = b.appraised();
    OperationOpened event = forgedOpening(b, id, kind, "car");
    event.place = at(event.spec->scope == Scope::Car ? "car" : "brakes-front");
    event.catalogueHash = catalogueHash;
    OperationSpec spec = event.spec;
    change(spec);
    event.spec = std::move(spec);
    return {id, b.manager, {event}};
}

const QString older = QStringLiteral("of an older version");
const QString own = QStringLiteral("small");

/// A tyre was fitted and its fixings were checked.
std::pair<CarId, OperationId> fittedAndChecked(Workbench& b)
{
    const CarId id = b.appraised();
    b.found(id, "tyre-front-left", Condition::Cut);
    const OperationId fit = b.open(id, "tyre-fit");
    b.close(id, fit);
    b.close(id, b.open(id, "wheel-fixing-check"));
    return {id, fit};
}

/// The house takes the bench's catalogue in, so that it stands in the ledger.
void takeIn(Workbench& b)
{
    const SiteState site = b.ledger.site().value();
    Append append;
    append.command = b.command();
    append.by = b.manager;
    append.at = std::max(b.clock.now(), site.lastAt);
    append.site = SiteAppend{site.seq, {CatalogueAdopted{b.catalogue, QStringLiteral("taken-in")}}};
    if (!b.ledger.append(append))
        qFatal("the bench's catalogue cannot be taken in");
}

} // namespace

std::vector<RuleBreaker> causeBreakers()
{
    return {
        {RefusalId::NotWithdrawable, "as every car's own, long after its arrival",
         "as every car's own what this one does not get",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{
                 id, b.seller, {because(b, id, "battery-check", "car", Origin::Baseline)}};
         }},
        {RefusalId::NotWithdrawable, "for a fact that nobody corrected",
         "for a fact what no corrected fact makes due",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.seller, {because(b, id, "battery-check", "car", Origin::Fact)}};
         }},
        {RefusalId::FindingUnknown, "for no finding", "for a finding what answers none",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.seller, {because(b, id, "touch-in", "roof", Origin::Finding)}};
         }},
        {RefusalId::FindingUnknown, "for a finding that is not there",
         "answers a finding that does not stand",
         [](Workbench& b) {
             const CarId id = b.appraised();
             OperationOpened event = because(b, id, "touch-in", "roof", Origin::Finding);
             event.findings = {FindingId{9}};
             return Forged{id, b.seller, {event}};
         }},
        {RefusalId::FindingUnknown, "for a finding of another command",
         "answers a finding that nothing concerns here",
         [](Workbench& b) {
             const CarId id = b.appraised();
             OperationOpened event = because(b, id, "touch-in", "roof", Origin::Finding);
             event.findings = {b.found(id, "roof", Condition::Stain)};
             event.operation = OperationId{b.car(id).nextOperation};
             return Forged{id, b.seller, {event}};
         }},
        {RefusalId::WrongPlace, "for a finding of another place", "a finding of another place",
         [](Workbench& b) {
             const CarId id = b.appraised();
             FindingRecorded found = forgedFinding(b, id, "bonnet");
             found.undecided = false;
             OperationOpened event = because(b, id, "touch-in", "roof", Origin::Finding);
             event.findings = {found.finding};
             return Forged{id, b.appraiser, {found, event}};
         }},
        {RefusalId::OperationNotClosed, "behind work that was not closed",
         "rests on work that does not make it due",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             OperationOpened event = because(b, id, "wheel-fixing-check", "car", Origin::Trigger);
             event.restsOn = {b.open(id, "tyre-fit")};
             return Forged{id, b.seller, {event}};
         }},
        {RefusalId::OperationUnknown, "behind work that is not there",
         "rests on an operation that is not there",
         [](Workbench& b) {
             const CarId id = b.appraised();
             OperationOpened event = because(b, id, "road-test", "car", Origin::Trigger);
             event.restsOn = {OperationId{99}};
             return Forged{id, b.seller, {event}};
         }},
        {RefusalId::ReadingUnknown, "for a reading that nobody took",
         "follows a reading that nobody took",
         [](Workbench& b) {
             const CarId id = b.appraised();
             OperationOpened event = because(b, id, "brake-pads", "brakes-front", Origin::Reading);
             event.fromReadings = {ReadingId{99}};
             return Forged{id, b.seller, {event}};
         }},
        {RefusalId::ReadingUnknown, "for a reading inside its limits",
         "follows a reading that does not make it due",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId survey = startedBy(b, id, "tyre-survey", b.wheels);
             ReadingTaken reading =
                 forgedReading(b, id, survey, "tread", number(60), ReadingOutcome::Inside);
             reading.place = at("tyre-front-left");
             reading.limits = b.operation(id, survey).spec->readings.front().limits;
             OperationOpened event = because(b, id, "tyre-fit", "tyre-front-left", Origin::Reading);
             event.fromReadings = {reading.reading};
             return Forged{id, b.wheels, {reading, event}};
         }},
        {RefusalId::KindUnknown, "work of no catalogue", "work that the catalogue does not have",
         [](Workbench& b) {
             return changed(b, "valet", own,
                            [](OperationSpec& spec) { spec.id = QStringLiteral("blessing"); });
         }},
        {RefusalId::SafetyCannotBeLeft, "no safety item by the forger's word",
         "asks for something else than the catalogue does",
         [](Workbench& b) {
             return changed(b, "brake-pads", own, [](OperationSpec& spec) { spec.safety = false; });
         }},
        {RefusalId::EvidenceOpen, "nothing to be read by the forger's word",
         "asks for something else than the catalogue does",
         [](Workbench& b) {
             return changed(b, "brake-pads", own,
                            [](OperationSpec& spec) { spec.readings.clear(); });
         }},
        {RefusalId::NothingToCountersign, "no second person by the forger's word",
         "asks for something else than the catalogue does",
         [](Workbench& b) {
             return changed(b, "final-check", own,
                            [](OperationSpec& spec) { spec.secondPerson = SecondPerson::None; });
         }},
        {RefusalId::SafetyCannotBeLeft, "no safety item, as of an older version",
         "asks for less than any catalogue did: safety",
         [](Workbench& b) {
             return changed(b, "brake-pads", older,
                            [](OperationSpec& spec) { spec.safety = false; });
         }},
        {RefusalId::EvidenceOpen, "nothing to be read, as of an older version",
         "asks for less than any catalogue did: part",
         [](Workbench& b) {
             return changed(b, "brake-pads", older,
                            [](OperationSpec& spec) { spec.readings.clear(); });
         }},
        {RefusalId::NothingToCountersign, "no second person, as of an older version",
         "asks for less than any catalogue did: second person",
         [](Workbench& b) {
             return changed(b, "final-check", older,
                            [](OperationSpec& spec) { spec.secondPerson = SecondPerson::None; });
         }},
        {RefusalId::KindUnknown, "by another catalogue than the house took in",
         "by another catalogue than the house took in",
         [](Workbench& b) {
             takeIn(b);
             return changed(b, "brake-pads", older, [](OperationSpec&) {});
         },
         nullptr, true},
        {RefusalId::KindUnknown, "less than the catalogue that the house took in",
         "asks for something else than the catalogue does",
         [](Workbench& b) {
             takeIn(b);
             return changed(b, "brake-pads", QStringLiteral("taken-in"),
                            [](OperationSpec& spec) { spec.photos.clear(); });
         },
         nullptr, true},
        {RefusalId::OperationNotOpen, "twice at one place", "what other open work does already",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.manager, {forgedOpening(b, id, "inspection", "car")}};
         }},
        {RefusalId::NotACheck, "work added behind the last check",
         "adds work behind a check of everything",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             return Forged{id, b.manager, {forgedOpening(b, id, "touch-in", "roof")}};
         }},
        {RefusalId::FindingUnknown, "by hand, for what rules have answered",
         "answers by hand what nobody had to decide",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const FindingId found = b.found(id, "roof", Condition::Scratch);
             return Forged{
                 id, b.manager, {OperationExtended{b.open(id, "valet"), {found}, {}, {}}}};
         }},
        {RefusalId::CheckByDoer, "a check that rests on nothing any more",
         "takes a check off work that is neither open again nor withdrawn",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"));
             return Forged{
                 id, b.manager, {OperationNarrowed{b.open(id, "wheel-fixing-check"), {}, {}, {}}}};
         }},
        {RefusalId::CheckByDoer, "a check withdrawn while its work stands",
         "takes a safety item away without a correction",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"));
             return Forged{
                 id,
                 b.manager,
                 {OperationWithdrawn{b.open(id, "wheel-fixing-check"), QStringLiteral("no need")}}};
         }},
        {RefusalId::CheckByDoer, "reopened, and its check stands",
         "lets a check stand that rested on it: wheel-fixing-check",
         [](Workbench& b) {
             const auto [id, fit] = fittedAndChecked(b);
             return Forged{
                 id, b.manager, {OperationReopened{fit, QStringLiteral("loose"), {}, {}}}};
         }},
        {RefusalId::NotACheck, "sent back while somebody is on it", "reopens what was not closed",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             b.clock.pass(1);
             b.must(b.painter, id, car::PauseWork{operation, {}, StopKind::Paused});
             return Forged{
                 id, b.checker, {OperationReopened{operation, QStringLiteral("poor"), {}, {}}}};
         }},
        {RefusalId::WrongSkill, "back to somebody who did none of it",
         "back to somebody who did none of it",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = b.open(id, "valet");
             b.close(id, operation);
             return Forged{id,
                           b.manager,
                           {OperationReopened{operation, QStringLiteral("poor"), b.glazier, {}}}};
         }},
        {RefusalId::NotWithdrawable, "begun, left, and its check not opened",
         "leaves work that was begun without opening what it makes due: wheel-true-check",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "wheel-front-left", Condition::Kerbed);
             const OperationId operation = startedBy(b, id, "wheel-refurb", b.wheels);
             b.clock.pass(1);
             b.must(b.wheels, id, car::PauseWork{operation, {}, StopKind::Paused});
             return Forged{
                 id, b.manager, {OperationLeft{operation, QStringLiteral("marks remain")}}};
         }},
        {RefusalId::Isolated, "left with its lock on", "with its isolation not lifted",
         [](Workbench& b) {
             const CarId id = isolatedCar(b);
             return Forged{
                 id,
                 b.manager,
                 {OperationLeft{b.open(id, "high-voltage-repair"), QStringLiteral("as it is")}}};
         }},
        {RefusalId::NotWithdrawable, "taken out, and another finding disclosed",
         "tells the buyer of other findings than it leaves",
         [](Workbench& b) {
             const CarId id = b.bringIn();
             const FindingId brakes = b.found(id, "brakes-front", Condition::Worn);
             b.found(id, "roof", Condition::Scratch);
             return Forged{
                 id,
                 b.appraiser,
                 {OperationTakenOut{b.open(id, "touch-in"), QStringLiteral("small"), {brakes}}}};
         }},
        {RefusalId::AlreadyReleased, "held again, and nothing was found",
         "and nothing was found or corrected",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             return Forged{id, b.manager, {CarHeldAgain{QStringLiteral("a feeling")}}};
         }},
        {RefusalId::AlreadyReleased, "brought back and sold as it is", "brings a car back released",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             b.must(b.manager, id,
                    car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("sold on")});
             return Forged{id, b.manager, {CarBroughtBack{QStringLiteral("wanted")}}};
         }},
        {RefusalId::CarHeld, "another state released than there was",
         "releases another state of the car",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             b.clock.pass(120);
             return Forged{id, b.seller, {CarReleased{3}}};
         }},
        {RefusalId::OperationNotOpen, "more for work that is signed",
         "adds to work that awaits a check",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.technician);
             b.prove(id, operation, b.technician);
             b.must(b.technician, id, car::SignOff{operation, {}});
             FindingRecorded more = forgedFinding(b, id, "steering");
             more.undecided = false;
             return Forged{
                 id, b.technician, {more, OperationExtended{operation, {more.finding}, {}, {}}}};
         }},
    };
}

} // namespace ramplight::test
