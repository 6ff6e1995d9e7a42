// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Entries that put a figure of a car right as no command would have.
namespace ramplight::test {

namespace {

const QString disc = QStringLiteral("disc");
const QString book = QStringLiteral("data book");

/// An inspection in hand; the least thickness of its disc was typed with a nought too many.
struct Mistyped
{
    explicit Mistyped(Workbench& b)
        : id(b.appraised())
        , operation(startedBy(b, id, "inspection", b.technician))
    {
        b.must(b.manager, id, car::SetFigure{operation, disc, at("brakes-front"), 2250, book});
    }

    void read(Workbench& b) const
    {
        b.must(b.technician, id,
               car::TakeReading{operation, disc, at("brakes-front"), number(230)});
    }
    [[nodiscard]] FigureCorrected corrected(Workbench& b, int value = 225) const
    {
        return {operation, disc, at("brakes-front"), value, book, QStringLiteral("slipped"),
                b.photo()};
    }
    [[nodiscard]] Forged by(PersonId who, std::vector<CarEvent> events) const
    {
        return {id, who, std::move(events)};
    }

    CarId id;
    OperationId operation;
};

FigureCorrected torqueCorrected(Workbench& b, OperationId operation, int value)
{
    return {operation, QStringLiteral("torque"),  {},       value,
            book,      QStringLiteral("slipped"), b.photo()};
}

} // namespace

std::vector<RuleBreaker> figureBreakers()
{
    return {
        {RefusalId::FigureInUse, "changed afterwards", "that a reading was taken against",
         [](Workbench& b) {
             const Mistyped car(b);
             car.read(b);
             return car.by(b.manager,
                           {FigureSet{car.operation, disc, at("brakes-front"), 225, book}});
         }},
        {RefusalId::FigureInUse, "typed over once it was corrected", "or that was corrected",
         [](Workbench& b) {
             const Mistyped car(b);
             b.must(b.checker, car.id,
                    car::CorrectFigure{car.operation, disc, at("brakes-front"), 225, book,
                                       QStringLiteral("slipped"), b.photo()});
             return car.by(b.manager,
                           {FigureSet{car.operation, disc, at("brakes-front"), 190, book}});
         }},
        {RefusalId::SecondPersonNeeded, "a figure, by who entered it",
         "corrects a safety figure without a second person",
         [](Workbench& b) {
             const Mistyped car(b);
             car.read(b);
             return car.by(b.manager, {car.corrected(b)});
         }},
        {RefusalId::SecondPersonNeeded, "a figure, by who read against it",
         "corrects a safety figure without a second person",
         [](Workbench& b) {
             const Mistyped car(b);
             car.read(b);
             return car.by(b.technician, {car.corrected(b)});
         }},
        {RefusalId::EvidenceMissing, "a figure without a photo",
         "corrects a safety figure without a photo",
         [](Workbench& b) {
             const Mistyped car(b);
             FigureCorrected event = car.corrected(b);
             event.evidence = {};
             return car.by(b.checker, {event});
         }},
        {RefusalId::ReasonMissing, "a figure without a reason", "corrects without a reason",
         [](Workbench& b) {
             const Mistyped car(b);
             FigureCorrected event = car.corrected(b);
             event.reason.clear();
             return car.by(b.checker, {event});
         }},
        {RefusalId::ValueOutOfRange, "a figure of nought", "without a value or its source",
         [](Workbench& b) {
             const Mistyped car(b);
             return car.by(b.checker, {car.corrected(b, 0)});
         }},
        {RefusalId::LimitMissing, "a figure that is not there",
         "corrects a figure that nobody entered",
         [](Workbench& b) {
             const CarId id = b.appraised();
             return Forged{id,
                           b.checker,
                           {FigureCorrected{b.open(id, "inspection"), disc, at("brakes-front"), 225,
                                            book, QStringLiteral("slipped"), b.photo()}}};
         }},
        {RefusalId::CheckByDoer, "a figure of the check of one's own work",
         "corrects at a check of the person's own work",
         [](Workbench& b) {
             const PersonId both =
                 b.hire(QStringLiteral("Ferro"), {Skill::Wheels}, {Right::Work, Right::Check});
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"), both);
             const OperationId operation = b.open(id, "wheel-fixing-check");
             b.must(b.manager, id,
                    car::SetFigure{operation, QStringLiteral("torque"), {}, 12, book});
             return Forged{id, both, {torqueCorrected(b, operation, 120)}};
         }},
        {RefusalId::OperationNotOpen, "a figure that was signed against",
         "corrects a figure that was signed against",
         [](Workbench& b) {
             b.spec("steering-part").readings.front() =
                 b.spec("wheel-fixing-check").readings.front();
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId operation = startedBy(b, id, "steering-part", b.mechanic);
             b.prove(id, operation, b.mechanic);
             b.must(b.mechanic, id, car::SignOff{operation, {}});
             return Forged{id, b.checker, {torqueCorrected(b, operation, 90)}};
         },
         nullptr, true},
        {RefusalId::SafetyCannotBeLeft, "what a figure had opened, with no reading that goes",
         "takes a safety item away without a correction",
         [](Workbench& b) {
             const Mistyped car(b);
             car.read(b);
             return car.by(b.checker, {OperationWithdrawn{b.open(car.id, "brake-pads"),
                                                          QStringLiteral("slipped")}});
         }},
    };
}

} // namespace ramplight::test
