// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/holds.h"

#include <algorithm>

namespace ramplight::decision {

namespace {

MaybeRefusal mayMove(const CarWork& work)
{
    for (const RestraintReason& reason : restraints(work.car(), work.now()))
        if (reason.what == Restraint::Move)
            return Refusal{RefusalId::DoNotMove, {reason.words}};
    return std::nullopt;
}

MaybeRefusal leave(CarWork& work, const CarLeft& how)
{
    if (auto no = mayMove(work))
        return no;
    if (work.car().isolation)
        return Refusal{RefusalId::Isolated, {work.car().isolation->lockKeptAt}};
    std::vector<OperationId> ids;
    for (const auto& [id, operation] : work.car().operations)
        if (operation.isRunning())
            ids.push_back(id);
    for (const OperationId id : ids)
        work.stopEverybody(id, StopKind::Paused);
    work.add(how);
    return std::nullopt;
}

} // namespace

MaybeRefusal on(CarWork& work, const car::MoveCar& c)
{
    if (work.person() == nullptr || !work.person()->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    if (!c.bay.isNull()) {
        const Bay* bay = work.context().site->bay(c.bay);
        if (bay == nullptr || !bay->active)
            return Refusal{RefusalId::BayUnknown, {}};
        if (work.car().bay == c.bay)
            return std::nullopt;
        if (!work.context().bayTakenBy.isEmpty())
            return Refusal{RefusalId::BayTaken, {work.context().bayTakenBy}};
    } else if (work.car().bay.isNull() && work.car().parking == c.parking.trimmed()) {
        return std::nullopt;
    }
    if (auto no = mayMove(work))
        return no;
    work.add(CarMoved{c.bay, c.bay.isNull() ? c.parking.trimmed() : QString()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::Release&)
{
    if (auto no = work.needs(Right::Release))
        return no;
    const std::vector<Hold> all = holds(work.car(), work.rules(), work.now());
    if (!all.empty()) {
        QStringList list;
        for (const Hold& hold : all)
            list.append(hold.words);
        return Refusal{RefusalId::CarHeld, list};
    }
    // One person alone never stands for a car's safety: somebody else signed some of it.
    const bool somebodyElse = std::ranges::any_of(work.car().operations, [&](const auto& entry) {
        const Operation& operation = entry.second;
        return operation.spec->safety && operation.state == OperationState::Closed &&
               std::ranges::any_of(operation.signatures, [&](const Signature& signature) {
                   return !signature.voided && signature.by != work.actor();
               });
    });
    if (!somebodyElse)
        return Refusal{RefusalId::ReleaserAlone, {}};
    if (!work.context().pinFresh)
        return Refusal{RefusalId::PinNotFresh, {}};
    work.add(CarReleased{work.car().seq});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::LeaveUnreleased& c)
{
    if (auto no = work.needs(Right::Manage))
        return no;
    if (c.how == LeavingHow::EnteredTwice)
        return Refusal{RefusalId::FieldMissing, {QStringLiteral("which car goes on")}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    return leave(work, CarLeft{c.how, c.reason.trimmed(), {}});
}

MaybeRefusal on(CarWork& work, const car::BringBack& c)
{
    if (auto no = work.needs(Right::Manage))
        return no;
    if (!work.car().left)
        return Refusal{RefusalId::NotGone, {}};
    if (work.context().stockNumberTaken)
        return Refusal{RefusalId::StockNumberTaken, {work.car().identity.stockNumber}};
    if (c.reason.trimmed().isEmpty())
        return Refusal{RefusalId::ReasonMissing, {}};
    // Whoever released it did not know where it has been since.
    const bool wasReleased = work.car().released.has_value();
    work.add(CarBroughtBack{c.reason.trimmed()});
    if (wasReleased)
        work.add(CarHeldAgain{c.reason.trimmed()});
    return std::nullopt;
}

MaybeRefusal on(CarWork& work, const car::CloseDuplicate& c)
{
    if (auto no = work.mayJoinWith(c.sameAs))
        return no;
    if (const auto& left = work.context().other->left)
        return Refusal{RefusalId::CarGone, {words(*left)}};
    return leave(work, CarLeft{LeavingHow::EnteredTwice, c.reason.trimmed(), c.sameAs});
}

} // namespace ramplight::decision
