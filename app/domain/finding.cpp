// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/hearing.h"
#include "domain/holds.h"
#include "domain/tyreconcerns.h"
#include "domain/words.h"

#include <algorithm>
#include <cstdlib>

namespace ramplight {

namespace {

PlaceId windscreen()
{
    return PlaceId{QStringLiteral("windscreen")};
}

/// No windscreen of a car or van reaches farther from the steering wheel.
constexpr int widestScreenMm = 2500;

MaybeRefusal findingFault(const FindingData& data)
{
    if (placeInfo(data.place) == nullptr || data.place == wholeCar())
        return Refusal{RefusalId::PlaceUnknown, {data.place.text}};
    if (data.count && (*data.count < 1 || *data.count > 999))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("count")}};
    if (data.sizeMm && (*data.sizeMm < 1 || *data.sizeMm > 5000))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("size")}};
    if (data.treadTenthsMm && (*data.treadTenthsMm < 0 || *data.treadTenthsMm > 200))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("tread")}};
    if (data.screen && (data.place != windscreen() ||
                        std::abs(data.screen->fromWheelMm.value_or(0)) > widestScreenMm))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("position on the windscreen")}};
    return std::nullopt;
}

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

/// The same in everything that rules and people decide by; only the words around it differ.
bool saysTheSame(FindingData a, const FindingData& b)
{
    a.note = b.note;
    a.quote = b.quote;
    a.atSeconds = b.atSeconds;
    return a == b;
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

/// Other open work answers a finding, and not only to get at what is taken out.
bool answeredOtherwise(const CarState& car, FindingId finding, OperationId takenOut)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return entry.first != takenOut && !o.spec->access && o.state != OperationState::Withdrawn &&
               std::ranges::find(o.findings, finding) != o.findings.end();
    });
}

bool neededFor(const CarWork& work, const Operation& access)
{
    return std::ranges::any_of(access.findings, [&](FindingId finding) {
        return answeredOtherwise(work.car(), finding, access.id);
    });
}

} // namespace

void recordFinding(CarWork& work, const FindingData& said, OperationId during,
                   const CarId& carriedFrom)
{
    const FindingData data = judged(work, said);
    const Answer answer = answerTo(work, data);
    const FindingId id{work.car().nextFinding};
    work.add(FindingRecorded{id, data, during, answer.rule, answer.undecided, answer.disclosed,
                             carriedFrom, answer.why});
    work.answer(id, answer);
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
    const FindingId id{work.car().nextFinding};
    recordFinding(work, c.data, c.during, {});
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
    if (safety && !ownSlip) {
        for (const FindingVersion& version : finding->versions)
            if (auto no = work.maySafelyCorrect(version.by, c.evidence))
                return no;
    }
    if (c.stands && finding->stands() && saysTheSame(finding->data(), data)) {
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
    const CarState before = work.car();
    work.detach(c.finding, c.reason.trimmed(), samePlace ? answer.kinds : QStringList{});
    uncover(work, before, c.finding);
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
    if (operation.spec->access && neededFor(work, operation))
        return Refusal{RefusalId::NotWithdrawable, {}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    std::vector<FindingId> disclosed;
    for (const FindingId finding : operation.findings)
        if (!answeredOtherwise(work.car(), finding, operation.id))
            disclosed.push_back(finding);
    work.add(OperationTakenOut{c.operation, c.reason.trimmed(), disclosed});
    for (const FindingId finding : disclosed)
        work.detach(finding, c.reason.trimmed(), {});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::LinkDuplicate& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Manage}))
        return no;
    if (c.other == work.car().id)
        return Refusal{RefusalId::SameCar, {}};
    const CarState* other = work.context().other;
    if (other == nullptr || !other->exists())
        return Refusal{RefusalId::CarMissing, {}};
    work.add(DuplicateLinked{c.other, other->identity.stockNumber});
    for (const auto& [id, finding] : other->findings) {
        if (!finding.stands())
            continue;
        const FindingData& data = finding.data();
        const bool known = work.car().hasFinding(data.place, data.condition);
        const FindingId copy{work.car().nextFinding};
        if (!known)
            recordFinding(work, data, {}, c.other);
        for (const AttachedPhoto& photo : other->photos)
            if (photo.finding == id && other->removedPhoto(photo.photo) == nullptr)
                work.add(PhotoAttached{
                    photo.photo, photo.moment, photo.place, {}, known ? FindingId{} : copy});
    }
    for (const AttachedPhoto& photo : other->photos)
        if (photo.finding.isNull() && other->removedPhoto(photo.photo) == nullptr)
            work.add(PhotoAttached{photo.photo, photo.moment, photo.place, {}, {}});
    return std::nullopt;
}

} // namespace decision

} // namespace ramplight
