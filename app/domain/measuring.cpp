// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/checking.h"
#include "domain/gauging.h"
#include "domain/holds.h"
#include "domain/openings.h"
#include "domain/valuefaults.h"

#include <algorithm>

namespace ramplight::decision {

namespace {

const ReadingSpec* specOf(const Operation& operation, const QString& key)
{
    const auto it = std::ranges::find(operation.spec->readings, key, &ReadingSpec::key);
    return it == operation.spec->readings.end() ? nullptr : &*it;
}

bool hasPlace(const ReadingSpec& spec, const PlaceId& place)
{
    return spec.places.empty() ? place.isEmpty()
                               : std::ranges::find(spec.places, place) != spec.places.end();
}

QString titleOf(const CarWork& work, const ReadingSpec& spec, const PlaceId& place)
{
    return place.isEmpty()
               ? spec.title
               : QStringLiteral("%1, %2").arg(spec.title, placeWords(place, work.rules()));
}

/// A value judged against what applies to it on this car.
struct Judged
{
    ReadingOutcome outcome = ReadingOutcome::Recorded;
    std::vector<Limit> limits;
    QString opens; ///< follow-up that the value makes necessary
};

tl::expected<Judged, Refusal> judge(const CarWork& work, const Operation& operation,
                                    const ReadingSpec& spec, const PlaceId& place,
                                    const ReadingValue& value)
{
    const QString title = titleOf(work, spec, place);
    Judged judged;
    if (!isAnswerTo(spec, value))
        return refuse(RefusalId::ReadingMalformed, {title});
    if (spec.kind == ReadingKind::Text)
        return judged;
    if (spec.kind == ReadingKind::Choice) {
        const auto option = std::ranges::find(spec.options, value.text, &ChoiceOption::id);
        judged.outcome = option->closes ? ReadingOutcome::Inside : ReadingOutcome::Outside;
        judged.opens = followUpOf(spec, value, judged.outcome);
        return judged;
    }
    if (spec.kind == ReadingKind::Record)
        return judged;

    judged.limits = spec.limits;
    const Figure* figure = operation.figure(spec.key, place);
    if (spec.neededFrom || spec.kind == ReadingKind::Figure) {
        const LimitOwner owner = spec.neededFrom.value_or(LimitOwner::VehicleData);
        if (figure == nullptr)
            return refuse(RefusalId::LimitMissing, {title, words(owner)});
        Limit entered{owner, figure->source, {}, {}, {}};
        if (spec.kind == ReadingKind::Figure) {
            if (figure->by == work.actor())
                return refuse(RefusalId::FigureBySigner, {title});
            if (*value.number != figure->value)
                return refuse(RefusalId::FigureDiffers,
                              {valueWords(figure->value, spec.decimals, spec.unit)});
            entered.min = entered.max = figure->value;
        } else if (spec.neededIsMax) {
            entered.max = figure->value;
        } else {
            entered.min = figure->value;
        }
        judged.limits.push_back(entered);
    }
    if (judged.limits.empty())
        return refuse(RefusalId::LimitMissing, {title, words(LimitOwner::House)});
    const bool inside = isInside(*value.number, judged.limits);
    judged.outcome = inside ? ReadingOutcome::Inside : ReadingOutcome::Outside;
    judged.opens = followUpOf(spec, value, judged.outcome);
    return judged;
}

/// The tool that a reading was taken with. A house that has registered tools of the kind names one
/// that is in date; one that has none may read without, and the reading says so.
tl::expected<ToolUsed, Refusal> toolFor(const CarWork& work, const ReadingSpec& spec, ToolId named)
{
    if (!spec.tool) {
        if (!named.isNull())
            return refuse(RefusalId::ToolUnknown, {spec.title});
        return ToolUsed{};
    }
    const SiteState& site = *work.context().site;
    if (named.isNull()) {
        if (!site.toolsOf(*spec.tool).empty())
            return refuse(RefusalId::ToolNeeded, {words(*spec.tool)});
        return ToolUsed{};
    }
    const Tool* tool = site.tool(named);
    if (tool == nullptr || !tool->active || tool->kind != *spec.tool)
        return refuse(RefusalId::ToolUnknown, {words(*spec.tool)});
    if (!tool->isInDate(work.today()))
        return refuse(RefusalId::ToolOverdue, {tool->number, dayWords(tool->nextCalibration)});
    return ToolUsed{tool->id, tool->number, tool->nextCalibration};
}

/// Who may enter a figure of this car, for what, and what it cannot be without.
template <class Command>
MaybeRefusal mayEnter(const CarWork& work, const Command& c)
{
    if (auto no = work.needsAny({Right::Check, Right::Manage}))
        return no;
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (!operation->isOpen())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(*operation)}};
    const ReadingSpec* spec = specOf(*operation, c.key);
    if (spec == nullptr || !hasPlace(*spec, c.place) ||
        (!spec->neededFrom && spec->kind != ReadingKind::Figure))
        return Refusal{RefusalId::ReadingUnknown, {}};
    if (c.value <= 0 || c.value > largestReading)
        return Refusal{RefusalId::ValueOutOfRange, {titleOf(work, *spec, c.place)}};
    if (c.source.trimmed().isEmpty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("where the figure was looked up")}};
    return std::nullopt;
}

