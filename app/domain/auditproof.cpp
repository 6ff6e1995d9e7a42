// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries that prove work: readings, figures, signatures, closing.
#include "domain/auditor.h"
#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/gauging.h"
#include "domain/holds.h"
#include "domain/openings.h"
#include "domain/valuefaults.h"
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

} // namespace

template <class Event>
const Operation* Auditor::judgeFigure(const Event& e)
{
    needsAny({Right::Check, Right::Manage});
    const Operation* operation = opened(e.operation);
    blameIf(e.value <= 0 || e.value > largestReading || e.source.isEmpty(),
            "enters a figure without a value or its source");
    if (operation == nullptr)
        return nullptr;
    const ReadingSpec* spec = specOf(*operation, e.key, e.place);
    blameIf(spec == nullptr || (!spec->neededFrom && spec->kind != ReadingKind::Figure),
            "enters a figure that nothing asks for");
    return operation;
}

void Auditor::operator()(const FigureSet& e)
{
    if (const Operation* operation = judgeFigure(e))
        blameIf(isFigureInUse(*operation, e.key, e.place),
                "changes a figure that a reading was taken against, or that was corrected");
}

void Auditor::operator()(const FigureCorrected& e)
{
    const Operation* operation = judgeFigure(e);
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    if (operation == nullptr)
        return;
    blameIf(operation->figure(e.key, e.place) == nullptr, "corrects a figure that nobody entered");
    blameIf(operation->state == OperationState::AwaitingCheck && operation->isSigned(),
            "corrects a figure that was signed against");
    blameIf(checksOwnWork(m_car, *operation, m_entry.by, m_site.rules),
            "corrects at a check of the person's own work");
    if (isSafetyFigure(m_car, *operation, e.key, e.place))
        wantsSecondPerson(figureRecorders(*operation, e.key, e.place, m_entry.by), e.evidence,
                          "corrects a safety figure");
    else
        wantsFreshPhoto(e.evidence, "corrects a figure");
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
    blameIf(operation->state == OperationState::AwaitingCheck && operation->isSigned(),
            "measures at work that is signed");
    blameIf(!operation->wasStarted(), "measures at work that nobody began");
    isNext(e.reading, m_car.nextReading);
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
    if (const Reading* earlier = operation->reading(e.key, e.place))
        blameIf(whyReadingStands(m_car, *operation, *earlier, m_entry.by, m_site.rules).has_value(),
                "takes a reading anew that stands");
    judgeValue(*operation, e.key, e.place, e.value, e.limits, e.outcome);
    judgeTool(e.tool, *operation, e.key);
    judgeFollowUpOpened(*operation, e.key, e.place, e.reading, e.value, e.outcome);
    const std::optional<OdometerReading> before = m_car.lastOdometer();
    blameIf(e.key == QLatin1StringView("odometer") && e.value.number && before &&
                *e.value.number < before->value,
            "reads less from the odometer than before, without a reason");
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
    if (isSafetyReading(m_car, *operation, *original))
        wantsSecondPerson(operation->recorders(original->id), e.evidence,
                          "corrects a safety reading");
    else
        wantsFreshPhoto(e.evidence, "corrects a reading");
    blameIf(wasSuperseded(*original), "corrects a reading that does not count any more");
    blameIf(operation->state == OperationState::Withdrawn, "corrects a reading of withdrawn work");
    blameIf(checksOwnWork(m_car, *operation, m_entry.by, m_site.rules),
            "corrects at a check of the person's own work");
    isNext(e.reading, m_car.nextReading);
    judgeValue(*operation, original->key, original->place, e.value, e.limits, e.outcome);
    const Moment wait = waitCorrected(*operation, original->key, e.value);
    blameIf(!wait.isNull() &&
                (e.waitUntil.isNull() ? operation->waitUntil < wait : e.waitUntil != wait),
            "corrects without the time that it has to be left alone");
    // A slip of the finger was read off the same tool, which was in date then.
    if (!original->tool.isEntered() || e.tool != original->tool)
        judgeTool(e.tool, *operation, original->key);
    judgeFollowUpOpened(*operation, original->key, original->place, e.reading, e.value, e.outcome);
    blameIf(e.outcome == ReadingOutcome::Outside && operation->isSigned(),
            "leaves signed what rests on a reading outside its limit");
}

