// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/checking.h"
#include "domain/holds.h"

#include <algorithm>

namespace ramplight::decision {

namespace {

/// Whoever entered a figure signs nothing that was measured against it, neither first nor second:
/// otherwise a figure that was read off the wrong line would stand by one person's word.
MaybeRefusal figureFault(const CarWork& work, const Operation& operation)
{
    if (const ReadingSpec* spec = readAgainstFigureOf(operation, work.actor()))
        return Refusal{RefusalId::FigureBySigner, {spec->title}};
    return std::nullopt;
}

/// Evidence that is missing, outside, or forbids closing.
MaybeRefusal evidenceFault(const CarWork& work, const Operation& operation)
{
    QStringList missing = missingEvidence(operation, work.car(), work.rules());
    if (lacksIsolation(operation))
        missing.append(QStringLiteral("high voltage isolated, locked and proved dead"));
    if (work.car().isolation && work.car().isolation->operation == operation.id)
        missing.append(QStringLiteral("isolation lifted"));
    if (!missing.isEmpty())
        return Refusal{RefusalId::EvidenceOpen, missing};
    if (auto no = figureFault(work, operation))
        return no;
    for (const ReadingSpec& spec : operation.spec->readings) {
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places) {
            const Reading* reading = operation.reading(spec.key, place);
            if (reading == nullptr)
                continue;
            if (reading->outcome != ReadingOutcome::Outside)
                continue;
            const QString what = QStringLiteral("%1 %2").arg(
                place.isEmpty()
                    ? spec.title
                    : QStringLiteral("%1, %2").arg(spec.title, placeWords(place, work.rules())),
                readingWords(spec, reading->value));
            return Refusal{spec.kind == ReadingKind::Choice ? RefusalId::AnswerForbidsClosing
                                                            : RefusalId::ReadingOutside,
                           {what}};
        }
    }
    return std::nullopt;
}

PersonId lastSigner(const Operation& operation)
{
    for (auto it = operation.signatures.rbegin(); it != operation.signatures.rend(); ++it)
        if (!it->voided && it->meaning != SignatureMeaning::Countersigned)
            return it->by;
    return operation.segments.empty() ? PersonId{} : operation.segments.back().person;
}

/// The signer's stretches on an operation come to a given number of minutes; each keeps what was
/// measured beside it.
void shareMinutes(CarWork& work, OperationId id, const car::MinutesShare& share)
{
    const std::vector<Segment> segments = work.car().operation(id)->segments;
    const auto isLast = [&](std::size_t at) {
        return std::none_of(segments.begin() + static_cast<std::ptrdiff_t>(at) + 1, segments.end(),
                            [&](const Segment& s) { return s.person == work.actor(); });
    };
    int left = share.minutes;
    for (std::size_t i = 0; i < segments.size(); ++i) {
        const Segment& segment = segments.at(i);
        if (segment.person != work.actor())
            continue;
        const int minutes = isLast(i) ? left : std::min(left, segment.minutes());
        left -= minutes;
        if (minutes != segment.minutes())
            work.add(MinutesCorrected{id, segment.id, minutes,
                                      QStringLiteral("its share of %1 min for %2 wheels together")
                                          .arg(share.of)
                                          .arg(share.wheels)});
    }
}

} // namespace

