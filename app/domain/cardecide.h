// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcommands.h"
#include "domain/carevents.h"
#include "domain/refusal.h"
#include "domain/site.h"
#include "domain/startedtimers.h"

#include <tl/expected.hpp>

#include <optional>
#include <vector>

// The rules of the workshop about one car. Pure: what lies outside the car's stream comes in
// through the context, ids are counted in the stream, time is passed in.
namespace ramplight {

/// A timer that the acting person has running on any car.
struct RunningWork
{
    CarId car;
    QString stockNumber;
    OperationId operation;
    QString title;
};

/// The other half of a pair that was entered twice.
struct OtherCar
{
    CarState state;
};

struct CarContext
{
    PersonId actor; ///< null: the house itself (end of shift)
    Moment now;
    Moment notBefore = {};                ///< what is written with it; null: nothing is
    const Catalogue* catalogue = nullptr; ///< never null
    const SiteState* site = nullptr;      ///< never null; people with their names
    bool pinFresh = false;                ///< the PIN was entered for this very command
    std::optional<RunningWork> running;   ///< of the actor
    Moment busyUntil;                     ///< end of the actor's latest work on any car
    QString bayTakenBy;                   ///< stock number of the car in the bay asked for
    bool stockNumberTaken = false;        ///< by another car (BringIn, CorrectIdentity)
    const CarState* other = nullptr;      ///< LinkDuplicate, CloseDuplicate
    /// CorrectMinutes: minutes that the person could have worked at most without overlapping
    /// other work of theirs; unset when nothing bounds it.
    std::optional<int> minutesRoom;
    bool together = false;                 ///< one of several that are signed off in one step
    std::vector<SteadyTimer> steadyTimers; ///< of those that run on this car
};

/// What was decided is applied to the state. After a refusal the state may be changed in part: it
/// is of no use any more.
[[nodiscard]] tl::expected<std::vector<CarEvent>, Refusal>
decide(CarState& state, const CarContext& context, const CarCommand& command);

} // namespace ramplight