bool Auditor::wasSuperseded(const Reading& reading) const
{
    // Reopened with its correction, its readings count no longer; before that they did.
    for (const auto& [id, operation] : m_before.operations)
        for (const Reading& before : operation.readings)
            if (before.id == reading.id)
                return before.superseded;
    return reading.superseded;
}

void Auditor::judgeFollowUpOpened(const Operation& operation, const QString& key,
                                  const PlaceId& place, ReadingId reading,
                                  const ReadingValue& value, ReadingOutcome outcome)
{
    const ReadingSpec* spec = specOf(operation, key, place);
    const QString kind = spec == nullptr ? QString() : followUpOf(*spec, value, outcome);
    if (kind.isEmpty() || m_known.isWithout(m_site, kind))
        return;
    const bool opens = groupHasOne<OperationOpened>([&](const OperationOpened& e) {
        return e.spec->id == kind && contains(e.fromReadings, reading);
    });
    const bool extends = groupHasOne<OperationExtended>([&](const OperationExtended& e) {
        const Operation* more = m_car.operation(e.operation);
        return contains(e.fromReadings, reading) && more != nullptr && more->spec->id == kind;
    });
    if (!opens && !extends)
        blame(QStringLiteral("reads a value without opening what it makes due: %1").arg(kind));
}

void Auditor::judgeValue(const Operation& operation, const QString& key, const PlaceId& place,
                         const ReadingValue& value, const std::vector<Limit>& limits,
                         ReadingOutcome outcome)
{
    const ReadingSpec* spec = specOf(operation, key, place);
    if (spec == nullptr)
        return blame(QStringLiteral("answers a question that nothing asks: %1").arg(key));
    const PlaceId& tyre = place.isEmpty() ? operation.place : place;
    blameIf(key == QLatin1StringView("date-code") && isTyre(tyre) &&
                !readDateCode(value.text, dayOf(m_entry.at)),
            "reads off a tyre what cannot stand there");
    blameIf(isNoWaiting(operation, key, value), "has adhesive that cures in no time");
    const bool isJudged = spec->kind == ReadingKind::Limit || spec->kind == ReadingKind::Figure;
    blameIf(!isJudged && !limits.empty(), "judges a reading by limits that it does not have");
    if (spec->kind == ReadingKind::Choice) {
        const auto option = std::ranges::find(spec->options, value.text, &ChoiceOption::id);
        if (option == spec->options.end() || value.number)
            return blame(QStringLiteral("chooses what is not to be chosen: %1").arg(value.text));
        return blameIf((outcome == ReadingOutcome::Inside) != option->closes,
                       "judges an answer other than the catalogue does");
    }
    if (spec->kind == ReadingKind::Text)
        blameIf(!isAnswerTo(*spec, value), "is no words where words are asked");
    else if (!isAnswerTo(*spec, value))
        return blame(QStringLiteral("is no number where a number is asked: %1").arg(key));
    if (isJudged)
        return judgeNumber(operation, *spec, place, *value.number, limits, outcome);
    blameIf(outcome != ReadingOutcome::Recorded, "judges what is only kept");
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
    blameIf(limits != wanted || limits.empty(), "judges a reading by limits that it does not have");
    blameIf((outcome == ReadingOutcome::Inside) != isInside(value, limits),
            "judges a reading other than its limits do");
}

void Auditor::judgeTool(const ToolUsed& used, const Operation& operation, const QString& key)
{
    for (const ReadingSpec& spec : operation.spec->readings) {
        if (spec.key != key)
            continue;
        if (!spec.tool) {
            blameIf(used.isEntered(), "was read with a tool where none is asked");
            continue;
        }
        blameIf(!used.isEntered() && !m_site.toolsOf(*spec.tool).empty(),
                "was read without naming the tool");
        const Tool* tool = m_site.tool(used.id);
        if (used.isEntered() && (tool == nullptr || !tool->active || tool->kind != *spec.tool ||
                                 !tool->isInDate(dayOf(m_entry.at, m_site.rules))))
            blame(QStringLiteral("was read with a tool that was not in date: %1").arg(used.number));
        blameIf(tool != nullptr && used.isEntered() &&
                    used != ToolUsed{tool->id, tool->number, tool->nextCalibration},
                "says of its tool what was not so");
    }
}

