// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"

// Why work is on a car and why it goes again, as deciding and auditing ask it alike. Pure
// functions.
namespace ramplight {

/// Where work of a scope stands that a place asks for.
[[nodiscard]] PlaceId placeOfWork(Scope scope, const PlaceId& asked);
/// Closed, or begun: what it found out was found out before now.
[[nodiscard]] bool saysSomething(const Operation& operation);
/// Other work answers a finding, and not only to get at what is taken out.
[[nodiscard]] bool isAnsweredBeside(const CarState& car, FindingId finding, OperationId takenOut);
/// Something that an operation makes accessible is still wanted.
[[nodiscard]] bool isAccessWanted(const CarState& car, const Operation& access);
/// The work that a finding called for, without what was withdrawn.
[[nodiscard]] std::vector<OperationId> answersTo(const CarState& car, FindingId finding);
/// How many things the buyer reads of as left: work that a manager left, and what a rule or the
/// appraiser left without any work.
[[nodiscard]] int thingsLeft(const CarState& car);
/// What the buyer is told of instead when an operation is taken out: that nothing else answers.
[[nodiscard]] std::vector<FindingId> disclosedWithout(const CarState& car,
                                                      const Operation& takenOut);
/// Whether a correction of the car's facts takes open work away: it is only for cars with a fact
/// that goes, or due only because closed work opens it on such cars.
[[nodiscard]] bool goesWithFacts(const CarState& before, const Operation& operation,
                                 const CarFacts& facts);
/// Other open work at its place does its job, too, for every finding that it answers, and is no
/// less a matter of safety.
[[nodiscard]] bool isTakenIn(const CarState& car, const Operation& operation);
/// Other facts took safety work, safety places or what was found on one away, or safety work that
/// what is open would have made due: that wants a second person. Not where the person could have
/// taken it back alone.
/// catalogue: in force in the house; null where it is not known any more, which foresees nothing.
[[nodiscard]] bool takesSafetyAway(const CarState& before, const CarState& now, PersonId by,
                                   const Catalogue* catalogue);
/// The kind of work that a value makes due; empty when it makes none due.
[[nodiscard]] QString followUpOf(const ReadingSpec& spec, const ReadingValue& value,
                                 ReadingOutcome outcome);
/// Minutes from the sign-off for which car or part are to be left alone.
[[nodiscard]] int minutesOfWaiting(const Operation& operation);
/// It says for how many minutes closed work is left alone.
[[nodiscard]] bool isOfWaiting(const Operation& operation, const QString& key);
/// A waiting time of no minutes is none: nothing that is left alone is ready at once.
[[nodiscard]] bool isNoWaiting(const Operation& operation, const QString& key,
                               const ReadingValue& value);
/// To when closed work is left alone, counted from its closing, once a reading of it is corrected
/// to a value; null where it says nothing of that.
[[nodiscard]] Moment waitCorrected(const Operation& operation, const QString& key,
                                   const ReadingValue& value);

} // namespace ramplight
