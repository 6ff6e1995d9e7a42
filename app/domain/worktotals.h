// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/houserules.h"

#include <optional>
#include <vector>

// What the open work of a car will take: minutes of each skill and what is known of the material.
// Pure.
namespace ramplight {

/// One operation that is still to be done.
struct Prospect
{
    OperationId operation;
    QString kind; ///< operation id of the catalogue
    QString title;
    Skill skill = Skill::Mechanical;
    PlaceId place;
    Origin origin = Origin::Baseline;
    bool safety = false;
    Minutes minutes;                  ///< for all places that it answers
    std::optional<int> materialMinor; ///< minor currency units, likewise; unset: not entered
    std::vector<FindingId> answers;
};

struct SkillMinutes
{
    Skill skill = Skill::Mechanical;
    int usual = 0;
    friend bool operator==(const SkillMinutes&, const SkillMinutes&) = default;
};

struct WorkTotals
{
    std::vector<SkillMinutes> skills; ///< those with work, in the order of Skill
    int minutes = 0;                  ///< usual, of all skills together
    int materialMinor = 0;            ///< of the operations whose material cost is entered
    int withoutMaterial = 0;          ///< operations whose material cost nobody entered
    friend bool operator==(const WorkTotals&, const WorkTotals&) = default;
};

/// How many places' worth of minutes an operation is: 1 unless its minutes are counted per place.
[[nodiscard]] int placesOf(const CarState& car, const Operation& operation);
/// Hands-on minutes of an operation for all that it answers.
[[nodiscard]] Minutes minutesOf(const CarState& car, const Operation& operation);

/// All people's minutes, running ones up to now.
[[nodiscard]] int minutesUntil(const Operation& operation, Moment now);
/// One person's minutes, running ones up to now.
[[nodiscard]] int minutesUntil(const Operation& operation, PersonId person, Moment now);
/// When an operation that is gone on with now should be ready: what is left of its usual minutes,
/// and its waiting.
[[nodiscard]] Moment readyAbout(const CarState& car, const Operation& operation, Moment now);
/// A stretch by the timer that somebody probably forgot to end: over two hours, and either more
/// than three times what the whole work usually takes, or begun on an earlier day of the house.
/// The end of the shift pauses what began before it; what begins after it could run for days.
[[nodiscard]] bool isOverlong(Moment start, Moment end, const Minutes& usual,
                              const HouseRules& rules);
/// Begun now, it would stand half done when the shift ends, and may not: spray and bake are one.
[[nodiscard]] bool outlastsShift(const CarState& car, const Operation& operation, Moment now,
                                 Moment shiftEnd);

/// Every open operation, in the order in which they were opened.
[[nodiscard]] std::vector<Prospect> openWork(const CarState& car);
[[nodiscard]] WorkTotals totalsOf(const std::vector<Prospect>& work);

} // namespace ramplight
