// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Entries against the rules of what proves work: readings, figures, signatures.
namespace ramplight::test {

namespace {

constexpr auto didIt = SignatureMeaning::DidTheWork;

/// A tyre was fitted, and the check of its fixings is in hand.
std::pair<CarId, OperationId> fixingCheck(Workbench& b)
{
    const CarId id = b.appraised();
    b.found(id, "tyre-front-left", Condition::Cut);
    b.close(id, b.open(id, "tyre-fit"));
    return {id, startedBy(b, id, "wheel-fixing-check", b.checker)};
}

Limit torque()
{
    return {LimitOwner::VehicleData, QStringLiteral("data book"), 120, 120, {}};
}

/// The torque of a fitted wheel, measured with a tool of the house.
Forged torqueWith(Workbench& b, const ToolUsed& tool)
{
    b.spec("wheel-fixing-check").readings.front().tool = ToolKind::TorqueWrench;
    const auto [id, operation] = fixingCheck(b);
    b.must(
        b.manager, id,
        car::SetFigure{operation, QStringLiteral("torque"), {}, 120, QStringLiteral("data book")});
    ReadingTaken event =
        forgedReading(b, id, operation, "torque", number(120), ReadingOutcome::Inside);
    event.limits = {torque()};
    event.tool = tool;
    return {id, b.checker, {event}};
}

/// The survey's tread of one tyre as somebody writes it, by the limits that it has.
Forged treadOf(Workbench& b, int tenths, ReadingOutcome outcome)
{
    const CarId id = b.appraised();
    const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
    ReadingTaken event = forgedReading(b, id, operation, "tread", number(tenths), outcome);
    event.place = at("tyre-front-left");
    event.limits = b.operation(id, operation).spec->readings.front().limits;
    return {id, b.wheels, {event}};
}

/// Of the papers of a car, which an appraiser compares.
ReadingCorrected papersCorrected(Workbench& b, const CarId& id, OperationId operation,
                                 const char* said, ReadingOutcome outcome)
{
    ReadingCorrected event;
    event.operation = operation;
    event.original = b.operation(id, operation).readings.front().id;
    event.reading = ReadingId{b.car(id).nextReading};
    event.value = answer(said);
    event.outcome = outcome;
    event.reason = QStringLiteral("misread");
    return event;
}

} // namespace

std::vector<RuleBreaker> proofBreakers()
{
    return {
        {RefusalId::ReadingUnknown, "a question of nobody", "a question that nothing asks",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             return Forged{
                 id,
                 b.wheels,
                 {forgedReading(b, id, operation, "shine", number(1), ReadingOutcome::Recorded)}};
         }},
        {RefusalId::ReadingMalformed, "words for a number", "no number where a number is asked",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             ReadingTaken event =
                 forgedReading(b, id, operation, "tread", answer("thick"), ReadingOutcome::Inside);
             event.place = at("tyre-front-left");
             return Forged{id, b.wheels, {event}};
         }},
        {RefusalId::LimitMissing, "without this car's figure", "without this car's figure",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "inspection", b.mechanic);
             ReadingTaken event =
                 forgedReading(b, id, operation, "disc", number(230), ReadingOutcome::Inside);
             event.place = at("brakes-front");
             return Forged{id, b.mechanic, {event}};
         }},
        {RefusalId::ReadingOutside, "a limit of the forger's", "by limits that it does not have",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             ReadingTaken event =
                 forgedReading(b, id, operation, "tread", number(12), ReadingOutcome::Inside);
             event.place = at("tyre-front-left");
             event.limits = {{LimitOwner::House, QStringLiteral("house default"), 10, {}, {}}};
             return Forged{id, b.wheels, {event}};
         }},
        {RefusalId::ReadingOutside, "called inside", "judges a reading other than its limits do",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             ReadingTaken event =
                 forgedReading(b, id, operation, "tread", number(12), ReadingOutcome::Inside);
             event.place = at("tyre-front-left");
             event.limits = b.operation(id, operation).spec->readings.front().limits;
             return Forged{id, b.wheels, {event}};
         }},
        {RefusalId::ReadingOutside, "closed with it", "with a reading outside its limit",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             for (const char* place :
                  {"tyre-front-left", "tyre-front-right", "tyre-rear-left", "tyre-rear-right"})
                 b.must(
                     b.wheels, id,
                     car::TakeReading{operation, QStringLiteral("tread"), at(place),
                                      number(place == QLatin1String("tyre-front-left") ? 12 : 60)});
             return Forged{id, b.wheels, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::AnswerForbidsClosing, "closed with that answer",
         "with a reading outside its limit",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "arrival-check", b.appraiser);
             b.must(b.appraiser, id,
                    car::TakeReading{operation, QStringLiteral("papers"), {}, answer("differ")});
             return Forged{id, b.appraiser, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::AnswerForbidsClosing, "called a good one", "other than the catalogue does",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "arrival-check", b.appraiser);
             return Forged{id,
                           b.appraiser,
                           {forgedReading(b, id, operation, "papers", answer("differ"),
                                          ReadingOutcome::Inside)}};
         }},
        {RefusalId::EvidenceOpen, "closed with nothing measured", "closes without: ",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             return Forged{id, b.wheels, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::EvidenceOpen, "closed and never isolated", "without the high voltage isolated",
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             b.found(id, "traction-battery", Condition::Broken);
             const OperationId operation = startedBy(b, id, "high-voltage-repair", b.mechanic);
             return Forged{id, b.mechanic, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::EvidenceOpen, "closed, and its check never opened",
         "without opening what it makes due: wheel-fixing-check",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             const OperationId operation = startedBy(b, id, "tyre-fit", b.wheels);
             b.clock.pass(10);
             b.prove(id, operation, b.wheels);
             return Forged{id, b.wheels, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::NotStarted, "signed by somebody else", "somebody who did not work on it",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id, b.painter, forgedClosing(b, id, b.open(id, "valet"), didIt)};
         }},
        {RefusalId::ValueOutOfRange, "minutes of nobody", "minutes that its timers do not have",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             b.clock.pass(10);
             b.must(b.painter, id, car::PauseWork{operation, {}, StopKind::Paused});
             return Forged{
                 id,
                 b.painter,
                 {OperationSigned{operation, didIt, 90, {}}, OperationClosed{operation, {}}}};
         }},
        {RefusalId::FigureBySigner, "measured against one's own", "a figure of the person's own",
         [](Workbench& b) {
             const auto [id, operation] = fixingCheck(b);
             b.must(b.checker, id,
                    car::SetFigure{
                        operation, QStringLiteral("torque"), {}, 120, QStringLiteral("data book")});
             ReadingTaken event =
                 forgedReading(b, id, operation, "torque", number(120), ReadingOutcome::Inside);
             event.limits = {torque()};
             return Forged{id, b.checker, {event}};
         }},
        {RefusalId::FigureDiffers, "another torque", "is not this car's figure",
         [](Workbench& b) {
             const auto [id, operation] = fixingCheck(b);
             b.must(b.manager, id,
                    car::SetFigure{
                        operation, QStringLiteral("torque"), {}, 120, QStringLiteral("data book")});
             ReadingTaken event =
                 forgedReading(b, id, operation, "torque", number(90), ReadingOutcome::Outside);
             event.limits = {torque()};
             return Forged{id, b.checker, {event}};
         }},
        {RefusalId::ToolNeeded, "no tool named", "without naming the tool",
         [](Workbench& b) {
             b.tool("T 7", ToolKind::TorqueWrench, b.today());
             return torqueWith(b, {});
         },
         nullptr, true},
        {RefusalId::ToolOverdue, "a tool that was due", "with a tool that was not in date",
         [](Workbench& b) {
             const QDate due = b.today().addDays(-1);
             const ToolId tool = b.tool("T 7", ToolKind::TorqueWrench, due);
             return torqueWith(b, {tool, QStringLiteral("T 7"), due});
         },
         nullptr, true},
        {RefusalId::ToolUnknown, "a tool of another kind", "with a tool that was not in date",
         [](Workbench& b) {
             const ToolId tool = b.tool("G 1", ToolKind::TreadGauge, b.today());
             return torqueWith(b, {tool, QStringLiteral("G 1"), b.today()});
         },
         nullptr, true},
        {RefusalId::CheckByDoer, "signed twice by one", "a second signature by the first person",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.technician);
             b.prove(id, operation, b.technician);
             b.must(b.technician, id, car::SignOff{operation, {}});
             return Forged{id, b.technician,
                           forgedClosing(b, id, operation, SignatureMeaning::Countersigned)};
         }},
        {RefusalId::CheckByDoer, "one's own work checked", "by somebody who did some of the work",
         [](Workbench& b) {
             const PersonId both =
                 b.hire(QStringLiteral("Mabyn"), {Skill::Wheels}, {Right::Work, Right::Check});
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"), both);
             b.clock.pass(1);
             return Forged{id, both, {forgedStart(b, id, b.open(id, "wheel-fixing-check"), both)}};
         }},
        {RefusalId::CheckByDoer, "what one measured checked",
         "by somebody who did some of the work",
         [](Workbench& b) {
             const PersonId both =
                 b.hire(QStringLiteral("Sefa"), {Skill::Wheels}, {Right::Work, Right::Check});
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             const OperationId fit = startedBy(b, id, "tyre-fit", b.wheels);
             b.must(both, id,
                    car::TakeReading{
                        fit, QStringLiteral("marks"), {}, {{}, QStringLiteral("205/55 R16")}});
             b.close(id, fit);
             b.clock.pass(1);
             return Forged{id, both, {forgedStart(b, id, b.open(id, "wheel-fixing-check"), both)}};
         }},
        {RefusalId::CheckByDoer, "what one measured countersigned",
         "a second signature by the first person",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.mechanic);
             b.must(b.technician, id,
                    car::TakeReading{
                        operation, QStringLiteral("part"), {}, {{}, QStringLiteral("P 17")}});
             b.must(b.mechanic, id, car::SignOff{operation, {}});
             return Forged{id, b.technician,
                           forgedClosing(b, id, operation, SignatureMeaning::Countersigned)};
         }},
        {RefusalId::NothingToCountersign, "a second without a first", "where none is waited for",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             return Forged{id,
                           b.checker,
                           {OperationSigned{operation, SignatureMeaning::Countersigned, 0, {}}}};
         }},
        {RefusalId::SecondPersonNeeded, "a safety reading, by its reader",
         "corrects a safety reading without a second person",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "tyre-survey", b.wheels);
             b.must(b.wheels, id,
                    car::TakeReading{operation, QStringLiteral("tread"), at("tyre-front-left"),
                                     number(12)});
             ReadingCorrected event;
             event.operation = operation;
             event.original = ReadingId{b.car(id).nextReading - 1};
             event.reading = ReadingId{b.car(id).nextReading};
             event.value = number(60);
             event.outcome = ReadingOutcome::Inside;
             event.limits = b.operation(id, operation).spec->readings.front().limits;
             event.reason = QStringLiteral("slipped");
             event.evidence = b.photo();
             return Forged{id, b.wheels, {event}};
         }},
        {RefusalId::ReadingStands, "measured until it fits", "takes a reading anew that stands",
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             b.found(id, "traction-battery", Condition::Broken);
             const OperationId operation = startedBy(b, id, "high-voltage-repair", b.mechanic);
             b.must(b.mechanic, id,
                    car::TakeReading{operation, QStringLiteral("proved"), {}, number(2)});
             ReadingTaken event =
                 forgedReading(b, id, operation, "proved", number(0), ReadingOutcome::Inside);
             event.limits = b.operation(id, operation).spec->readings.front().limits;
             return Forged{id, b.mechanic, {event}};
         }},
        {RefusalId::ReadingStands, "somebody else's, as if it were one's own",
         "takes a reading anew that stands",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "inspection", b.mechanic);
             b.must(b.mechanic, id,
                    car::TakeReading{operation, QStringLiteral("play"), at("steering"),
                                     answer("sound")});
             ReadingTaken event =
                 forgedReading(b, id, operation, "play", answer("noted"), ReadingOutcome::Inside);
             event.place = at("steering");
             return Forged{id, b.technician, {event}};
         }},
        {RefusalId::ReadingOutside, "outside, and nothing comes of it",
         "without opening what it makes due: tyre-fit",
         [](Workbench& b) { return treadOf(b, 12, ReadingOutcome::Outside); }},
        {RefusalId::ReadingMalformed, "a tread below nothing", "no number where a number is asked",
         [](Workbench& b) { return treadOf(b, -1, ReadingOutcome::Outside); }},
        {RefusalId::OperationNotOpen, "measured after it was signed", "at work that is signed",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.technician);
             b.prove(id, operation, b.technician);
             b.must(b.technician, id, car::SignOff{operation, {}});
             ReadingTaken event = forgedReading(b, id, operation, "part", answer("another"),
                                                ReadingOutcome::Recorded);
             return Forged{id, b.technician, {event}};
         }},
        {RefusalId::EvidenceOpen, "signed with nothing measured, for the second person",
         "is signed without: part",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.technician);
             std::vector<CarEvent> events = forgedClosing(b, id, operation, didIt);
             events.pop_back();
             return Forged{id, b.technician, std::move(events)};
         }},
        {RefusalId::NotStarted, "a check that nobody began", "somebody who did not work on it",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"));
             return Forged{id, b.checker,
                           forgedClosing(b, id, b.open(id, "wheel-fixing-check"),
                                         SignatureMeaning::CheckedTheWork)};
         }},
        {RefusalId::CheckByDoer, "a check signed as work", "something else by its signature",
         [](Workbench& b) {
             const auto [id, operation] = fixingCheck(b);
             return Forged{id, b.checker, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::OperationNotOpen, "signed, and open all the same", "signs without closing",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "valet", b.painter);
             std::vector<CarEvent> events = forgedClosing(b, id, operation, didIt);
             events.pop_back();
             return Forged{id, b.painter, std::move(events)};
         }},
        {RefusalId::DoNotMove, "adhesive that cures in no time", "that it has to be left alone",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "windscreen", Condition::Crack);
             const OperationId operation = startedBy(b, id, "windscreen-fit", b.glazier);
             b.clock.pass(10);
             b.prove(id, operation, b.glazier);
             return Forged{id, b.glazier, forgedClosing(b, id, operation, didIt)};
         }},
        {RefusalId::DoNotMove, "adhesive that cures as long as was mistyped",
         "that it has to be left alone",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "windscreen", Condition::Crack);
             const OperationId operation = b.open(id, "windscreen-fit");
             b.close(id, operation);
             ReadingCorrected event;
             event.operation = operation;
             event.original = b.operation(id, operation).readings.front().id;
             event.reading = ReadingId{b.car(id).nextReading};
             event.value = number(300);
             event.reason = QStringLiteral("a nought too few");
             event.evidence = b.photo();
             return Forged{id, b.checker, {event}};
         }},
        {RefusalId::ValueOutOfRange, "adhesive of no time", "that cures in no time",
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "windscreen", Condition::Crack);
             const OperationId operation = startedBy(b, id, "windscreen-fit", b.glazier);
             return Forged{
                 id,
                 b.glazier,
                 {forgedReading(b, id, operation, "cure", number(0), ReadingOutcome::Recorded)}};
         }},
        {RefusalId::FigureBySigner, "a second signature against one's own figure",
         "against a figure that the signer entered",
         [](Workbench& b) {
             b.spec("steering-part").readings.front() =
                 b.spec("wheel-fixing-check").readings.front();
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.technician);
             b.prove(id, operation, b.technician);
             b.must(b.technician, id, car::SignOff{operation, {}});
             const PersonId entered = b.operation(id, operation).figures.front().by;
             return Forged{id, entered,
                           forgedClosing(b, id, operation, SignatureMeaning::Countersigned)};
         },
         nullptr, true},
        {RefusalId::ToolUnknown, "a tool that says it is in date", "of its tool what was not so",
         [](Workbench& b) {
             const ToolId tool = b.tool("T 7", ToolKind::TorqueWrench, b.today());
             return torqueWith(b, {tool, QStringLiteral("T 7"), b.today().addDays(300)});
         },
         nullptr, true},
        {RefusalId::ToolUnknown, "a tool where none is asked", "with a tool where none is asked",
         [](Workbench& b) {
             Forged forged = treadOf(b, 60, ReadingOutcome::Inside);
             ReadingTaken event = std::get<ReadingTaken>(forged.events.front());
             event.tool = {ToolId{1}, QStringLiteral("T 7"), b.today()};
             forged.events = {event};
             return forged;
         }},
        {RefusalId::ReadingUnknown, "a reading that was corrected before",
         "does not count any more",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = startedBy(b, id, "arrival-check", b.appraiser);
             b.must(b.appraiser, id,
                    car::TakeReading{operation, QStringLiteral("papers"), {}, answer("differ")});
             b.must(b.manager, id,
                    car::CorrectReading{operation, b.operation(id, operation).readings.front().id,
                                        answer("agree"), QStringLiteral("misread"), b.photo()});
             return Forged{id,
                           b.manager,
                           {papersCorrected(b, id, operation, "agree", ReadingOutcome::Inside)}};
         }},
        {RefusalId::AnswerForbidsClosing, "closed, and corrected to what forbids it",
         "leaves signed what rests on a reading outside its limit",
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId operation = b.open(id, "arrival-check");
             b.close(id, operation);
             return Forged{id,
                           b.manager,
                           {papersCorrected(b, id, operation, "differ", ReadingOutcome::Outside)}};
         }},
    };
}

} // namespace ramplight::test
