// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries about what was seen of a car, measured and read off it, and what was said on a
// walk-round.
#include "domain/auditor.h"
#include "domain/contains.h"
#include "domain/findingrules.h"
#include "domain/gauging.h"
#include "domain/holds.h"
#include "domain/odometer.h"
#include "domain/tyreconcerns.h"
#include "domain/valuefaults.h"

namespace ramplight {

void Auditor::operator()(const FindingRecorded& e)
{
    needsAny({Right::Appraise, Right::Work, Right::Check, Right::Manage});
    knowsPlace(e.data.place);
    blameIf(e.data.place == wholeCar(), "finds something on no place");
    blameIf(findingFault(e.data).has_value(), "finds what cannot be");
    blameIf(m_car.finding(e.finding) != nullptr, "takes the number of another finding");
    isNext(e.finding, m_car.nextFinding);
    blameIf(!e.during.isNull() && m_car.operation(e.during) == nullptr,
            "was found during work that is not there");
    isCarriedOver({e.carriedFrom, {}, {}});
    // An appraisal file is taken in whole, by anybody who may: its appraiser found what it says.
    const bool outOfFile =
        groupHas<CarArrived>() && std::ranges::all_of(e.foundBy, [&](PersonId by) {
            const Person* finder = m_site.person(by);
            return finder != nullptr && finder->can(Right::Appraise);
        });
    blameIf(e.carriedFrom.isEmpty() && !e.foundBy.empty() && !outOfFile,
            "was found by somebody else than who writes it");
    judgeRule(e.data, e.undecided, e.disclosed);
}

void Auditor::judgeRule(const FindingData& data, bool undecided, bool disclosed)
{
    const Catalogue* known = catalogue();
    if (known == nullptr)
        return;
    const Answer answer = answerTo(*known, m_car.facts, data);
    blameIf(answer.undecided && !undecided, "calls decided what no rule decides");
    blameIf(!answer.kinds.isEmpty() && (undecided || disclosed),
            "leaves out the work that answers a finding");
}

void Auditor::judgeAnswered(FindingId id)
{
    const Finding* finding = m_car.finding(id);
    if (finding == nullptr || !finding->stands() || finding->undecided || finding->disclosed ||
        !isSafetyPlace(finding->data().place))
        return;
    blameIf(std::ranges::none_of(m_car.operations,
                                 [&](const auto& entry) {
                                     return entry.second.state != OperationState::Withdrawn &&
                                            contains(entry.second.findings, id);
                                 }),
            "leaves a safety finding without the work that is said to answer it");
}

bool Auditor::isTakenBack(const FindingCorrected& e, const Finding& finding) const
{
    const PlaceId& place = finding.data().place;
    if (e.stands || !isTyre(place))
        return false;
    const auto isBecauseOf = [&](const auto& correction) {
        return e.reason == correction.reason && e.evidence == correction.evidence;
    };
    const bool withReading = groupHasOne<ReadingCorrected>([&](const ReadingCorrected& corrected) {
        const Operation* operation = m_car.operation(corrected.operation);
        if (operation == nullptr || finding.during != corrected.operation)
            return false;
        const auto reading =
            std::ranges::find(operation->readings, corrected.original, &Reading::id);
        if (reading == operation->readings.end())
            return false;
        const PlaceId& tyre = reading->place.isEmpty() ? operation->place : reading->place;
        return (place == tyre || place == tyreBeside(tyre)) && isBecauseOf(corrected);
    });
    return withReading || groupHasOne<FactsCorrected>([&](const FactsCorrected& corrected) {
               const CarFacts was = beforeFacts().facts;
               return isBecauseOf(corrected) && (was.frontTyre != corrected.facts.frontTyre ||
                                                 was.rearTyre != corrected.facts.rearTyre);
           });
}

void Auditor::operator()(const FindingCorrected& e)
{
    const Finding* finding = m_car.finding(e.finding);
    if (finding == nullptr)
        return blame(QStringLiteral("corrects a finding that is not there"));
    knowsPlace(e.data.place);
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    blameIf(!e.stands && e.data != finding->data(), "takes another finding back than there is");
    // What only a corrected reading of a tyre had shown, or what the car asks of it, goes with it.
    if (isTakenBack(e, *finding))
        return;
    needsAny({Right::Appraise, Right::Check, Right::Manage});
    blameIf(findingFault(e.data).has_value(), "finds what cannot be");
    const bool answersSafety = std::ranges::any_of(m_car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return o.spec->safety && o.state != OperationState::Withdrawn &&
               contains(o.findings, e.finding);
    });
    const bool safety =
        answersSafety || isSafetyPlace(finding->data().place) || isSafetyPlace(e.data.place);
    const bool ownSlip = isOwnSlip(m_car, *finding, m_entry.by);
    blameIf(e.slip && (e.stands || !ownSlip), "calls a slip what was none");
    if (safety && !ownSlip)
        wantsSecondPerson(finding->recorders(), e.evidence, "corrects a safety finding");
    const bool otherWordsOnly =
        e.stands && finding->stands() && saysTheSame(finding->data(), e.data);
    if (!safety && !ownSlip && !otherWordsOnly)
        wantsFreshPhoto(e.evidence, "corrects a finding");
    const bool asBefore = e.undecided == finding->undecided && e.disclosed == finding->disclosed;
    if (e.stands && !(asBefore && e.rule == finding->rule))
        judgeRule(e.data, e.undecided, e.disclosed);
}

