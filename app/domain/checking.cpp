// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/checking.h"

#include <algorithm>

namespace ramplight {

bool checksEverything(const OperationSpec& check)
{
    return check.checksWorkOf.contains(QStringLiteral("*"));
}

bool isCovered(const Operation& work, const Operation& check, const HouseRules& rules)
{
    const bool ofAll = checksEverything(check.spec);
    if (work.id == check.id || (ofAll && rules.finalCheckByWorker))
        return false;
    // A check of everything checks work, not the checks and the paperwork around it.
    const bool isWork =
        work.spec->secondPerson != SecondPerson::Check && work.spec->skill != Skill::Office;
    return (ofAll && isWork) || check.spec->checksWorkOf.contains(work.spec->id) ||
           std::ranges::find(check.restsOn, work.id) != check.restsOn.end();
}

bool didWorkChecked(const CarState& car, const Operation& check, PersonId person,
                    const HouseRules& rules)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        return isCovered(entry.second, check, rules) && entry.second.doers().contains(person);
    });
}

bool checksOwnWork(const CarState& car, const Operation& operation, PersonId person,
                   const HouseRules& rules)
{
    return operation.spec->secondPerson == SecondPerson::Check &&
           didWorkChecked(car, operation, person, rules);
}

bool mayBeGiven(const Person& person, const CarState& car, const Operation& operation,
                const HouseRules& rules, QDate today)
{
    return !whyNotAble(person, operation.spec) && !whyNotQualified(person, operation.spec, today) &&
           !checksOwnWork(car, operation, person.id, rules);
}

bool isInside(int value, const std::vector<Limit>& limits)
{
    return std::ranges::all_of(limits, [value](const Limit& limit) {
        return (!limit.min || value >= *limit.min) && (!limit.max || value <= *limit.max);
    });
}

} // namespace ramplight
