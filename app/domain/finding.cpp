// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/hearing.h"
#include "domain/holds.h"
#include "domain/openings.h"
#include "domain/tyreconcerns.h"
#include "domain/valuefaults.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

namespace {

/// A finding on the windscreen whose place and size are known, with what may be done about it: the
/// zones decide over the remedy, for resin where it must not be is no repair. Words go along.
FindingData judged(const CarWork& work, const FindingData& said)
{
    if (!said.screen || !said.sizeMm)
        return said;
    const ScreenVerdict verdict =
        judgeScreen(*said.screen, *said.sizeMm, work.catalogue(), work.rules());
    FindingData data = said;
    const QString found = QStringLiteral("%1; %2").arg(verdict.testWords, verdict.repairWords);
    if (!data.note.contains(found))
        data.note = data.note.isEmpty() ? found : QStringLiteral("%1; %2").arg(data.note, found);
    const bool replace = std::ranges::find(data.remedies, Remedy::Replace) != data.remedies.end();
    if (!replace && verdict.mayBeFilled == false)
        data.remedies = {verdict.passesTest == true ? Remedy::Investigate : Remedy::Replace};
    else if (data.remedies.empty() && verdict.mayBeFilled == true)
        data.remedies = {Remedy::Repair};
    return data;
}

Answer answerTo(const CarWork& work, const FindingData& data)
{
    return ramplight::answerTo(work.catalogue(), work.car().facts, data);
}

/// What was covered by work that is not needed any more has to be done by itself again.
void uncover(CarWork& work, const CarState& before, FindingId gone)
{
    for (const auto& [id, operation] : before.operations) {
        const Operation* now = work.car().operation(id);
        if (operation.spec->covers.isEmpty() || !operation.isOpen() || operation.wasStarted() ||
            std::ranges::find(operation.findings, gone) == operation.findings.end() ||
            std::ranges::find(now->findings, gone) != now->findings.end())
            continue;
        const std::vector<FindingId> left = now->findings;
        const bool wanted = std::ranges::any_of(left, [&](FindingId finding) {
            return answerTo(work, work.car().finding(finding)->data())
                .kinds.contains(operation.spec->id);
        });
        if (wanted || left.empty() || operation.origin != Origin::Finding)
            continue;
        work.withdraw(id, QStringLiteral("what it was opened for is gone"));
        for (const FindingId finding : left)
            work.answer(finding, answerTo(work, work.car().finding(finding)->data()));
    }
}

void record(CarWork& work, const FindingData& said, OperationId during, FindingRecorded event)
{
    const FindingData data = judged(work, said);
    const Answer answer = answerTo(work, data);
    event.finding = FindingId{work.car().nextFinding};
    event.data = data;
    event.during = during;
    event.rule = answer.rule;
    event.why = answer.why;
    event.undecided = answer.undecided;
    event.disclosed = answer.disclosed;
    const FindingId id = event.finding;
    work.add(std::move(event));
    work.answer(id, answer);
}

bool shareAny(const QStringList& one, const QStringList& other)
{
    return std::ranges::any_of(one, [&](const QString& kind) { return other.contains(kind); });
}

QStringList without(const QStringList& kinds, const QStringList& others)
{
    QStringList left;
    std::ranges::copy_if(kinds, std::back_inserter(left),
                         [&](const QString& kind) { return !others.contains(kind); });
    return left;
}

/// Open work of a kind answers a finding.
bool isOpenFor(const CarState& car, FindingId finding, const QString& kind)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return o.isOpen() && o.spec->id == kind &&
               std::ranges::find(o.findings, finding) != o.findings.end();
    });
}

/// What other facts ask for of a finding that was not asked for before.
struct Fresh
{
    Answer instead; ///< does the job of what goes, so that it takes that in
    Answer more;
};

Fresh freshOf(const CarWork& work, const Finding& finding, const Answer& was, const Answer& is)
{
    const QStringList gone = without(was.kinds, is.kinds);
    const QStringList fresh = without(is.kinds, was.kinds);
    Fresh wanted;
    for (const QString& kind : is.kinds) {
        const OperationSpec* spec = work.catalogue().find(kind);
        if (spec == nullptr)
            continue;
        if (fresh.contains(kind))
            (shareAny(spec->covers, gone) ? wanted.instead : wanted.more).kinds.append(kind);
        else if (spec->access && !fresh.isEmpty() && !isOpenFor(work.car(), finding.id, kind))
            wanted.more.kinds.append(kind); // the old work's way in is closed again
    }
    return wanted;
}

