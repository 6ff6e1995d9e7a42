// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/worktotals.h"

#include "domain/site.h"

#include <algorithm>
#include <map>
#include <set>

namespace ramplight {

namespace {

constexpr int leastOverlongMinutes = 120; ///< whatever is usual: nobody is asked sooner
constexpr int overlongTimes = 3;

} // namespace

int placesOf(const CarState& car, const Operation& operation)
{
    if (operation.spec->minutesPer == MinutesPer::Operation)
        return 1;
    std::set<PlaceId> places;
    for (const FindingId id : operation.findings)
        if (const Finding* finding = car.finding(id); finding != nullptr && finding->stands())
            places.insert(finding->data().place);
    return std::max(1, static_cast<int>(places.size()));
}

Minutes minutesOf(const CarState& car, const Operation& operation)
{
    const int times = placesOf(car, operation);
    const Minutes& one = operation.spec->minutes;
    return {one.low * times, one.usual * times, one.high * times};
}

int minutesUntil(const Operation& operation, Moment now)
{
    int minutes = 0;
    for (const Segment& segment : operation.segments)
        minutes += segment.minutesUntil(now);
    return minutes;
}

int minutesUntil(const Operation& operation, PersonId person, Moment now)
{
    int minutes = 0;
    for (const Segment& segment : operation.segments)
        if (segment.person == person)
            minutes += segment.minutesUntil(now);
    return minutes;
}

Moment readyAbout(const CarState& car, const Operation& operation, Moment now)
{
    const int left = std::max(0, minutesOf(car, operation).usual - minutesUntil(operation, now));
    return now.plusMinutes(left + operation.spec->wait.usual);
}

bool isOverlong(Moment start, Moment end, const Minutes& usual, const HouseRules& rules)
{
    const int minutes = minutesBetween(start, end);
    if (start.isNull() || minutes <= leastOverlongMinutes)
        return false;
    return (usual.usual > 0 && minutes > overlongTimes * usual.usual) ||
           dayOf(start, rules) < dayOf(end, rules);
}

bool outlastsShift(const CarState& car, const Operation& operation, Moment now, Moment shiftEnd)
{
    return !operation.spec->overnight && readyAbout(car, operation, now) > shiftEnd;
}

std::vector<Prospect> openWork(const CarState& car)
{
    std::vector<Prospect> work;
    for (const Operation* operation : car.openOperations()) {
        std::optional<int> material = operation->spec->materialMinor;
        if (material)
            *material *= placesOf(car, *operation);
        work.push_back({operation->id, operation->spec->id, operation->spec->title,
                        operation->spec->skill, operation->place, operation->origin,
                        operation->spec->safety, minutesOf(car, *operation), material,
                        operation->findings});
    }
    return work;
}

WorkTotals totalsOf(const std::vector<Prospect>& work)
{
    WorkTotals totals;
    std::map<Skill, int> skills;
    for (const Prospect& prospect : work) {
        skills[prospect.skill] += prospect.minutes.usual;
        totals.minutes += prospect.minutes.usual;
        totals.materialMinor += prospect.materialMinor.value_or(0);
        totals.withoutMaterial += prospect.materialMinor ? 0 : 1;
    }
    for (const auto& [skill, usual] : skills)
        totals.skills.push_back({skill, usual});
    return totals;
}

} // namespace ramplight
