// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries about a car as a whole: arrival, facts, moving, release, leaving, photos.
#include "domain/auditor.h"
#include "domain/carwork.h"
#include "domain/contains.h"
#include "domain/holds.h"
#include "domain/openings.h"
#include "domain/retention.h"
#include "domain/valuefaults.h"
#include "domain/vin.h"

namespace ramplight {

namespace {

bool isWholeIdentity(const Identity& identity)
{
    return !identity.stockNumber.isEmpty() &&
           identity.stockNumber == identity.stockNumber.trimmed() && !identity.make.isEmpty() &&
           !identity.model.isEmpty();
}

bool isOfSafetyPlace(const std::vector<SafetyPlace>& places, const SafetyPlace& wanted)
{
    return std::ranges::find(places, wanted.place, &SafetyPlace::place) != places.end();
}

} // namespace

void Auditor::operator()(const CarArrived& e)
{
    needsAny({Right::Appraise, Right::Manage});
    blameIf(!isWholeIdentity(e.identity) || !e.promised.isValid(),
            "brings in a car without its number, make, model or promised day");
    blameIf(!e.identity.vin.isEmpty() && !readVin(e.identity.vin),
            "has a vehicle identification number that is none");
    blameIf(factsFault(e.facts).has_value(), "says of a car what cannot be");
    judgeSafetyPlaces(e.facts, e.safetyPlaces);
    judgeBaseline(e);
}

void Auditor::judgeSafetyPlaces(const CarFacts& facts, const std::vector<SafetyPlace>& places)
{
    std::vector<SafetyPlace> wanted;
    if (const Catalogue* known = catalogue())
        wanted = safetyPlacesFor(*known, facts);
    else if (const LeastCatalogue* least = m_known.least(m_site))
        wanted = least->safetyPlaces;
    for (const SafetyPlace& place : wanted)
        if (fits(place.ifFact, facts) && !isOfSafetyPlace(places, place))
            blame(QStringLiteral("leaves out a safety place: %1").arg(place.place.text));
}

void Auditor::judgeBaseline(const CarArrived& e)
{
    QStringList wanted;
    const auto want = [&](const QString& id, const std::optional<Fact>& ifFact) {
        if (fits(ifFact, e.facts))
            wanted.append(id);
    };
    if (const Catalogue* known = catalogue()) {
        for (const OperationSpec& spec : known->operations)
            if (spec.baseline)
                want(spec.id, spec.ifFact);
    } else if (const LeastCatalogue* least = m_known.least(m_site)) {
        for (const LeastAsked& always : least->operations)
            if (always.baseline)
                want(always.operation, always.ifFact);
    }
    for (const QString& id : wanted)
        if (!groupHasOne<OperationOpened>(
                [&](const OperationOpened& opened) { return opened.spec->id == id; }))
            blame(QStringLiteral("brings in a car without the work that each gets: %1").arg(id));
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
    blameIf(factsFault(e.facts).has_value(), "says of a car what cannot be");
    judgeSafetyPlaces(e.facts, e.safetyPlaces);
    if (!e.carriedFrom.isEmpty()) {
        isCarriedOver({e.carriedFrom, {}, {}});
        blameIf(filledIn(m_car.facts, e.facts) != e.facts ||
                    std::ranges::any_of(m_car.safetyPlaces,
                                        [&](const SafetyPlace& place) {
                                            return !isOfSafetyPlace(e.safetyPlaces, place);
                                        }),
                "takes from a second entry what is said otherwise here");
        return;
    }
    if (m_car.appraised && contradict(m_car.facts, e.facts))
        wantsFreshPhoto(e.evidence, "corrects a fact");
    // What wants a second person shows behind the whole command; the photo was fresh before it.
    if (differForWork(m_car.facts, e.facts) &&
        takesSafetyAway(m_car, afterGroup(), m_entry.by, catalogueOfCar()))
        wantsSecondPerson(m_car.factsBy.ofWhatDiffers(m_car.facts, e.facts), e.evidence,
                          "takes away by a fact what safety hangs on");
}

void Auditor::operator()(const PromiseChanged& e)
{
    needs(Right::Manage);
    blameIf(!e.promised.isValid(), "promises no day");
}

void Auditor::operator()(const CarMoved& e)
{
    // The second entry of a car that is one again may have known better where it stands.
    if (!groupHas<DuplicateLinked>())
        notRestrained(Restraint::Move, "moves a car that must not be moved");
    const Bay* bay = m_site.bay(e.bay);
    blameIf(!e.bay.isNull() && (bay == nullptr || !bay->active),
            "moves a car into a bay that is not there");
}

void Auditor::operator()(const CarReleased& e)
{
    needs(Right::Release);
    // Earlier versions released with spoken findings that nobody had decided about, and the entry
    // does not say by which version it was written.
    for (const Hold& hold : holds(m_car, m_site.rules, m_entry.at))
        if (hold.kind != HoldKind::SpokenNotReviewed)
            blame(QStringLiteral("releases a held car: %1").arg(hold.words));
    const bool somebodyElse = std::ranges::any_of(m_car.operations, [&](const auto& entry) {
        return entry.second.spec->safety && entry.second.state == OperationState::Closed &&
               std::ranges::any_of(entry.second.signatures, [&](const Signature& signature) {
                   return !signature.voided && signature.by != m_entry.by;
               });
    });
    blameIf(!somebodyElse, "is a release by the only name under the safety work");
    blameIf(e.upTo != m_car.seq, "releases another state of the car than there was");
}

void Auditor::operator()(const CarHeldAgain& e)
{
    blameIf(!m_car.released, "holds again what was not released");
    blameIf(e.reason.isEmpty(), "holds a car again without a reason");
    blameIf(!groupHas<FindingRecorded, FindingCorrected, ReadingCorrected, FactsCorrected,
                      IdentityCorrected, OperationReopened, DuplicateLinked, CarBroughtBack>(),
            "holds a car again, and nothing was found or corrected");
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
    blameIf(twice && std::ranges::any_of(m_car.operations,
                                         [](const auto& entry) { return entry.second.isAway(); }),
            "ends an entry whose work an outside firm has");
    notRestrained(Restraint::Move, "lets a car leave that must not be moved");
    blameIf(m_car.isolation.has_value(), "lets a car leave with high voltage isolated");
    blameIf(std::ranges::any_of(m_car.operations,
                                [](const auto& entry) { return entry.second.isRunning(); }),
            "lets a car leave that somebody is on");
}

void Auditor::operator()(const CarBroughtBack& e)
{
    needs(Right::Manage);
    blameIf(!m_car.left, "brings a car back that did not leave");
    blameIf(e.reason.isEmpty(), "brings a car back without a reason");
    blameIf(m_car.released && !groupHas<CarHeldAgain>(),
            "brings a car back released, and nobody knows where it has been");
}

void Auditor::operator()(const DuplicateLinked& e)
{
    needsAny({Right::Appraise, Right::Manage});
    blameIf(e.other == m_car.id, "calls a car its own double");
    blameIf(e.other.isEmpty(), "joins a car with none");
}

void Auditor::operator()(const PhotosRemoved& e)
{
    needs(Right::Manage);
    const std::vector<PhotoId> due = photosDue(m_car, m_site.rules, m_entry.at);
    blameIf(
        std::ranges::any_of(e.photos, [&](const PhotoId& photo) { return !contains(due, photo); }),
        "removes photos that were to be kept");
    blameIf(e.years != m_site.rules.photoYears, "says other years than the house keeps photos");
}

void Auditor::operator()(const PhotoAttached& e)
{
    blameIf(e.photo.isEmpty(), "attaches no photo");
    blameIf(!e.operation.isNull() && m_car.operation(e.operation) == nullptr,
            "attaches a photo to an operation that is not there");
    blameIf(!e.finding.isNull() && m_car.finding(e.finding) == nullptr,
            "attaches a photo to a finding that is not there");
    if (!e.place.isEmpty())
        knowsPlace(e.place);
    isCarriedOver(e.carried);
}

void Auditor::isCarriedOver(const CarriedOver& carried)
{
    blameIf(!carried.isEmpty() && !groupHasOne<DuplicateLinked>([&](const DuplicateLinked& link) {
        return link.other == carried.from;
    }),
            "brings something over from a car that was not joined with it");
}

} // namespace ramplight
