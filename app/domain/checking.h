// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

// What deciding and auditing ask alike about checks and limits. Pure functions.
namespace ramplight {

/// A check of all work on the car: it comes last, and work opened after it needs it again.
[[nodiscard]] bool checksEverything(const OperationSpec& check);
/// Whether a check covers this piece of work on the same car.
[[nodiscard]] bool isCovered(const Operation& work, const Operation& check,
                             const HouseRules& rules);
/// Whether this person did some of the work that the check covers, and so may not sign it. In a
/// house that lets its workers make the final check, that one covers nobody's work.
[[nodiscard]] bool didWorkChecked(const CarState& car, const Operation& check, PersonId person,
                                  const HouseRules& rules);
/// A check of work that this person did some of.
[[nodiscard]] bool checksOwnWork(const CarState& car, const Operation& operation, PersonId person,
                                 const HouseRules& rules);
/// Able, qualified on the day, and not about to check what they did themselves.
[[nodiscard]] bool mayBeGiven(const Person& person, const CarState& car, const Operation& operation,
                              const HouseRules& rules, QDate today);
/// Within every one of the limits; both ends count as inside.
[[nodiscard]] bool isInside(int value, const std::vector<Limit>& limits);

} // namespace ramplight
