// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Entries that open work: each has its cause in the same command, and asks for what the catalogue
// does.
#include "domain/auditor.h"
#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/findingrules.h"
#include "domain/openings.h"

namespace ramplight {

namespace {

bool isOnlyMore(const std::vector<FindingId>& findings, const std::vector<OperationId>& restsOn,
                const std::vector<ReadingId>& readings)
{
    return findings.empty() && restsOn.empty() && readings.empty();
}

template <class Id>
bool isPartOf(const std::vector<Id>& some, const std::vector<Id>& all)
{
    return std::ranges::all_of(some, [&](const Id& id) { return contains(all, id); });
}

} // namespace

void Auditor::operator()(const OperationOpened& e)
{
    blameIf(m_car.operation(e.operation) != nullptr, "takes the number of another operation");
    isNext(e.operation, m_car.nextOperation);
    knowsPlace(e.place);
    judgeSpec(e);
    judgeTwice(e);
    const bool restsOnNothing = isOnlyMore(e.findings, e.restsOn, e.fromReadings);
    const std::optional<Fact>& ifFact = e.spec->ifFact;
    switch (e.origin) {
    case Origin::ByHand:
        blameIf(e.reason.isEmpty(), "opens work by hand without a reason");
        blameIf(!e.restsOn.empty() || !e.fromReadings.empty(),
                "opens by hand what rests on other work");
        judgeByHand(e.spec, e.place, e.findings);
        break;
    case Origin::Baseline:
        blameIf(!groupHas<CarArrived>() || !restsOnNothing || e.place != wholeCar() ||
                    !e.spec->baseline || !fits(ifFact, m_car.facts),
                "opens as every car's own what this one does not get on arrival");
        break;
    case Origin::Fact:
        blameIf(!groupHas<FactsCorrected>() || !restsOnNothing || e.place != wholeCar() ||
                    !e.spec->baseline || !ifFact || !m_car.facts.is(*ifFact) ||
                    beforeFacts().facts.is(*ifFact),
                "opens for a fact what no corrected fact makes due");
        break;
    case Origin::Finding:
        blameIf(e.findings.empty() || !e.restsOn.empty() || !e.fromReadings.empty(),
                "opens for a finding what answers none");
        break;
    case Origin::Trigger:
        blameIf(e.restsOn.empty() || !e.findings.empty() || !e.fromReadings.empty(),
                "opens behind other work what rests on none");
        break;
    case Origin::Reading:
        blameIf(e.fromReadings.empty() || !e.findings.empty() || !e.restsOn.empty(),
                "opens for a reading what no reading makes due");
        break;
    }
    if (e.origin != Origin::ByHand)
        for (const FindingId id : e.findings)
            judgeAnswer(id, e.spec, e.place);
    for (const OperationId id : e.restsOn)
        judgeTriggered(id, e.spec, e.place);
    for (const ReadingId id : e.fromReadings)
        judgeFollowUp(id, e.spec, e.place);
    if (e.spec->secondPerson != SecondPerson::Check)
        for (const auto& [id, other] : m_car.operations)
            blameIf(checksEverything(other.spec) && saysSomething(other) &&
                        !groupHasOf<OperationReopened, OperationWithdrawn>(id),
                    "adds work behind a check of everything");
}

void Auditor::judgeByHand(const OperationSpec& spec, const PlaceId& at,
                          const std::vector<FindingId>& findings)
{
    needsAny({Right::Appraise, Right::Work, Right::Manage});
    blameIf(m_car.released.has_value(), "was written to a car that was released");
    const PlaceInfo* place = placeInfo(at);
    blameIf((place != nullptr && spec.scope == Scope::Place && !spec.isFor(place->kind)) ||
                (spec.scope == Scope::Car && at != wholeCar()),
            "opens work at a place that it is not for");
    for (const FindingId id : findings) {
        const Finding* finding = m_car.finding(id);
        blameIf(finding == nullptr || !finding->stands() || !finding->undecided ||
                    placeOfWork(spec.scope, finding->data().place) != at,
                "answers by hand what nobody had to decide");
    }
}

void Auditor::judgeSpec(const OperationOpened& e)
{
    const AdoptedCatalogue& adopted = m_site.adopted;
    blameIf(adopted.catalogue && adopted.catalogue->hash != e.catalogueHash,
            "opens work by another catalogue than the house took in");
    if (const Catalogue* known = m_known.inForce(m_site, e.catalogueHash)) {
        const OperationSpec* spec = known->find(e.spec->id);
        if (spec == nullptr)
            return blame(
                QStringLiteral("opens work that the catalogue does not have: %1").arg(e.spec->id));
        return blameIf(!asksTheSame(*spec, e.spec),
                       "opens work that asks for something else than the catalogue does");
    }
    const LeastCatalogue* least = m_known.least(m_site);
    const LeastAsked* always = least == nullptr ? nullptr : least->find(e.spec->id);
    if (always == nullptr)
        return;
    if (const QStringList missing = notAsked(e.spec, *always); !missing.isEmpty())
        blame(QStringLiteral("opens work that asks for less than any catalogue did: %1")
                  .arg(missing.join(QStringLiteral(", "))));
}

void Auditor::judgeTwice(const OperationOpened& e)
{
    for (const auto& [id, other] : m_car.operations) {
        if (!other.isOpen() || other.place != e.place)
            continue;
        const bool same = other.spec->id == e.spec->id &&
                          other.state != OperationState::AwaitingCheck &&
                          (!other.wasStarted() || e.origin == Origin::Finding);
        const bool covers = e.origin == Origin::Finding && !other.wasStarted() &&
                            other.spec->covers.contains(e.spec->id);
        blameIf(same || covers, "opens what other open work does already");
    }
}

bool Auditor::isMoved(FindingId id, const OperationSpec& to, const PlaceId& at) const
{
    return std::ranges::any_of(m_car.operations, [&](const auto& entry) {
        const Operation& other = entry.second;
        return other.place == at && to.covers.contains(other.spec->id) &&
               contains(other.findings, id) && groupHasOf<OperationWithdrawn>(entry.first);
    });
}

bool Auditor::isCaused(FindingId id) const
{
    const auto isIt = [&](const auto& event) { return event.finding == id; };
    return groupHasOne<FindingRecorded>(isIt) || groupHasOne<FindingCorrected>(isIt) ||
           groupHasOne<FindingAnswered>(isIt) ||
           std::ranges::any_of(m_before.operations, [&](const auto& entry) {
               return contains(entry.second.findings, id) &&
                      groupHasOf<OperationWithdrawn>(entry.first);
           });
}

void Auditor::judgeAnswer(FindingId id, const OperationSpec& spec, const PlaceId& at)
{
    const Finding* finding = m_car.finding(id);
    if (finding == nullptr || !finding->stands())
        return blame(QStringLiteral("answers a finding that does not stand"));
    if (isMoved(id, spec, at))
        return;
    blameIf(!isCaused(id), "answers a finding that nothing concerns here");
    blameIf(placeOfWork(spec.scope, finding->data().place) != at,
            "answers a finding of another place");
    blameIf(finding->undecided, "answers a finding that no rule answers");
}

void Auditor::judgeTriggered(OperationId on, const OperationSpec& spec, const PlaceId& at)
{
    const Operation* base = m_car.operation(on);
    if (base == nullptr)
        return blame(QStringLiteral("rests on an operation that is not there"));
    const bool opens = std::ranges::any_of(base->spec->triggers, [&](const Trigger& trigger) {
        return trigger.opens == spec.id && fits(trigger.ifFact, m_car.facts);
    });
    const bool ends = groupHasOf<OperationClosed, OperationLeft, OperationWithdrawn>(on) ||
                      (groupHas<FactsCorrected>() && base->state == OperationState::Closed);
    blameIf(!opens || !ends || placeOfWork(spec.scope, base->place) != at,
            "rests on work that does not make it due");
}

void Auditor::judgeFollowUp(ReadingId id, const OperationSpec& spec, const PlaceId& at)
{
    const bool isOfCommand =
        groupHasOne<ReadingTaken>([&](const ReadingTaken& e) { return e.reading == id; }) ||
        groupHasOne<ReadingCorrected>([&](const ReadingCorrected& e) { return e.reading == id; });
    for (const auto& [number, operation] : m_car.operations)
        for (const Reading& reading : operation.readings) {
            const auto asked =
                std::ranges::find(operation.spec->readings, reading.key, &ReadingSpec::key);
            if (reading.id != id || asked == operation.spec->readings.end())
                continue;
            const PlaceId& place = reading.place.isEmpty() ? operation.place : reading.place;
            return blameIf(!isOfCommand ||
                               followUpOf(*asked, reading.value, reading.outcome) != spec.id ||
                               placeOfWork(spec.scope, place) != at,
                           "follows a reading that does not make it due");
        }
    blame(QStringLiteral("follows a reading that nobody took"));
}

void Auditor::operator()(const OperationExtended& e)
{
    const Operation* operation = opened(e.operation);
    if (operation == nullptr)
        return;
    blameIf(!e.restsOn.empty() && operation->wasStarted(),
            "lets work that was begun rest on what ended after that");
    blameIf(operation->state == OperationState::AwaitingCheck &&
                (!e.findings.empty() || !e.restsOn.empty()),
            "adds to work that awaits a check");
    const bool caused = std::ranges::any_of(e.findings, [&](FindingId id) {
        return isCaused(id) || isMoved(id, operation->spec, operation->place);
    });
    // What a corrected fact wants may be there already; whatever else is asked for by hand.
    const bool forFact = groupHas<FactsCorrected>() && operation->spec->baseline;
    if (!caused && !forFact && e.restsOn.empty() && e.fromReadings.empty())
        return judgeByHand(operation->spec, operation->place, e.findings);
    for (const FindingId id : e.findings)
        judgeAnswer(id, operation->spec, operation->place);
    for (const OperationId id : e.restsOn)
        judgeTriggered(id, operation->spec, operation->place);
    for (const ReadingId id : e.fromReadings)
        judgeFollowUp(id, operation->spec, operation->place);
}

bool Auditor::goes(FindingId id) const
{
    const auto isIt = [&](const auto& event) { return event.finding == id; };
    return groupHasOne<FindingCorrected>(isIt) || groupHasOne<FindingAnswered>(isIt) ||
           groupHasOne<OperationTakenOut>(
               [&](const OperationTakenOut& out) { return contains(out.disclosed, id); });
}

bool Auditor::goes(ReadingId id) const
{
    const auto isAgainst = [&](const FigureCorrected& corrected) {
        const Operation* before = m_before.operation(corrected.operation);
        const Reading* taken =
            before == nullptr ? nullptr : before->reading(corrected.key, corrected.place);
        return taken != nullptr && taken->id == id;
    };
    return groupHasOne<TyreRecorded>(
               [&](const TyreRecorded& fitted) { return contains(fitted.outdated, id); }) ||
           groupHasOne<FigureCorrected>(isAgainst) ||
           groupHasOne<ReadingCorrected>(
               [&](const ReadingCorrected& corrected) { return corrected.original == id; });
}

bool Auditor::goes(OperationId id) const
{
    return groupHasOf<OperationReopened, OperationWithdrawn>(id);
}

void Auditor::judgeLeftOff(const Operation& operation, const std::vector<OperationId>& restsOn)
{
    for (const OperationId id : operation.restsOn)
        blameIf(!contains(restsOn, id) && !goes(id),
                "takes a check off work that is neither open again nor withdrawn");
    blameIf(!isPartOf(restsOn, operation.restsOn), "adds a reason that it only takes away");
}

void Auditor::operator()(const OperationNarrowed& e)
{
    const Operation* operation = m_car.operation(e.operation);
    if (operation == nullptr)
        return blame(QStringLiteral("narrows an operation that is not there"));
    judgeLeftOff(*operation, e.restsOn);
    for (const FindingId id : operation->findings)
        blameIf(!contains(e.findings, id) && !goes(id),
                "takes a finding from work without a correction");
    for (const ReadingId id : operation->fromReadings)
        blameIf(!contains(e.fromReadings, id) && !goes(id),
                "takes a reading from work without a correction");
    blameIf(!isPartOf(e.findings, operation->findings) ||
                !isPartOf(e.fromReadings, operation->fromReadings),
            "adds a reason that it only takes away");
}

} // namespace ramplight