/// Other facts, another answer. What both want stays as it is, done or not. Work that was begun on
/// the strength of the wrong fact goes as with a wrong finding, and owes its checks like that.
void answerOtherwise(CarWork& work, const Finding& finding, const Answer& was, const Answer& is,
                     const QString& reason)
{
    const QStringList gone = without(was.kinds, is.kinds);
    // What the appraiser took out stays out where the rules want nothing that they did not before.
    const bool left = is.disclosed || (finding.disclosed && !is.kinds.isEmpty() &&
                                       without(is.kinds, was.kinds).isEmpty());
    const Fresh fresh = freshOf(work, finding, was, is);
    work.add(FindingAnswered{finding.id, is.rule, is.why, is.undecided, left});
    work.answer(finding.id, fresh.instead);
    QStringList keep;
    for (const auto& [id, operation] : work.car().operations) {
        const QString& kind = operation.spec->id;
        const bool stoodIn = shareAny(operation.spec->covers, gone) && !is.kinds.contains(kind);
        if (!gone.contains(kind) && !stoodIn)
            keep.append(kind);
    }
    detachFinding(work, finding.id, reason, keep);
    work.answer(finding.id, fresh.more);
}

/// Each finding that stands and that the rules answer otherwise now than by the facts before.
template <class Then>
void forEachAnswered(CarWork& work, const CarFacts& before, const Then& then)
{
    std::vector<FindingId> standing;
    for (const auto& [id, finding] : work.car().findings)
        if (finding.stands())
            standing.push_back(id);
    for (const FindingId id : standing) {
        const Finding finding = *work.car().finding(id);
        const Answer was = ramplight::answerTo(work.catalogue(), before, finding.data());
        const Answer is = answerTo(work, finding.data());
        if (was != is)
            then(finding, was, is);
    }
}

} // namespace

void recordFinding(CarWork& work, const FindingData& said, OperationId during)
{
    record(work, said, during, {});
}

void bringFinding(CarWork& work, const Finding& found, const CarId& from)
{
    FindingRecorded carried;
    carried.carriedFrom = from;
    const FindingVersion& last = found.versions.back();
    for (const PersonId person : found.recorders())
        if (person != last.by)
            carried.foundBy.push_back(person);
    carried.foundBy.push_back(last.by);
    carried.foundAt = last.at;
    record(work, last.data, {}, std::move(carried));
}

void detachFinding(CarWork& work, FindingId finding, const QString& reason,
                   const QStringList& keepKinds)
{
    const CarState before = work.car();
    work.detach(finding, reason, keepKinds);
    uncover(work, before, finding);
}

void answerAnew(CarWork& work, const CarFacts& before, const QString& reason)
{
    forEachAnswered(work, before, [&](const Finding& finding, const Answer& was, const Answer& is) {
        answerOtherwise(work, finding, was, is, reason);
    });
}

void answerMore(CarWork& work, const CarFacts& before)
{
    forEachAnswered(work, before, [&](const Finding& finding, const Answer& was, const Answer& is) {
        if (without(is.kinds, was.kinds).isEmpty() && !was.kinds.isEmpty())
            return;
        const Fresh fresh = freshOf(work, finding, was, is);
        work.add(FindingAnswered{finding.id, is.rule, is.why, is.undecided, is.disclosed});
        work.answer(finding.id, fresh.instead);
        work.answer(finding.id, fresh.more);
    });
}

