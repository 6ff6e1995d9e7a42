// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/checking.h"

#include <algorithm>

namespace ramplight {

bool checksEverything(const OperationSpec& check)
{
    return check.checksWorkOf.contains(QStringLiteral("*"));
}

bool didWorkChecked(const CarState& car, const Operation& check, PersonId person,
                    const HouseRules& rules)
{
    const bool everything = checksEverything(check.spec);
    if (everything && rules.finalCheckByWorker)
        return false;
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const auto& [id, other] = entry;
        // A check of everything checks work, not the checks and the paperwork around it.
        const bool isWork =
            other.spec.secondPerson != SecondPerson::Check && other.spec.skill != Skill::Office;
        const bool checked = (everything && isWork) ||
                             check.spec.checksWorkOf.contains(other.spec.id) ||
                             std::ranges::find(check.restsOn, id) != check.restsOn.end();
        return id != check.id && checked && other.doers().contains(person);
    });
}

bool isInside(int value, const std::vector<Limit>& limits)
{
    return std::ranges::all_of(limits, [value](const Limit& limit) {
        return (!limit.min || value >= *limit.min) && (!limit.max || value <= *limit.max);
    });
}

} // namespace ramplight
