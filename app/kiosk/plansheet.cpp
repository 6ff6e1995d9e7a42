// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/plansheet.h"

#include "domain/words.h"

#include <QDateTime>

#include <algorithm>
#include <map>
#include <optional>

namespace ramplight {

namespace {

using namespace planning;

constexpr int fewestDays = 2;
constexpr int dayMinutes = 24 * 60;
constexpr int hour = 60;
constexpr int mostDays = 15;

int localMinute(const HousePlan& plan, PlanMinute minute)
{
    const QTime time =
        QDateTime::fromMSecsSinceEpoch(plan.clock().momentOf(minute).ms, zoneOf(plan.rules)).time();
    return time.hour() * 60 + time.minute();
}

QString skillsOf(const Person& person)
{
    QStringList skills;
    for (const Skill skill : person.skills)
        skills.append(words(skill));
    return skills.join(QStringLiteral(", "));
}

/// From when to when something is planned on each day, in local minutes.
std::map<QDate, Span> plannedHours(const HousePlan& plan)
{
    const PlanClock clock = plan.clock();
    std::map<QDate, Span> hours;
    const auto of = [&hours](QDate date) -> Span& {
        return hours.try_emplace(date, Span{dayMinutes, 0}).first->second;
    };
    for (const Placement& placed : plan.plan.jobs) {
        // Hands are at work then; what waits or cures opens no day.
        if (!placed.isPlanned() || placed.person < 0 || placed.end <= placed.start)
            continue;
        Span& first = of(clock.dayOf(placed.start));
        first.from = std::min(first.from, localMinute(plan, placed.start));
        Span& last = of(clock.dayOf(placed.end - 1));
        last.to = std::max(last.to, localMinute(plan, placed.end - 1) + 1);
    }
    return hours;
}

/// A day on which the house works, or somebody works all the same: as long as what is planned
/// beyond opening hours wants, in whole hours.
std::optional<SheetDay> sheetDayOf(const HousePlan& plan, QDate date,
                                   const std::map<QDate, Span>& hours)
{
    SheetDay day{.date = date, .opens = dayMinutes, .closes = 0};
    if (const DayTimes* times = openOn(plan.calendar, date))
        day = {date, times->opens, times->closes, times->breaks};
    if (const auto found = hours.find(date); found != hours.end()) {
        if (found->second.from < day.opens)
            day.opens = found->second.from / hour * hour;
        if (found->second.to > day.closes)
            day.closes = (found->second.to + hour - 1) / hour * hour;
    }
    if (day.closes <= day.opens)
        return std::nullopt;
    return day;
}

void layOut(const HousePlan& plan, PlanSheet& sheet, int lane, int job, bool ofPeople)
{
    const auto number = static_cast<std::size_t>(job);
    const Placement& placed = plan.plan.jobs[number];
    const ShopJob& one = plan.house.shop.jobs[number];
    const PlanClock clock = plan.clock();
    const QDate first = clock.dayOf(placed.start);
    const QDate last = clock.dayOf(std::max(placed.start, placed.end - 1));
    for (std::size_t d = 0; d < sheet.days.size(); ++d) {
        const SheetDay& day = sheet.days[d];
        if (day.date < first || day.date > last)
            continue;
        SheetBar bar{.job = job, .lane = lane, .begins = day.date == first};
        bar.from = day.date == first ? localMinute(plan, placed.start) : day.opens;
        bar.to = day.date == last ? localMinute(plan, placed.end - 1) + 1 : day.closes;
        bar.from = std::clamp(bar.from, day.opens, day.closes);
        bar.to = std::clamp(bar.to, bar.from, day.closes);
        bar.clear = bar.to;
        if (placed.clear > placed.end && day.date == last)
            bar.clear = clock.dayOf(placed.clear) == day.date
                            ? std::clamp(localMinute(plan, placed.clear), bar.to, day.closes)
                            : day.closes;
        bar.running = one.running.has_value();
        bar.late = plan.isLate(one.car);
        bar.stock = plan.house.shop.cars[static_cast<std::size_t>(one.car)].name;
        bar.title = one.title;
        (ofPeople ? sheet.byPerson : sheet.byBay)[d].push_back(bar);
    }
}

} // namespace

PlanSheet sheetOf(const HousePlan& plan, const SiteState& site)
{
    PlanSheet sheet;
    const PlanClock clock = plan.clock();
    PlanMinute end = 0;
    for (const Placement& placed : plan.plan.jobs)
        if (placed.isPlanned())
            end = std::max(end, placed.end);
    for (const CarForecast& forecast : plan.forecasts)
        if (forecast.ready90 != never)
            end = std::max(end, forecast.ready90);
    const QDate last = clock.dayOf(end);
    const std::map<QDate, Span> hours = plannedHours(plan);
    for (QDate day = clock.dayOf(0);
         static_cast<int>(sheet.days.size()) < mostDays &&
         (day <= last || static_cast<int>(sheet.days.size()) < fewestDays) &&
         clock.dayOf(0).daysTo(day) < plannedDays;
         day = day.addDays(1))
        if (auto shown = sheetDayOf(plan, day, hours))
            sheet.days.push_back(*std::move(shown));
    sheet.byBay.resize(sheet.days.size());
    sheet.byPerson.resize(sheet.days.size());

    for (std::size_t b = 0; b < plan.house.bays.size(); ++b) {
        const Bay* bay = site.bay(plan.house.bays[b]);
        if (bay != nullptr)
            sheet.bays.push_back(
                {bay->id.value, static_cast<int>(b), QString::number(bay->number), bay->name});
    }
    std::ranges::stable_sort(sheet.bays, {},
                             [](const SheetLane& lane) { return lane.title.toInt(); });
    for (std::size_t p = 0; p < plan.house.people.size(); ++p) {
        const Person* person = site.person(plan.house.people[p]);
        // Who neither works nor checks has nothing planned for them.
        if (person != nullptr && (person->can(Right::Work) || person->can(Right::Check)))
            sheet.people.push_back(
                {person->id.value, static_cast<int>(p), person->name, skillsOf(*person)});
    }
    for (std::size_t lane = 0; lane < sheet.bays.size(); ++lane)
        for (const int job : plan.jobsOfBay(sheet.bays[lane].number))
            layOut(plan, sheet, static_cast<int>(lane), job, false);
    for (std::size_t lane = 0; lane < sheet.people.size(); ++lane)
        for (const int job : plan.jobsOfPerson(sheet.people[lane].number))
            layOut(plan, sheet, static_cast<int>(lane), job, true);
    return sheet;
}

double placeOn(const PlanSheet& sheet, const HousePlan& plan, PlanMinute minute)
{
    if (minute == never)
        return static_cast<double>(sheet.days.size());
    const QDate date = plan.clock().dayOf(minute);
    for (std::size_t d = 0; d < sheet.days.size(); ++d) {
        const SheetDay& day = sheet.days[d];
        if (day.date < date)
            continue;
        if (day.date > date)
            return static_cast<double>(d);
        const int local = std::clamp(localMinute(plan, minute), day.opens, day.closes);
        return static_cast<double>(d) +
               static_cast<double>(local - day.opens) / (day.closes - day.opens);
    }
    return static_cast<double>(sheet.days.size());
}

} // namespace ramplight