namespace decision {

MaybeRefusal on(CarWork& work, const car::RecordFinding& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Work, Right::Check, Right::Manage}))
        return no;
    if (auto no = findingFault(c.data))
        return no;
    if (!c.during.isNull() && work.car().operation(c.during) == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (auto no = draftFault(work.car(), c.draft))
        return no;
    FindingRecorded event;
    if (!c.foundBy.isNull() && c.foundBy != work.actor()) {
        const Person* finder = work.context().site->person(c.foundBy);
        if (finder == nullptr || !finder->can(Right::Appraise) || work.car().appraised)
            return Refusal{RefusalId::PersonUnknown, {}};
        event.foundBy = {c.foundBy};
        event.foundAt = c.foundAt.isNull() ? work.now() : std::min(c.foundAt, work.now());
    }
    const FindingId id{work.car().nextFinding};
    record(work, c.data, c.during, std::move(event));
    decideDraft(work, c.draft, c.data, id);
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::FindSound& c)
{
    if (auto no = work.needs(Right::Appraise))
        return no;
    if (work.car().appraised)
        return Refusal{RefusalId::AlreadyAppraised, {}};
    std::vector<PlaceId> places;
    for (const PlaceId& place : c.places) {
        if (placeInfo(place) == nullptr)
            return Refusal{RefusalId::PlaceUnknown, {place.text}};
        if (work.car().hasFinding(place))
            return Refusal{RefusalId::ValueOutOfRange,
                           {QStringLiteral("%1 has a finding, so it is not sound")
                                .arg(placeWords(place, work.rules()))}};
        if (!work.car().seen.contains(place))
            places.push_back(place);
    }
    if (!places.empty())
        work.add(PlacesFoundSound{places});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::FinishAppraisal&)
{
    if (auto no = work.needs(Right::Appraise))
        return no;
    if (work.car().appraised)
        return Refusal{RefusalId::AlreadyAppraised, {}};
    std::vector<PlaceId> unseen;
    for (const SafetyPlace& place : notLookedAt(work.car()))
        unseen.push_back(place.place);
    work.add(AppraisalFinished{unseen});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::CorrectFinding& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Check, Right::Manage}))
        return no;
    const Finding* finding = work.car().finding(c.finding);
    if (finding == nullptr)
        return Refusal{RefusalId::FindingUnknown, {}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (auto no = findingFault(c.stands ? c.data : finding->data()))
        return no;
    const FindingData data = c.stands ? judged(work, c.data) : finding->data();
    const bool answersSafety = std::ranges::any_of(work.car().operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return o.spec->safety && o.state != OperationState::Withdrawn &&
               std::ranges::find(o.findings, c.finding) != o.findings.end();
    });
    const bool safety = answersSafety || work.isSafetyPlace(finding->data().place) ||
                        work.isSafetyPlace(data.place);
    const bool ownSlip = isOwnSlip(work.car(), *finding, work.actor());
    const bool asBefore = c.stands && finding->stands() && saysTheSame(finding->data(), data);
    if (safety && !ownSlip)
        if (auto no = work.maySafelyCorrect(finding->recorders(), c.evidence))
            return no;
    if (!safety && !ownSlip && !asBefore)
        if (auto no = work.mustBeShown(c.evidence))
            return no;
    if (asBefore) {
        work.add(FindingCorrected{c.finding, data, true, c.reason.trimmed(), c.evidence,
                                  finding->undecided, finding->disclosed, false, finding->rule,
                                  finding->why});
        return std::nullopt;
    }
    // Where the place changes, nothing of the old place is kept.
    const bool samePlace = finding->data().place == data.place;
    const Answer answer = c.stands ? answerTo(work, data) : Answer{};
    work.add(FindingCorrected{c.finding, data, c.stands, c.reason.trimmed(), c.evidence,
                              answer.undecided, answer.disclosed, !c.stands && ownSlip, answer.rule,
                              answer.why});
    detachFinding(work, c.finding, c.reason.trimmed(), samePlace ? answer.kinds : QStringList{});
    if (c.stands)
        work.answer(c.finding, answer);
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::OpenOperation& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Work, Right::Manage}))
        return no;
    const OperationSpec* spec = work.catalogue().find(c.kind);
    if (spec == nullptr)
        return Refusal{RefusalId::KindUnknown, {c.kind}};
    const PlaceInfo* info = placeInfo(c.place);
    if (info == nullptr)
        return Refusal{RefusalId::PlaceUnknown, {c.place.text}};
    if (!spec->isFor(info->kind)) {
        QStringList kinds;
        for (const PlaceKind kind : spec->placeKinds)
            kinds.append(words(kind));
        return Refusal{RefusalId::WrongPlace,
                       {placeWords(c.place, work.rules()), kinds.join(QStringLiteral(", "))}};
    }
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    std::vector<FindingId> answers;
    for (const auto& [id, finding] : work.car().findings)
        if (finding.stands() && finding.undecided && finding.data().place == c.place)
            answers.push_back(id);
    work.open(*spec, c.place, {Origin::ByHand, c.reason.trimmed(), answers, {}, {}});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::WithdrawOperation& c)
{
    if (auto no = work.needs(Right::Manage))
        return no;
    const Operation* operation = work.car().operation(c.operation);
    if (operation == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    if (!operation->isOpen())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(*operation)}};
    if (operation->origin != Origin::ByHand || operation->spec->safety || operation->wasStarted() ||
        !operation->findings.empty() || !operation->restsOn.empty() ||
        !operation->fromReadings.empty())
        return Refusal{RefusalId::NotWithdrawable, {}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    work.withdraw(c.operation, c.reason.trimmed());
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::TakeOut& c)
{
    if (auto no = work.needs(Right::Appraise))
        return no;
    if (work.car().appraised)
        return Refusal{RefusalId::AlreadyAppraised, {}};
    const Operation* found = work.car().operation(c.operation);
    if (found == nullptr)
        return Refusal{RefusalId::OperationUnknown, {}};
    const Operation operation = *found;
    if (!operation.isOpen())
        return Refusal{RefusalId::OperationNotOpen, {work.titleOf(operation)}};
    if (operation.spec->safety && !operation.spec->access)
        return Refusal{RefusalId::SafetyCannotBeLeft, {}};
    if (operation.origin != Origin::Finding || operation.wasStarted() ||
        !operation.restsOn.empty() || !operation.fromReadings.empty())
        return Refusal{RefusalId::NotWithdrawable, {}};
    if (operation.spec->access && isAccessWanted(work.car(), operation))
        return Refusal{RefusalId::NotWithdrawable, {}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    const std::vector<FindingId> disclosed = disclosedWithout(work.car(), operation);
    work.add(OperationTakenOut{c.operation, c.reason.trimmed(), disclosed});
    for (const FindingId finding : disclosed)
        work.detach(finding, c.reason.trimmed(), {});
    return std::nullopt;
}

} // namespace decision

} // namespace ramplight
