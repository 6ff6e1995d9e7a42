// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

#include <set>

// What deciding and auditing ask alike about checks and limits. Pure functions.
namespace ramplight {

/// A check of all work on the car: it comes last, and work opened after it needs it again.
[[nodiscard]] bool checksEverything(const OperationSpec& check);
/// Whether such a check is to be made again when work of this kind is open again.
[[nodiscard]] bool isVoidedBy(const OperationSpec& check, const OperationSpec& work);
/// Whether a check covers work of this kind wherever both are on one car.
[[nodiscard]] bool coversKind(const OperationSpec& check, const OperationSpec& work,
                              const HouseRules& rules);
/// Whether a check covers this piece of work on the same car.
[[nodiscard]] bool isCovered(const Operation& work, const Operation& check,
                             const HouseRules& rules);
/// Whether this person did some of the work that the check covers, and so may not sign it. In a
/// house that lets its workers make the final check, that one covers nobody's work.
[[nodiscard]] bool didWorkChecked(const CarState& car, const Operation& check, PersonId person,
                                  const HouseRules& rules);
/// What goes back when a check fails: the work that was named, or what the check rests on where
/// none was; of it what is closed. Empty: it must be named.
[[nodiscard]] std::vector<OperationId> goesBack(const CarState& car, const Operation& check,
                                                OperationId named = {});
/// A check of work that this person did some of.
[[nodiscard]] bool checksOwnWork(const CarState& car, const Operation& operation, PersonId person,
                                 const HouseRules& rules);
/// Whether this person may send back what awaits a second signature or our own look: nobody who did
/// some of it. Who measured what came back from a firm has only looked at it.
[[nodiscard]] bool maySendBack(const Operation& work, PersonId person);
/// Able, qualified on the day, and not about to check what they did themselves.
[[nodiscard]] bool mayBeGiven(const Person& person, const CarState& car, const Operation& operation,
                              const HouseRules& rules, QDate today);
/// Safety hangs on a reading: by its work, by its place, or by what its value opened.
[[nodiscard]] bool isSafetyReading(const CarState& car, const Operation& operation,
                                   const Reading& reading);
/// Why this person may not take a reading anew that is there already, in words that say what to do;
/// empty when they may. It is measured again once the work that it opened is done, or, where it
/// opened none, once its own work was begun again. Until then who took it may put a slip right, but
/// not one that holds the car: outside its limit, or an answer that forbids closing, for safety.
/// Whatever else was wrong is corrected.
[[nodiscard]] std::optional<Refusal> whyReadingStands(const CarState& car,
                                                      const Operation& operation,
                                                      const Reading& reading, PersonId by,
                                                      const HouseRules& rules);
/// Safety hangs on a figure of this car: as on what is read against it.
[[nodiscard]] bool isSafetyFigure(const CarState& car, const Operation& operation,
                                  const QString& key, const PlaceId& place);
/// Somebody read against it, or two people agreed on it: it is corrected, not typed over.
[[nodiscard]] bool isFigureInUse(const Operation& operation, const QString& key,
                                 const PlaceId& place);
/// Whose word goes when this person corrects a figure: who entered it and corrected it since, and
/// who read against it. A slip in a correction of one's own is one's own as long as nobody did.
[[nodiscard]] std::set<PersonId> figureRecorders(const Operation& operation, const QString& key,
                                                 const PlaceId& place, PersonId by);
/// What was read against a figure of this car that this person had entered: they sign nothing that
/// rests on it. Null: nothing was.
[[nodiscard]] const ReadingSpec* readAgainstFigureOf(const Operation& operation, PersonId person);
/// Its own high voltage was to be isolated for this work, and was not. What a firm did, it
/// isolated.
[[nodiscard]] bool lacksIsolation(const Operation& operation);
/// Within every one of the limits; both ends count as inside.
[[nodiscard]] bool isInside(int value, const std::vector<Limit>& limits);

} // namespace ramplight
