// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries that prove work: readings, figures, signatures, closing.
#include "domain/auditor.h"
#include "domain/checking.h"
#include "domain/holds.h"
#include "domain/words.h"

namespace ramplight {

namespace {

const ReadingSpec* specOf(const Operation& operation, const QString& key, const PlaceId& place)
{
    const auto& specs = operation.spec->readings;
    const auto it = std::ranges::find(specs, key, &ReadingSpec::key);
    if (it == specs.end())
        return nullptr;
    const bool fits = it->places.empty() ? place.isEmpty()
                                         : std::ranges::find(it->places, place) != it->places.end();
    return fits ? &*it : nullptr;
}

/// Safety hangs on it by what its value opened.
bool openedSafetyWork(const CarState& car, ReadingId reading)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return o.spec->safety && o.state != OperationState::Withdrawn &&
               std::ranges::find(o.fromReadings, reading) != o.fromReadings.end();
    });
}

} // namespace

void Auditor::operator()(const FigureSet& e)
{
    needsAny({Right::Check, Right::Manage});
    const Operation* operation = opened(e.operation);
    blameIf(e.value <= 0 || e.source.isEmpty(), "enters a figure without a value or its source");
    if (operation == nullptr)
        return;
    const ReadingSpec* spec = specOf(*operation, e.key, e.place);
    blameIf(spec == nullptr || (!spec->neededFrom && spec->kind != ReadingKind::Figure),
            "enters a figure that nothing asks for");
    blameIf(operation->reading(e.key, e.place) != nullptr,
            "changes a figure that a reading was taken against");
}

void Auditor::operator()(const ReadingTaken& e)
{
    const Operation* operation = opened(e.operation);
    if (operation == nullptr)
        return;
    if (operation->outside && operation->outside->received)
        mayReceive(operation->spec);
    else
        able(operation->spec);
    blameIf(!operation->wasStarted(), "measures at work that nobody began");
    blameIf(operation->state == OperationState::Blocked, "measures at work that is blocked");
    blameIf(checksOwnWork(m_car, *operation, m_entry.by, m_site.rules),
            "measures at a check of the person's own work");
    blameIf(std::ranges::any_of(m_car.operations,
                                [&](const auto& entry) {
                                    return std::ranges::find(entry.second.readings, e.reading,
                                                             &Reading::id) !=
                                           entry.second.readings.end();
                                }),
            "takes the number of another reading");
    judgeValue(*operation, e.key, e.place, e.value, e.limits, e.outcome);
    judgeTool(e.tool, *operation, e.key);
}

void Auditor::operator()(const ReadingCorrected& e)
{
    const Operation* operation = m_car.operation(e.operation);
    if (operation == nullptr)
        return blame(QStringLiteral("corrects a reading of no operation"));
    needsAny({Right::Work, Right::Check, Right::Manage});
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    const auto original = std::ranges::find(operation->readings, e.original, &Reading::id);
    if (original == operation->readings.end())
        return blame(QStringLiteral("corrects a reading that is not there"));
    const bool safety =
        operation->spec->safety ||
        isSafetyPlace(original->place.isEmpty() ? operation->place : original->place) ||
        openedSafetyWork(m_car, original->id);
    blameIf(safety && original->by == m_entry.by,
            "corrects a safety reading without a second person");
    blameIf(safety && e.evidence.isEmpty(), "corrects a safety reading without a photo");
    judgeValue(*operation, original->key, original->place, e.value, e.limits, e.outcome);
}

void Auditor::judgeValue(const Operation& operation, const QString& key, const PlaceId& place,
                         const ReadingValue& value, const std::vector<Limit>& limits,
                         ReadingOutcome outcome)
{
    const ReadingSpec* spec = specOf(operation, key, place);
    if (spec == nullptr)
        return blame(QStringLiteral("answers a question that nothing asks: %1").arg(key));
    if (spec->kind == ReadingKind::Text)
        return blameIf(value.number || value.text.isEmpty(), "is no words where words are asked");
    if (spec->kind == ReadingKind::Choice) {
        const auto option = std::ranges::find(spec->options, value.text, &ChoiceOption::id);
        if (option == spec->options.end())
            return blame(QStringLiteral("chooses what is not to be chosen: %1").arg(value.text));
        return blameIf((outcome == ReadingOutcome::Inside) != option->closes,
                       "judges an answer other than the catalogue does");
    }
    if (!value.number)
        return blame(QStringLiteral("is no number where a number is asked: %1").arg(key));
    if (spec->kind != ReadingKind::Record)
        judgeNumber(operation, *spec, place, *value.number, limits, outcome);
}

void Auditor::judgeNumber(const Operation& operation, const ReadingSpec& spec, const PlaceId& place,
                          int value, const std::vector<Limit>& limits, ReadingOutcome outcome)
{
    std::vector<Limit> wanted = spec.limits;
    if (spec.neededFrom || spec.kind == ReadingKind::Figure) {
        const Figure* figure = operation.figure(spec.key, place);
        if (figure == nullptr)
            return blame(
                QStringLiteral("was measured without this car's figure: %1").arg(spec.key));
        const LimitOwner owner = spec.neededFrom.value_or(LimitOwner::VehicleData);
        Limit entered{owner, figure->source, {}, {}, {}};
        const bool exact = spec.kind == ReadingKind::Figure;
        if (exact || spec.neededIsMax)
            entered.max = figure->value;
        if (exact || !spec.neededIsMax)
            entered.min = figure->value;
        wanted.push_back(entered);
        blameIf(exact && figure->by == m_entry.by,
                "is measured against a figure of the person's own");
        blameIf(exact && value != figure->value, "is not this car's figure");
    }
    blameIf(limits != wanted, "judges a reading by limits that it does not have");
    blameIf((outcome == ReadingOutcome::Inside) != isInside(value, limits),
            "judges a reading other than its limits do");
}

