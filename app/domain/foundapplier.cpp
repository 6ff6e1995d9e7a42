// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/foundapplier.h"

#include "domain/contains.h"

#include <algorithm>

namespace ramplight {

void FoundApplier::operator()(const CarArrived& e)
{
    m_car.identity = e.identity;
    m_car.facts = e.facts;
    m_car.promised = e.promised;
    m_car.safetyPlaces = e.safetyPlaces;
    m_car.parking = e.parking;
    m_car.arrivedAt = at();
    m_car.factsBy.arrived(e.facts, by());
}

void FoundApplier::operator()(const IdentityCorrected& e)
{
    m_car.identity = e.identity;
}

void FoundApplier::operator()(const FactsCorrected& e)
{
    m_car.factsBy.corrected(m_car.facts, e.facts, by(), {e.saidBy.begin(), e.saidBy.end()});
    if (e.facts.odometerUnit != m_car.facts.odometerUnit)
        m_car.factsBy.unitAt = at();
    m_car.facts = e.facts;
    m_car.safetyPlaces = e.safetyPlaces;
}

void FoundApplier::operator()(const PromiseChanged& e)
{
    m_car.promised = e.promised;
    m_car.importance = e.importance.value_or(m_car.importance);
}

void FoundApplier::operator()(const FindingRecorded& e)
{
    Finding finding;
    finding.id = e.finding;
    const Measured found =
        e.foundBy.empty() ? Measured{by(), at()} : Measured{e.foundBy.back(), e.foundAt};
    finding.versions.push_back({e.data, true, found.by, found.at, {}, {}});
    if (!e.foundBy.empty()) {
        finding.carriedBy.insert(e.foundBy.begin(), e.foundBy.end());
        finding.carriedBy.insert(by());
    }
    if (!e.during.isNull())
        finding.during = e.during;
    finding.undecided = e.undecided;
    finding.disclosed = e.disclosed;
    finding.rule = e.rule;
    finding.why = e.why;
    m_car.seen[e.data.place] = {found.by, found.at, false};
    m_car.nextFinding = std::max(m_car.nextFinding, e.finding.value + 1);
    m_car.findings.insert_or_assign(e.finding, std::move(finding));
}

void FoundApplier::operator()(const FindingCorrected& e)
{
    const auto it = m_car.findings.find(e.finding);
    if (it == m_car.findings.end())
        return;
    const PlaceId before = it->second.data().place;
    it->second.versions.push_back({e.data, e.stands, by(), at(), e.reason, e.evidence});
    it->second.undecided = e.undecided;
    it->second.disclosed = e.disclosed;
    it->second.slip = e.slip;
    it->second.rule = e.rule;
    it->second.why = e.why;
    m_car.seen[e.data.place] = {by(), at(), !e.stands && !m_car.hasFinding(e.data.place)};
    if (e.slip)
        forgetUnlessSeen(e.data.place);
    if (!e.stands)
        reopenDraftOf(e.finding, m_car.spoken);
    if (before != e.data.place)
        forgetUnlessSeen(before);
}

void FoundApplier::operator()(const FindingAnswered& e)
{
    const auto it = m_car.findings.find(e.finding);
    if (it == m_car.findings.end())
        return;
    it->second.undecided = e.undecided;
    it->second.disclosed = e.disclosed;
    it->second.rule = e.rule;
    it->second.why = e.why;
}

void FoundApplier::operator()(const PlacesFoundSound& e)
{
    const Measured seen = said(e.carried);
    for (const PlaceId& place : e.places)
        m_car.seen[place] = {seen.by, seen.at, true};
}

void FoundApplier::operator()(const TreadRecorded& e)
{
    m_car.treads[e.place] = e.tread;
    m_car.tyresMeasured[e.place].tread = {by(), at()};
    seeUnlessSeen(e.place);
}

void FoundApplier::operator()(const TyreRecorded& e)
{
    const Measured read = said(e.carried);
    TyreMeasured& measured = m_car.tyresMeasured[e.place];
    if (e.fitted) {
        m_car.treads.erase(e.place);
        m_car.tyres.erase(e.place);
        measured = {{}, {}, read.at};
        for (auto& [id, operation] : m_car.operations)
            for (Reading& reading : operation.readings)
                reading.superseded = reading.superseded || contains(e.outdated, reading.id);
    }
    if (e.tread) {
        m_car.treads[e.place] = *e.tread;
        measured.tread = read;
    }
    if (!e.marking.isEmpty()) {
        TyreMarking& known = m_car.tyres[e.place];
        if (!e.marking.dateCode.isEmpty())
            known.dateCode = e.marking.dateCode;
        if (!e.marking.fitment.isEmpty())
            known.fitment = e.marking.fitment;
        // What came over may only have filled in what nobody had read.
        if (read.at >= measured.marking.at)
            measured.marking = read;
    }
    // What came over says itself which places were looked at there.
    if (e.tread && e.during.isNull() && e.carried.isEmpty())
        seeUnlessSeen(e.place);
}

void FoundApplier::operator()(const PaintDepthRecorded& e)
{
    m_car.paint[e.panel] = e.micrometres;
    m_car.paintMeasured[e.panel] = said(e.carried);
}

void FoundApplier::operator()(const OdometerRead& e)
{
    Measured read = said(e.carried);
    if (!e.readAt.isNull())
        read.at = e.readAt;
    const auto later = std::ranges::upper_bound(m_car.odometer, read.at, {}, &OdometerReading::at);
    m_car.odometer.insert(later,
                          OdometerReading{e.value, e.unit, read.by, read.at, e.during, e.lowerWhy});
}

void FoundApplier::operator()(const AppraisalFinished&)
{
    m_car.appraised = true;
}

void FoundApplier::operator()(const WalkRoundRead& e)
{
    m_car.spoken.push_back(
        {e.round, by(), at(), std::vector<DraftDecision>(e.round.drafts.size())});
}

void FoundApplier::operator()(const DraftDecided& e)
{
    for (SpokenReview& review : m_car.spoken)
        if (review.round.transcript == e.transcript && e.draft >= 0 &&
            e.draft < static_cast<int>(review.decisions.size()))
            review.decisions[static_cast<std::size_t>(e.draft)] = {e.end, e.finding};
}

void FoundApplier::operator()(const PhotoAttached& e)
{
    const Measured taken = said(e.carried);
    m_car.photos.push_back(
        {e.photo, e.moment, e.place, e.operation, e.finding, taken.by, taken.at});
}

Measured FoundApplier::said(const CarriedOver& carried) const
{
    return carried.isEmpty() ? Measured{by(), at()} : Measured{carried.by, carried.at};
}

/// The only finding of a place turned out to be somewhere else: nobody looked here, unless
/// something else says so. Better asked once more than never.
void FoundApplier::forgetUnlessSeen(const PlaceId& place)
{
    if (!m_car.isKnownOtherwise(place))
        m_car.seen.remove(place);
}

void FoundApplier::seeUnlessSeen(const PlaceId& place, bool byWork)
{
    if (!m_car.seen.contains(place))
        m_car.seen[place] = {by(), at(), true, byWork};
}

} // namespace ramplight
