// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/gauging.h"
#include "domain/vin.h"

#include <algorithm>

namespace ramplight::decision {

namespace {

MaybeRefusal identityFault(const CarWork& work, const Identity& identity)
{
    QStringList missing;
    if (identity.stockNumber.trimmed().isEmpty())
        missing.append(QStringLiteral("stock number"));
    if (identity.make.trimmed().isEmpty())
        missing.append(QStringLiteral("make"));
    if (identity.model.trimmed().isEmpty())
        missing.append(QStringLiteral("model"));
    if (!missing.isEmpty())
        return Refusal{RefusalId::FieldMissing, {missing.join(QStringLiteral(", "))}};
    if (!identity.vin.isEmpty())
        if (const auto vin = readVin(identity.vin); !vin) {
            QString why = words(vin.error());
            if (why.endsWith(QLatin1Char('.')))
                why.chop(1);
            return Refusal{RefusalId::VinMalformed, {why}};
        }
    if (work.context().stockNumberTaken)
        return Refusal{RefusalId::StockNumberTaken, {identity.stockNumber}};
    return std::nullopt;
}

MaybeRefusal factsFault(const CarFacts& facts)
{
    if (facts.odometer < 0 || facts.odometer > 2'000'000)
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("odometer")}};
    if (facts.keys < 0 || facts.keys > 9)
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("keys")}};
    if (facts.testCertificateMonths &&
        (*facts.testCertificateMonths < 0 || *facts.testCertificateMonths > 48))
        return Refusal{RefusalId::ValueOutOfRange, {QStringLiteral("months of test certificate")}};
    for (const TyreFitment& tyre : {facts.frontTyre, facts.rearTyre})
        if (const auto fitment = tidied(tyre); !fitment)
            return Refusal{RefusalId::TyreMarkMalformed, {fitment.error()}};
    return std::nullopt;
}

/// Tyre sizes in one spelling; what cannot be was refused before.
CarFacts tidied(CarFacts facts)
{
    facts.frontTyre = tidied(facts.frontTyre).value_or(facts.frontTyre);
    facts.rearTyre = tidied(facts.rearTyre).value_or(facts.rearTyre);
    return facts;
}

Identity trimmed(Identity identity)
{
    identity.stockNumber = identity.stockNumber.trimmed();
    identity.registration = identity.registration.trimmed();
    identity.make = identity.make.trimmed();
    identity.model = identity.model.trimmed();
    identity.vin = identity.vin.trimmed().toUpper();
    return identity;
}

} // namespace

MaybeRefusal on(CarWork& work, const car::BringIn& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Manage}))
        return no;
    const Identity identity = trimmed(c.identity);
    if (auto no = identityFault(work, identity))
        return no;
    if (auto no = factsFault(c.facts))
        return no;
    if (!c.promised.isValid())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("promised day")}};
    work.add(CarArrived{identity, tidied(c.facts), c.promised,
                        safetyPlacesFor(work.catalogue(), c.facts), c.parking.trimmed()});
    for (const OperationSpec& spec : work.catalogue().operations)
        if (spec.baseline && fits(spec.ifFact, c.facts))
            work.open(spec, wholeCar(), {Origin::Baseline, {}, {}, {}, {}});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::CorrectIdentity& c)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Manage}))
        return no;
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    const Identity identity = trimmed(c.identity);
    if (auto no = identityFault(work, identity))
        return no;
    if (identity != work.car().identity)
        work.add(IdentityCorrected{identity, c.reason.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::CorrectFacts& asked)
{
    if (auto no = work.needsAny({Right::Appraise, Right::Manage, Right::Check}))
        return no;
    if (asked.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    if (auto no = factsFault(asked.facts))
        return no;
    const car::CorrectFacts c{tidied(asked.facts), asked.reason, asked.evidence};
    const CarState before = work.car();
    if (c.facts == before.facts)
        return std::nullopt;
    const auto goes = [&](const OperationSpec& spec) {
        return spec.ifFact && before.facts.is(*spec.ifFact) && !c.facts.is(*spec.ifFact);
    };
    // Due only because closed work opens it on cars with a fact that this one has no more.
    const auto dueNoMore = [&](const Operation& operation) {
        return operation.origin == Origin::Trigger && !operation.restsOn.empty() &&
               std::ranges::none_of(operation.restsOn, [&](OperationId id) {
                   const Operation* base = before.operation(id);
                   return base == nullptr ||
                          std::ranges::any_of(base->spec->triggers, [&](const Trigger& trigger) {
                              return trigger.opens == operation.spec->id &&
                                     fits(trigger.ifFact, c.facts);
                          });
               });
    };
    const auto withdrawn = [&](const Operation& operation) {
        return operation.isOpen() && (goes(operation.spec) || dueNoMore(operation)) &&
               operation.findings.empty() && operation.fromReadings.empty();
    };
    // A fact that goes takes safety work and safety places with it: that wants a second person.
    const std::vector<SafetyPlace> places = safetyPlacesFor(work.catalogue(), c.facts);
    const bool placesGo = std::ranges::any_of(before.safetyPlaces, [&](const SafetyPlace& place) {
        return std::ranges::find(places, place) == places.end();
    });
    const bool safetyGoes = std::ranges::any_of(before.operations, [&](const auto& entry) {
        return entry.second.spec->safety && withdrawn(entry.second);
    });
    if (placesGo || safetyGoes)
        if (auto no = work.maySafelyCorrect(before.factsBy, c.evidence))
            return no;
    work.add(FactsCorrected{c.facts, places, c.reason.trimmed(), c.evidence});
    for (const auto& [id, operation] : before.operations)
        if (withdrawn(operation))
            work.withdraw(id, c.reason.trimmed());
    const auto comes = [&](const std::optional<Fact>& fact) {
        return fact && !before.facts.is(*fact) && c.facts.is(*fact);
    };
    for (const OperationSpec& spec : work.catalogue().operations)
        if (spec.baseline && comes(spec.ifFact))
            work.open(spec, wholeCar(), {Origin::Fact, c.reason.trimmed(), {}, {}, {}});
    // Work that was closed while the fact was unknown owes the checks that it would have opened.
    for (const auto& [id, operation] : before.operations)
        if (operation.state == OperationState::Closed)
            for (const Trigger& trigger : operation.spec->triggers) {
                const OperationSpec* spec = work.catalogue().find(trigger.opens);
                if (spec != nullptr && (comes(trigger.ifFact) || comes(spec->ifFact)) &&
                    fits(trigger.ifFact, c.facts) && fits(spec->ifFact, c.facts))
                    work.open(*spec, operation.place, {Origin::Trigger, {}, {}, {id}, {}});
            }
    if (c.facts.frontTyre != before.facts.frontTyre || c.facts.rearTyre != before.facts.rearTyre)
        concludeFromTyres(work);
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::ChangePromise& c)
{
    if (auto no = work.needs(Right::Manage))
        return no;
    if (!c.promised.isValid())
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("promised day")}};
    const bool weighsOtherwise = c.importance && *c.importance != work.car().importance;
    if (c.promised != work.car().promised || weighsOtherwise)
        work.add(PromiseChanged{c.promised, c.reason.trimmed(),
                                weighsOtherwise ? c.importance : std::nullopt});
    return std::nullopt;
}

} // namespace ramplight::decision