void Auditor::operator()(const FindingAnswered& e)
{
    const Finding* finding = m_car.finding(e.finding);
    if (finding == nullptr || !finding->stands())
        return blame(QStringLiteral("answers a finding that does not stand"));
    blameIf(!groupHas<FactsCorrected>(), "answers a finding anew, and no facts were corrected");
    // What the appraiser took out stays out.
    if (!finding->disclosed)
        judgeRule(finding->data(), e.undecided, e.disclosed);
}

void Auditor::operator()(const PlacesFoundSound& e)
{
    isCarriedOver(e.carried);
    // Whoever may join two entries may bring over what was said there.
    if (e.carried.isEmpty()) {
        needs(Right::Appraise);
        blameIf(m_car.appraised, "finds places sound after the appraisal");
    }
    for (const PlaceId& place : e.places) {
        knowsPlace(place);
        blameIf(m_car.hasFinding(place), "finds a place sound that has a finding");
    }
}

void Auditor::operator()(const TreadRecorded& e)
{
    needsAny({Right::Appraise, Right::Work});
    blameIf(!isTyre(e.place), "measures the tread of what is no tyre");
    blameIf(treadFault(e.tread).has_value(), "reads off a tyre what cannot stand there");
}

void Auditor::operator()(const TyreRecorded& e)
{
    isCarriedOver(e.carried);
    knowsPlace(e.place);
    blameIf(!isTyre(e.place), "measures the tread of what is no tyre");
    const QString& code = e.marking.dateCode;
    blameIf((!code.isEmpty() && !readDateCode(code, dayOf(m_entry.at))) ||
                !tidied(e.marking.fitment),
            "reads off a tyre what cannot stand there");
    blameIf(!e.outdated.empty() &&
                (!e.fitted || e.outdated != readingsOfTyre(m_car, e.place, e.during)),
            "has readings outdated that are not of the tyre that came off");
    if (!e.carried.isEmpty())
        return;
    if (e.during.isNull()) {
        needsAny({Right::Appraise, Right::Work});
        blameIf(e.tread && treadFault(*e.tread), "reads off a tyre what cannot stand there");
        blameIf(e.fitted, "fits a tyre without any work");
        return;
    }
    const Operation* operation = m_car.operation(e.during);
    if (operation == nullptr)
        return blame(QStringLiteral("was read during work that is not there"));
    if (e.fitted)
        return blameIf(!groupHasOf<OperationClosed>(e.during) || operation->place != e.place ||
                           e.tread,
                       "fits a tyre by work that does not end here");
    // What was made of words that stood on it is believed: how they are read changes with the
    // program.
    blameIf(!groupHasOf<ReadingTaken, ReadingCorrected>(e.during),
            "says of a tyre what nobody reads");
    blameIf(e.tread && e.tread != treadOf(*operation, e.place),
            "says of a tyre what its readings do not");
}

