// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/cardecide.h"

#include "domain/carwork.h"
#include "domain/contains.h"
#include "domain/holds.h"

namespace ramplight {

namespace {

/// What may still be asked of a released car: to record that something is wrong after all.
template <class Command>
constexpr bool allowedAfterRelease =
    isOneOf<Command, car::RecordFinding, car::CorrectFinding, car::CorrectReading,
            car::CorrectFacts, car::CorrectIdentity, car::CorrectMinutes, car::AttachPhoto,
            car::Reopen, car::MoveCar, car::LeaveUnreleased, car::LinkDuplicate,
            car::CloseDuplicate, car::ReadOdometer, car::RecordTyre, car::RecordTread,
            car::RemovePhotos>;

/// Changes what the record says about the car, so that it must be signed again.
template <class Command>
constexpr bool holdsReleasedCar =
    isOneOf<Command, car::RecordFinding, car::CorrectFinding, car::CorrectReading,
            car::CorrectFacts, car::CorrectIdentity, car::Reopen, car::LinkDuplicate>;

/// What is measured holds it only where that is a finding: a good tread changes nothing.
template <class Command>
constexpr bool holdsByFinding = isOneOf<Command, car::RecordTyre, car::RecordTread>;

template <class Command>
MaybeRefusal askable(const CarState& car)
{
    if constexpr (std::is_same_v<Command, car::BringIn>) {
        if (car.exists())
            return Refusal{RefusalId::CarExists, {}};
        return std::nullopt;
    } else {
        if (!car.exists())
            return Refusal{RefusalId::CarMissing, {}};
        if (car.left) {
            if constexpr (isOneOf<Command, car::BringBack, car::RemovePhotos>)
                return std::nullopt;
            return Refusal{RefusalId::CarGone, {words(*car.left)}};
        }
        if (car.released && !allowedAfterRelease<Command>)
            return Refusal{RefusalId::AlreadyReleased, {}};
        return std::nullopt;
    }
}

} // namespace

Decision decide(CarState& state, const CarContext& context, const CarCommand& command)
{
    const bool wasReleased = state.released.has_value();
    CarWork work(state, context);
    const MaybeRefusal refusal = std::visit(
        [&](const auto& c) -> MaybeRefusal {
            using Command = std::decay_t<decltype(c)>;
            if (auto no = askable<Command>(state))
                return no;
            if (auto no = decision::on(work, c))
                return no;
            if (wasReleased && ((holdsReleasedCar<Command> && work.changed()) ||
                                (holdsByFinding<Command> && work.found())))
                work.add(CarHeldAgain{
                    QStringLiteral("Something was found or corrected after the release.")});
            return std::nullopt;
        },
        command);
    if (refusal)
        return tl::unexpected(*refusal);
    return work.take();
}

} // namespace ramplight