void Auditor::judgeTool(const ToolUsed& used, const Operation& operation, const QString& key)
{
    for (const ReadingSpec& spec : operation.spec->readings) {
        if (spec.key != key || !spec.tool)
            continue;
        blameIf(!used.isEntered() && !m_site.toolsOf(*spec.tool).empty(),
                "was read without naming the tool");
        const Tool* tool = m_site.tool(used.id);
        if (used.isEntered() && (tool == nullptr || tool->kind != *spec.tool ||
                                 !tool->isInDate(dayOf(m_entry.at, m_site.rules))))
            blame(QStringLiteral("was read with a tool that was not in date: %1").arg(used.number));
    }
}

void Auditor::operator()(const OperationSigned& e)
{
    const Operation* operation = opened(e.operation);
    if (operation == nullptr)
        return;
    const bool waitsForSecond =
        operation->state == OperationState::AwaitingCheck && operation->isSigned();
    switch (e.meaning) {
    case SignatureMeaning::CheckedTheWork:
        able(operation->spec);
        needs(Right::Check);
        blameIf(didWorkChecked(m_car, *operation, m_entry.by, m_site.rules),
                "is a check by somebody who did some of the work");
        break;
    case SignatureMeaning::Countersigned:
        needs(Right::Check);
        blameIf(operation->doers().contains(m_entry.by),
                "is a second signature by the first person");
        blameIf(!waitsForSecond || operation->spec->secondPerson != SecondPerson::Countersign,
                "is a second signature where none is waited for");
        break;
    case SignatureMeaning::DidTheWork:
        able(operation->spec);
        blameIf(!operation->doers().contains(m_entry.by),
                "is signed by somebody who did not work on it");
        break;
    case SignatureMeaning::ReceivedFromOutside:
        mayReceive(operation->spec);
        blameIf(!operation->outside || !operation->outside->received,
                "signs work as received that was not out");
        break;
    }
    blameIf(e.meaning != SignatureMeaning::Countersigned && waitsForSecond,
            "signs what is signed already");
    blameIf(operation->state == OperationState::Blocked, "signs work that is blocked");
    if (e.meaning != SignatureMeaning::Countersigned)
        if (const QString why = whyNotYet(m_car, *operation, m_site.rules, m_entry.at);
            !why.isEmpty())
            blame(QStringLiteral("is signed out of its order: %1").arg(why));
    blameIf(e.minutes != operation->minutes(), "states minutes that its timers do not have");
    for (const ReadingSpec& spec : operation->spec->readings)
        for (const Figure& figure : operation->figures)
            blameIf(figure.key == spec.key && operation->reading(spec.key, figure.place) &&
                        figure.by == m_entry.by && e.meaning != SignatureMeaning::Countersigned &&
                        operation->figure(figure.key, figure.place) == &figure,
                    "is signed against a figure that the signer entered");
}

void Auditor::operator()(const OperationClosed& e)
{
    const Operation* operation = opened(e.operation);
    if (operation == nullptr)
        return;
    const auto signedAs = [&](SignatureMeaning meaning) {
        return std::ranges::any_of(operation->signatures, [&](const Signature& signature) {
            return !signature.voided && signature.meaning == meaning;
        });
    };
    blameIf(std::ranges::all_of(operation->signatures, &Signature::voided),
            "closes without a signature");
    blameIf(operation->spec->secondPerson == SecondPerson::Countersign &&
                !signedAs(SignatureMeaning::Countersigned),
            "closes without its second signature");
    blameIf(operation->spec->secondPerson == SecondPerson::Check &&
                !signedAs(SignatureMeaning::CheckedTheWork),
            "closes a check that nobody signed as one");
    blameIf(operation->isRunning(), "closes with a timer running");
    blameIf(operation->spec->highVoltageIsolation && !operation->wasIsolated,
            "closes without the high voltage isolated");
    blameIf(m_car.isolation && m_car.isolation->operation == operation->id,
            "closes with its isolation not lifted");
    const QStringList missing = missingEvidence(*operation, m_car, m_site.rules);
    if (!missing.isEmpty())
        blame(QStringLiteral("closes without: %1").arg(missing.join(QStringLiteral(", "))));
    for (const Reading& reading : operation->readings)
        blameIf(!reading.superseded && reading.outcome == ReadingOutcome::Outside,
                "closes with a reading outside its limit");
    for (const Trigger& trigger : operation->spec->triggers)
        if ((!trigger.ifFact || m_car.facts.is(*trigger.ifFact)) &&
            !opensInGroup(e.operation, trigger))
            blame(
                QStringLiteral("closes without opening what it makes due: %1").arg(trigger.opens));
}

} // namespace ramplight