void openFollowUpOf(CarWork& work, const Operation& operation, const Judged& judged,
                    const PlaceId& place, ReadingId reading)
{
    if (const OperationSpec* spec = work.catalogue().find(judged.opens))
        work.open(*spec, place.isEmpty() ? operation.place : place,
                  {Origin::Reading, {}, {}, {}, {reading}});
}

} // namespace

MaybeRefusal on(CarWork& work, const car::SetFigure& c)
{
    if (auto no = mayEnter(work, c))
        return no;
    if (isFigureInUse(*work.car().operation(c.operation), c.key, c.place))
        return Refusal{RefusalId::FigureInUse, {}};
    work.add(FigureSet{c.operation, c.key, c.place, c.value, c.source.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::CorrectFigure& c)
{
    if (auto no = mayEnter(work, c))
        return no;
    const Operation operation = *work.car().operation(c.operation);
    const ReadingSpec& spec = *specOf(operation, c.key);
    // Whoever signed did so by the wrong figure: that goes back first.
    if (operation.awaitsSecond())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(operation)}};
    if (operation.figure(c.key, c.place) == nullptr)
        return Refusal{RefusalId::LimitMissing,
                       {titleOf(work, spec, c.place),
                        words(spec.neededFrom.value_or(LimitOwner::VehicleData))}};
    const QString reason = c.reason.trimmed();
    if (reason.isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (auto no = work.mayCheck(operation))
        return no;
    if (auto no = isSafetyFigure(work.car(), operation, c.key, c.place)
                      ? work.maySafelyCorrect(
                            figureRecorders(operation, c.key, c.place, work.actor()), c.evidence)
                      : work.mustBeShown(c.evidence))
        return no;
    work.add(FigureCorrected{c.operation, c.key, c.place, c.value, c.source.trimmed(), reason,
                             c.evidence});
    // What was read is not judged anew: where a tool was set to the figure, it was set wrongly.
    if (const Reading* taken = operation.reading(c.key, c.place))
        work.detach(taken->id, reason);
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::TakeReading& c)
{
    const Operation* found = work.car().operation(c.operation);
    if (found == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (!found->isOpen() || found->awaitsSecond())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(*found)}};
    if (found->state == OperationState::Blocked)
        return Refusal{RefusalId::Blocked, {waitWords(*found)}};
    const Operation operation = *found;
    const bool received = operation.outside && operation.outside->received;
    if (auto no = received ? work.mayReceive(operation) : work.mayWorkOn(operation))
        return no;
    if (auto no = work.mayCheck(operation))
        return no;
    if (!operation.wasStarted())
        return Refusal{RefusalId::NotStarted, {}};
    const ReadingSpec* spec = specOf(operation, c.key);
    if (spec == nullptr || !hasPlace(*spec, c.place))
        return Refusal{RefusalId::ReadingUnknown, {}};
    if (const Reading* earlier = operation.reading(c.key, c.place))
        if (auto no = whyReadingStands(work.car(), operation, *earlier, work.actor(), work.rules()))
            return no;
    if (auto no = readingFault(work, operation, c.key, c.place, c.value, false))
        return no;
    const auto judged = judge(work, operation, *spec, c.place, c.value);
    if (!judged)
        return judged.error();
    const auto tool = toolFor(work, *spec, c.tool);
    if (!tool)
        return tool.error();
    const ReadingId id{work.car().nextReading};
    work.add(ReadingTaken{c.operation, id, c.key, c.place, c.value, judged->outcome, judged->limits,
                          *tool});
    openFollowUpOf(work, operation, *judged, c.place, id);
    noteReading(work, c.operation, c.key, c.place, {}, {});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::CorrectReading& c)
{
    const Operation* found = work.car().operation(c.operation);
    if (found == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    const Operation operation = *found;
    const auto it = std::ranges::find(operation.readings, c.reading, &Reading::id);
    if (it == operation.readings.end() || it->superseded ||
        operation.state == OperationState::Withdrawn)
        return Refusal{RefusalId::ReadingUnknown, {}};
    const Reading& original = *it;
    if (auto no = work.needsAny({Right::Work, Right::Check, Right::Manage}))
        return no;
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (auto no = work.mayCheck(operation))
        return no;
    if (auto no = isSafetyReading(work.car(), operation, original)
                      ? work.maySafelyCorrect(operation.recorders(original.id), c.evidence)
                      : work.mustBeShown(c.evidence))
        return no;
    const ReadingSpec* spec = specOf(operation, original.key);
    if (auto no = readingFault(work, operation, original.key, original.place, c.value, true))
        return no;
    const auto judged = judge(work, operation, *spec, original.place, c.value);
    if (!judged)
        return judged.error();
    // A slip of the finger was read off the same tool, which was in date then.
    const bool sameTool = c.tool.isNull() && original.tool.isEntered();
    const auto tool =
        sameTool ? tl::expected<ToolUsed, Refusal>(original.tool) : toolFor(work, *spec, c.tool);
    if (!tool)
        return tool.error();
    // What was signed on the strength of the wrong value is open again.
    const bool standsClosed = operation.state == OperationState::Closed || operation.awaitsSecond();
    if (standsClosed && judged->outcome == ReadingOutcome::Outside)
        work.reopen(c.operation, c.reason.trimmed(), {});
    const ReadingId id{work.car().nextReading};
    work.add(
        ReadingCorrected{c.operation, original.id, id, c.value, judged->outcome, judged->limits,
                         c.reason.trimmed(), c.evidence, *tool,
                         waitCorrected(*work.car().operation(c.operation), original.key, c.value)});
    // The follow-up that the old value opened serves the new one, too, where it is the same work.
    std::vector<OperationId> serving;
    for (const auto& [number, followUp] : work.car().operations)
        if (followUp.isOpen() && followUp.spec->id == judged->opens &&
            std::ranges::find(followUp.fromReadings, original.id) != followUp.fromReadings.end())
            serving.push_back(number);
    for (const OperationId number : serving)
        work.add(OperationExtended{number, {}, {}, {id}});
    work.detach(original.id, c.reason.trimmed());
    if (serving.empty())
        openFollowUpOf(work, operation, *judged, original.place, id);
    noteReading(work, c.operation, original.key, original.place, c.reason.trimmed(), c.evidence);
    return std::nullopt;
}

} // namespace ramplight::decision
