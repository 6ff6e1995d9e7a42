// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries about a car as a whole: arrival, what was found, moving, release, leaving.
#include "domain/auditor.h"
#include "domain/gauging.h"
#include "domain/holds.h"
#include "domain/odometer.h"
#include "domain/retention.h"
#include "domain/vin.h"
#include "domain/words.h"

namespace ramplight {

namespace {

bool isWholeIdentity(const Identity& identity)
{
    return !identity.stockNumber.isEmpty() && !identity.make.isEmpty() && !identity.model.isEmpty();
}

} // namespace

void Auditor::operator()(const CarArrived& e)
{
    needsAny({Right::Appraise, Right::Manage});
    blameIf(!isWholeIdentity(e.identity) || !e.promised.isValid(),
            "brings in a car without its number, make, model or promised day");
    blameIf(!e.identity.vin.isEmpty() && !readVin(e.identity.vin),
            "has a vehicle identification number that is none");
}

void Auditor::operator()(const IdentityCorrected& e)
{
    needsAny({Right::Appraise, Right::Manage});
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    blameIf(!isWholeIdentity(e.identity), "leaves a car without its number, make or model");
    blameIf(!e.identity.vin.isEmpty() && !readVin(e.identity.vin),
            "has a vehicle identification number that is none");
}

void Auditor::operator()(const FactsCorrected& e)
{
    needsAny({Right::Appraise, Right::Check, Right::Manage});
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    const bool placesGo = std::ranges::any_of(m_car.safetyPlaces, [&](const SafetyPlace& place) {
        return std::ranges::find(e.safetyPlaces, place) == e.safetyPlaces.end();
    });
    blameIf(placesGo && (m_car.factsBy == m_entry.by || e.evidence.isEmpty()),
            "takes safety places away without a second person and a photo");
}

void Auditor::operator()(const PromiseChanged& e)
{
    needs(Right::Manage);
    blameIf(!e.promised.isValid(), "promises no day");
}

void Auditor::operator()(const FindingRecorded& e)
{
    needsAny({Right::Appraise, Right::Work, Right::Check, Right::Manage});
    knowsPlace(e.data.place);
    blameIf(e.data.place == wholeCar(), "finds something on no place");
    blameIf(m_car.finding(e.finding) != nullptr, "takes the number of another finding");
}

void Auditor::operator()(const FindingCorrected& e)
{
    const Finding* finding = m_car.finding(e.finding);
    if (finding == nullptr)
        return blame(QStringLiteral("corrects a finding that is not there"));
    knowsPlace(e.data.place);
    blameIf(e.reason.isEmpty(), "corrects without a reason");
    // What only a corrected reading had shown goes with it.
    if (!groupHas<ReadingCorrected>())
        needsAny({Right::Appraise, Right::Check, Right::Manage});
    const bool answersSafety = std::ranges::any_of(m_car.operations, [&](const auto& entry) {
        const Operation& o = entry.second;
        return o.spec->safety && o.state != OperationState::Withdrawn &&
               std::ranges::find(o.findings, e.finding) != o.findings.end();
    });
    const bool byReading = groupHas<ReadingCorrected>();
    const bool safety = (answersSafety && !byReading) || isSafetyPlace(finding->data().place) ||
                        isSafetyPlace(e.data.place);
    const bool recorded = std::ranges::any_of(
        finding->versions, [&](const FindingVersion& v) { return v.by == m_entry.by; });
    const bool alone = byReading ? finding->versions.back().by == m_entry.by : recorded;
    blameIf(safety && !isOwnSlip(m_car, *finding, m_entry.by) && (alone || e.evidence.isEmpty()),
            "corrects a safety finding without a second person and a photo");
}

void Auditor::operator()(const PlacesFoundSound& e)
{
    needs(Right::Appraise);
    blameIf(m_car.appraised, "finds places sound after the appraisal");
    for (const PlaceId& place : e.places) {
        knowsPlace(place);
        blameIf(std::ranges::any_of(m_car.findings,
                                    [&](const auto& entry) {
                                        return entry.second.stands() &&
                                               entry.second.data().place == place;
                                    }),
                "finds a place sound that has a finding");
    }
}

void Auditor::operator()(const TyreRecorded& e)
{
    if (e.during.isNull())
        needsAny({Right::Appraise, Right::Work});
    knowsPlace(e.place);
    const QString& code = e.marking.dateCode;
    blameIf((!code.isEmpty() && !readDateCode(code, dayOf(m_entry.at))) ||
                !tidied(e.marking.fitment),
            "reads off a tyre what cannot stand there");
}

void Auditor::operator()(const PaintDepthRecorded& e)
{
    needsAny({Right::Appraise, Right::Work});
    knowsPlace(e.panel);
}

void Auditor::operator()(const OdometerRead& e)
{
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

void Auditor::operator()(const WalkRoundRead&)
{
    needs(Right::Appraise);
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
}

void Auditor::operator()(const CarMoved& e)
{
    notRestrained(Restraint::Move, "moves a car that must not be moved");
    const Bay* bay = m_site.bay(e.bay);
    blameIf(!e.bay.isNull() && (bay == nullptr || !bay->active),
            "moves a car into a bay that is not there");
}

void Auditor::operator()(const CarReleased&)
{
    needs(Right::Release);
    for (const Hold& hold : holds(m_car, m_site.rules, m_entry.at))
        blame(QStringLiteral("releases a held car: %1").arg(hold.words));
    const bool somebodyElse = std::ranges::any_of(m_car.operations, [&](const auto& entry) {
        return entry.second.spec->safety &&
               std::ranges::any_of(entry.second.signatures, [&](const Signature& signature) {
                   return !signature.voided && signature.by != m_entry.by;
               });
    });
    blameIf(!somebodyElse, "is a release by the only name under the safety work");
}

void Auditor::operator()(const CarLeft& e)
{
    const bool twice = e.how == LeavingHow::EnteredTwice;
    if (twice)
        needsAny({Right::Appraise, Right::Manage});
    else
        needs(Right::Manage);
    blameIf(!twice && e.reason.isEmpty(), "lets a car leave without a reason");
    blameIf(twice && (e.sameAs.isEmpty() || e.sameAs == m_car.id),
            "calls a car entered twice without another");
    notRestrained(Restraint::Move, "lets a car leave that must not be moved");
    blameIf(m_car.isolation.has_value(), "lets a car leave with high voltage isolated");
}

void Auditor::operator()(const CarBroughtBack& e)
{
    needs(Right::Manage);
    blameIf(!m_car.left, "brings a car back that did not leave");
    blameIf(e.reason.isEmpty(), "brings a car back without a reason");
}

void Auditor::operator()(const DuplicateLinked& e)
{
    needsAny({Right::Appraise, Right::Manage});
    blameIf(e.other == m_car.id, "calls a car its own double");
}

void Auditor::operator()(const PhotosRemoved& e)
{
    needs(Right::Manage);
    const std::vector<PhotoId> due = photosDue(m_car, m_site.rules, m_entry.at);
    blameIf(std::ranges::any_of(
                e.photos,
                [&](const PhotoId& photo) { return std::ranges::find(due, photo) == due.end(); }),
            "removes photos that were to be kept");
}

void Auditor::operator()(const PhotoAttached& e)
{
    blameIf(e.photo.isEmpty(), "attaches no photo");
    blameIf(!e.operation.isNull() && m_car.operation(e.operation) == nullptr,
            "attaches a photo to an operation that is not there");
    blameIf(!e.finding.isNull() && m_car.finding(e.finding) == nullptr,
            "attaches a photo to a finding that is not there");
}

} // namespace ramplight