void Auditor::operator()(const OperationSigned& e)
{
    const Operation* operation = opened(e.operation);
    if (operation == nullptr)
        return;
    const bool waitsForSecond =
        operation->state == OperationState::AwaitingCheck && operation->isSigned();
    const bool received = operation->outside && operation->outside->received;
    const bool isCheck = operation->spec->secondPerson == SecondPerson::Check;
    const bool second = e.meaning == SignatureMeaning::Countersigned;
    if (second) {
        needs(Right::Check);
        blameIf(operation->doers().contains(m_entry.by),
                "is a second signature by the first person");
        blameIf(!waitsForSecond || operation->spec->secondPerson != SecondPerson::Countersign,
                "is a second signature where none is waited for");
    } else {
        const SignatureMeaning wanted = isCheck    ? SignatureMeaning::CheckedTheWork
                                        : received ? SignatureMeaning::ReceivedFromOutside
                                                   : SignatureMeaning::DidTheWork;
        blameIf(e.meaning == SignatureMeaning::ReceivedFromOutside && !received,
                "signs work as received that was not out");
        blameIf(e.meaning != wanted, "says something else by its signature than it stands for");
        if (received)
            mayReceive(operation->spec);
        else
            able(operation->spec);
        if (isCheck)
            needs(Right::Check);
        blameIf(isCheck && didWorkChecked(m_car, *operation, m_entry.by, m_site.rules),
                "is a check by somebody who did some of the work");
        blameIf(!received && std::ranges::find(operation->segments, m_entry.by, &Segment::person) ==
                                 operation->segments.end(),
                "is signed by somebody who did not work on it");
        blameIf(waitsForSecond, "signs what is signed already");
        if (const QString why = whyNotYet(m_car, *operation, m_site.rules, m_entry.at);
            !why.isEmpty())
            blame(QStringLiteral("is signed out of its order: %1").arg(why));
    }
    blameIf(operation->state == OperationState::Blocked, "signs work that is blocked");
    blameIf(operation->isRunning(), "signs work that somebody is on");
    if (operation->spec->secondPerson != SecondPerson::Countersign || second)
        blameIf(!groupHasOf<OperationClosed>(e.operation), "signs without closing");
    else
        judgeEvidence(*operation, "is signed");
    blameIf(e.minutes != operation->minutes(), "states minutes that its timers do not have");
    blameIf(readAgainstFigureOf(*operation, m_entry.by) != nullptr,
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
    blameIf(!groupHasOf<OperationSigned>(e.operation), "closes without a signature");
    blameIf(operation->isRunning(), "closes with a timer running");
    const int wait = minutesOfWaiting(*operation);
    blameIf(wait > 0 && e.waitUntil < m_entry.at.plusMinutes(wait),
            "closes without the time that it has to be left alone");
    judgeEvidence(*operation, "closes");
    judgeDue(*operation, "closes");
}

void Auditor::judgeEvidence(const Operation& operation, const char* then)
{
    const QString what = QString::fromUtf8(then);
    if (lacksIsolation(operation))
        blame(what + QStringLiteral(" without the high voltage isolated"));
    if (m_car.isolation && m_car.isolation->operation == operation.id)
        blame(what + QStringLiteral(" with its isolation not lifted"));
    const QStringList missing = missingEvidence(operation, m_car, m_site.rules);
    if (!missing.isEmpty())
        blame(QStringLiteral("%1 without: %2").arg(what, missing.join(QStringLiteral(", "))));
    for (const Reading& reading : operation.readings)
        if (!reading.superseded && reading.outcome == ReadingOutcome::Outside)
            blame(what + QStringLiteral(" with a reading outside its limit"));
}

} // namespace ramplight
