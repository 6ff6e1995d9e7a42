// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/unplanned.h"

#include "domain/checking.h"

#include <algorithm>

namespace ramplight::planning {

namespace {

/// Whoever could do it, had they not worked on what it checks.
bool isAble(const Person& person, const Operation& operation, bool isSecond, QDate today)
{
    if (!person.active)
        return false;
    if (operation.awaitsReceipt())
        return !whyNotReceiving(person, operation.spec);
    return isSecond ? person.can(Right::Check)
                    : !whyNotAble(person, operation.spec) &&
                          !whyNotQualified(person, operation.spec, today);
}

} // namespace

QString whyNobody(const CarState& car, const Operation& operation, const SiteState& site,
                  QDate today)
{
    const bool isSecond = operation.awaitsSecond();
    int able = 0;
    int free = 0;
    for (const auto& [id, person] : site.people) {
        if (!isAble(person, operation, isSecond, today))
            continue;
        ++able;
        const bool worked =
            checksOwnWork(car, operation, id, site.rules) ||
            (isSecond && (operation.doers().contains(id) || readAgainstFigureOf(operation, id)));
        free += worked ? 0 : 1;
    }
    const bool isGiven = !operation.assigned.isNull() && !isSecond;
    if (free > 0 && isGiven)
        return QStringLiteral("it is given to somebody who cannot do it; a manager can give it to "
                              "somebody else");
    if (free > 0)
        return QStringLiteral("nobody who may do it has the time for it in the days that are "
                              "planned; a manager can look at shifts and absences");
    if (able > 0)
        return QStringLiteral("everybody who may check it has worked on the car or entered its "
                              "figure; a manager can give the right to check to somebody who has "
                              "not");
    return isSecond || operation.spec->secondPerson == SecondPerson::Check
               ? QStringLiteral("nobody here may check it; a manager can give somebody the right "
                                "to check")
               : QStringLiteral("nobody here has the skill and the qualification for it; a manager "
                                "can enter them for somebody who has");
}

} // namespace ramplight::planning