MaybeRefusal on(CarWork& work, const car::SignOff& c)
{
    const Operation* found = work.car().operation(c.operation);
    if (found == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (!found->isOpen() || found->awaitsSecond())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(*found)}};
    const Operation operation = *found;
    if (operation.state == OperationState::Blocked)
        return Refusal{RefusalId::Blocked, {waitWords(operation)}};
    const bool received = operation.outside && operation.outside->received;
    if (auto no = received ? work.mayReceive(operation) : work.mayWorkOn(operation))
        return no;
    const bool workedOnIt = std::ranges::any_of(
        operation.segments, [&](const Segment& s) { return s.person == work.actor(); });
    if (!received && !workedOnIt)
        return Refusal{RefusalId::NotStarted, {}};
    if (auto no = work.mayCheck(operation))
        return no;
    if (const QString why = whyNotYet(work.car(), operation, work.rules(), work.now());
        !why.isEmpty())
        return Refusal{RefusalId::NotYet, {why}};
    if (auto no = evidenceFault(work, operation))
        return no;
    if (c.share && !work.context().together)
        return Refusal{RefusalId::NotTogether,
                       {QStringLiteral("minutes are shared by those that are signed at once")}};
    work.stopEverybody(c.operation, StopKind::Finished);
    if (c.share)
        shareMinutes(work, c.operation, *c.share);
    const SignatureMeaning meaning = operation.spec->secondPerson == SecondPerson::Check
                                         ? SignatureMeaning::CheckedTheWork
                                     : received ? SignatureMeaning::ReceivedFromOutside
                                                : SignatureMeaning::DidTheWork;
    const int minutes = work.car().operation(c.operation)->minutes();
    work.add(OperationSigned{c.operation, meaning, minutes, c.note.trimmed()});
    if (operation.spec->secondPerson != SecondPerson::Countersign)
        work.close(c.operation);
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::Countersign& c)
{
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (operation->spec->secondPerson != SecondPerson::Countersign || !operation->awaitsSecond())
        return Refusal{RefusalId::NothingToCountersign, {}};
    if (auto no = work.needs(Right::Check))
        return no;
    if (operation->doers().contains(work.actor()))
        return Refusal{RefusalId::CheckByDoer, {}};
    if (auto no = figureFault(work, *operation))
        return no;
    work.add(
        OperationSigned{c.operation, SignatureMeaning::Countersigned, operation->minutes(), {}});
    work.close(c.operation);
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::FailCheck& c)
{
    const Operation* found = work.car().operation(c.operation);
    if (found == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    const Operation check = *found;
    const bool isCheck = check.spec->secondPerson == SecondPerson::Check;
    const bool received = check.awaitsReceipt();
    if (!check.isOpen() || (!isCheck && !received && !check.awaitsSecond()))
        return Refusal{RefusalId::NotACheck, {}};
    if (auto no = received ? work.needsAny({Right::Work, Right::Check, Right::Manage})
                           : work.needs(Right::Check))
        return no;
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (!isCheck) {
        if (!maySendBack(check, work.actor()))
            return Refusal{RefusalId::CheckByDoer, {}};
        work.reopen(c.operation, c.reason.trimmed(), received ? PersonId{} : lastSigner(check));
        return std::nullopt;
    }
    if (auto no = work.mayCheck(check))
        return no;
    const std::vector<OperationId> back = goesBack(work.car(), check, c.work);
    if (back.empty())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("which work is to be put right")}};
    work.stopEverybody(c.operation, StopKind::Finished);
    for (const OperationId id : back) {
        // An earlier reopening may have voided this one already.
        const Operation* operation = work.car().operation(id);
        if (operation->state == OperationState::Closed)
            work.reopen(id, c.reason.trimmed(), lastSigner(*operation));
    }
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::Reopen& c)
{
    if (auto no = work.needsAny({Right::Check, Right::Manage}))
        return no;
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    // A signature by mistake is taken back before the second person looks at it, too.
    if (operation->state != OperationState::Closed &&
        operation->state != OperationState::LeftAsIs && !operation->awaitsSecond())
        return Refusal{RefusalId::OperationNotClosed, {work.titleOf(*operation)}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    work.reopen(c.operation, c.reason.trimmed(), {});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::LeaveAsIs& c)
{
    if (auto no = work.needs(Right::Manage))
        return no;
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (operation->spec->safety)
        return Refusal{RefusalId::SafetyCannotBeLeft, {}};
    if (operation->spec->neverLeft)
        return Refusal{RefusalId::NeverLeftHere, {work.titleOf(*operation)}};
    const std::vector<Skill>& never = work.rules().neverLeft;
    if (std::ranges::find(never, operation->spec->skill) != never.end())
        return Refusal{RefusalId::NeverLeftHere, {ramplight::words(operation->spec->skill)}};
    if (!operation->isOpen())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(*operation)}};
    if (operation->isRunning())
        return Refusal{RefusalId::OperationRunning, {work.titleOf(*operation)}};
    if (operation->isAway())
        return Refusal{RefusalId::Blocked, {operation->outside->firm}};
    if (work.car().isolation && work.car().isolation->operation == c.operation)
        return Refusal{RefusalId::Isolated, {work.car().isolation->lockKeptAt}};
    const QString words = c.words.trimmed();
    if (words.isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (words.size() > car::mostWordsForTheBuyer)
        return Refusal{RefusalId::WordsTooLong,
                       {QString::number(words.size()), QString::number(car::mostWordsForTheBuyer)}};
    const bool touched = operation->wasStarted();
    work.add(OperationLeft{c.operation, words});
    // Half-done work that is left owes its checks all the same.
    if (touched)
        work.openTriggered(c.operation);
    return std::nullopt;
}

} // namespace ramplight::decision