void Auditor::operator()(const PaintDepthRecorded& e)
{
    isCarriedOver(e.carried);
    if (e.carried.isEmpty())
        needsAny({Right::Appraise, Right::Work});
    const PlaceInfo* info = placeInfo(e.panel);
    knowsPlace(e.panel);
    blameIf(info != nullptr && info->kind != PlaceKind::Panel,
            "measures the paint of what is no metal panel");
    blameIf(e.micrometres.size() < leastPaintPoints || !isPaintDepth(e.micrometres),
            "measures paint that cannot be");
}

void Auditor::operator()(const OdometerRead& e)
{
    isCarriedOver(e.carried);
    needsAny({Right::Appraise, Right::Work, Right::Check, Right::Manage, Right::Release});
    blameIf(!e.during.isNull() && m_car.operation(e.during) == nullptr,
            "was read during work that is not there");
    const bool byReading = groupHasOf<ReadingTaken, ReadingCorrected>(e.during);
    blameIf(!byReading && (e.value < 1 || e.value > largestOdometer),
            "reads off the odometer what it cannot show");
    if (!e.carried.isEmpty())
        return; // by the time at which it was read there, not by the order of the entries
    if (!e.readAt.isNull()) {
        const Operation* work = m_car.operation(e.during);
        const auto isIt = [&](const Reading& reading) {
            return reading.key == QLatin1StringView("odometer") && !reading.superseded &&
                   readFirst(*work, reading) == e.readAt;
        };
        return blameIf(work == nullptr || !groupHasOf<ReadingCorrected>(e.during) ||
                           std::ranges::none_of(work->readings, isIt),
                       "dates a reading of the odometer that it does not correct");
    }
    const std::optional<OdometerReading> before = m_car.lastOdometer();
    blameIf(before && e.lowerWhy.isEmpty() &&
                showsLess(e.value, e.unit, before->value, before->unit),
            "reads less from the odometer than before, without a reason");
}

void Auditor::operator()(const AppraisalFinished&)
{
    needs(Right::Appraise);
    blameIf(m_car.appraised, "finishes an appraisal that was finished");
}

void Auditor::operator()(const WalkRoundRead& e)
{
    needs(Right::Appraise);
    blameIf(e.round.transcript.isEmpty(), "has words read of no transcript");
    blameIf(m_car.review(e.round.transcript) != nullptr, "has the same words read again");
    if (const PlaceId place = strangePlace(e.round); !place.isEmpty())
        blame(QStringLiteral("names a place that no car has: %1").arg(place.text));
}

void Auditor::operator()(const DraftDecided& e)
{
    const DraftRef ref{e.transcript, e.draft};
    if (m_car.draft(ref) == nullptr)
        return blame(QStringLiteral("decides about a draft that is not there"));
    const DraftEnd end =
        m_car.review(e.transcript)->decisions[static_cast<std::size_t>(e.draft)].end;
    blameIf(end == DraftEnd::Kept || end == DraftEnd::Changed ||
                (end == DraftEnd::Dropped && e.end != DraftEnd::Open),
            "decides about a draft that was decided");
    if (e.end == DraftEnd::Kept || e.end == DraftEnd::Changed)
        return blameIf(!groupHasOne<FindingRecorded>([&](const FindingRecorded& recorded) {
            return recorded.finding == e.finding;
        }),
                       "keeps a draft without recording it");
    needs(Right::Appraise);
    blameIf(!e.finding.isNull(), "records a draft that it drops");
    blameIf(m_car.released.has_value(), "was written to a car that was released");
}

} // namespace ramplight
