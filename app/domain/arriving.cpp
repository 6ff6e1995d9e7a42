// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/gauging.h"
#include "domain/holds.h"
#include "domain/laidover.h"
#include "domain/openings.h"
#include "domain/valuefaults.h"
#include "domain/vin.h"

#include <algorithm>

namespace ramplight {

void openWithFacts(CarWork& work, const CarState& before, const QString& reason)
{
    const CarFacts& now = work.car().facts;
    const auto comes = [&](const std::optional<Fact>& fact) {
        return fact && !before.facts.is(*fact) && now.is(*fact);
    };
    for (const OperationSpec& spec : work.catalogue().operations)
        if (spec.baseline && comes(spec.ifFact))
            work.open(spec, wholeCar(), {Origin::Fact, reason, {}, {}, {}});
    // Work that was closed while the fact was unknown owes the checks that it would have opened.
    for (const auto& [id, operation] : before.operations)
        if (operation.state == OperationState::Closed)
            for (const Trigger& trigger : operation.spec->triggers) {
                const OperationSpec* spec = work.catalogue().find(trigger.opens);
                if (spec != nullptr && (comes(trigger.ifFact) || comes(spec->ifFact)) &&
                    fits(trigger.ifFact, now) && fits(spec->ifFact, now))
                    work.open(*spec, operation.place, {Origin::Trigger, {}, {}, {id}, {}});
            }
}

namespace decision {

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

/// Tyre sizes in one spelling; what cannot be was refused before.
CarFacts tidied(CarFacts facts)
{
    facts.frontTyre = tidied(facts.frontTyre).value_or(facts.frontTyre);
    facts.rearTyre = tidied(facts.rearTyre).value_or(facts.rearTyre);
    return facts;
}

void withdrawWithFacts(CarWork& work, const CarState& before, const QString& reason)
{
    std::vector<OperationId> open;
    for (const auto& [id, operation] : work.car().operations)
        open.push_back(id);
    for (const OperationId id : open)
        if (goesWithFacts(before, *work.car().operation(id), work.car().facts))
            work.withdraw(id, reason);
}

Identity trimmed(Identity identity)
{
    identity.stockNumber = identity.stockNumber.trimmed().toUpper();
    identity.registration = identity.registration.trimmed();
    identity.make = identity.make.trimmed();
    identity.model = identity.model.trimmed();
    identity.vin = oneSpelling(identity.vin);
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
    const Identity& now = work.car().identity;
    const Identity identity = trimmed(c.shown ? laidOver(*c.shown, c.identity, now) : c.identity);
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
    const CarState before = work.car();
    const CarFacts typed = tidied(asked.facts);
    const car::CorrectFacts c{asked.shown ? laidOver(*asked.shown, typed, before.facts) : typed,
                              asked.reason, asked.evidence};
    if (c.facts == before.facts)
        return std::nullopt;
    const QString reason = c.reason.trimmed();
    // During the walk-round somebody stands at the car and gathers what it has.
    if (before.appraised && contradict(before.facts, c.facts))
        if (auto no = work.mustBeShown(c.evidence))
            return no;
    // Asked of the car as it is: once the correction is written it names its own photo.
    const MaybeRefusal notSafely =
        work.maySafelyCorrect(before.factsBy.ofWhatDiffers(before.facts, c.facts), c.evidence);
    const bool otherTyres =
        c.facts.frontTyre != before.facts.frontTyre || c.facts.rearTyre != before.facts.rearTyre;
    const std::vector<FindingData> concerns =
        otherTyres ? allTyreConcerns(work) : std::vector<FindingData>{};
    work.add(
        FactsCorrected{c.facts, safetyPlacesFor(work.catalogue(), c.facts), reason, c.evidence});
    // Findings first: what answered one of them may be left with nothing but a fact that went.
    answerAnew(work, before.facts, reason);
    if (otherTyres)
        takeBackTyreConcerns(work, concerns, reason, c.evidence);
    withdrawWithFacts(work, before, reason);
    openWithFacts(work, before, reason);
    if (otherTyres)
        concludeFromTyres(work);
    return takesSafetyAway(before, work.car(), work.actor(), &work.catalogue()) ? notSafely
                                                                                : std::nullopt;
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

} // namespace decision

} // namespace ramplight
