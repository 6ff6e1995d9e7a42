// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/democrew.h"

#include "demo/atwork.h"

#include "domain/holds.h"

#include <QDateTime>

#include <algorithm>

namespace ramplight::demo {

namespace {

constexpr int dayStart = 8 * 60;
constexpr int lunchStart = 12 * 60 + 30;
constexpr int lunchEnd = 13 * 60;
constexpr int mostTries = 3;

} // namespace

Crew::Crew(Ledger& ledger, const Catalogue& catalogue, const WorkshopFile& file,
           PictureFor pictures, unsigned seed)
    : m_workshop(ledger, m_clock, catalogue)
    , m_file(file)
    , m_pictures(std::move(pictures))
    , m_random(seed)
{
}

CommandId Crew::nextCommand()
{
    return CommandId{QStringLiteral("demo-%1").arg(++m_commands, 6, 10, QLatin1Char('0'))};
}

Moment Crew::momentOn(QDate date, int minute) const
{
    const QDateTime local(date, QTime(minute / 60, minute % 60), m_zone);
    return {local.toMSecsSinceEpoch()};
}

QDate Crew::workDay(QDate from, int days) const
{
    QDate date = from;
    const int step = days < 0 ? -1 : 1;
    for (int left = std::abs(days); left > 0;) {
        date = date.addDays(step);
        if (date.dayOfWeek() < 6)
            --left;
    }
    return date;
}

bool Crew::run(PlayedCar& car, PersonId actor, std::vector<CarCommand> commands, bool pinFresh)
{
    auto outcome =
        m_workshop.run(CarRequest{nextCommand(), actor, car.id, std::move(commands), pinFresh});
    if (outcome) {
        car.state = std::move(outcome->car);
        return true;
    }
    if (const auto* error = std::get_if<StoreError>(&outcome.error()))
        m_fault = error->words;
    return false;
}

tl::expected<void, QString> Crew::play(Moment now, const std::function<void(double)>& progress)
{
    // A week earlier, in the zone that the house rules have by default.
    m_zone = zoneOf(HouseRules{});
    m_end = now;
    const QDate today = QDateTime::fromMSecsSinceEpoch(now.ms, m_zone).date();
    int longest = 1;
    for (const CarEntry& entry : m_file.cars)
        longest = std::max(longest, entry.arrivesDaysAgo);
    const QDate first = workDay(today, -longest);
    m_clock.set(momentOn(first, dayStart - 30));
    auto opened = openHouse(m_workshop, m_file,
                            {.isDemo = true,
                             .command = [this] { return nextCommand(); },
                             .until = [today](int days) { return today.addDays(days); }});
    if (!opened)
        return tl::unexpected(opened.error());
    m_site = std::move(*opened);
    m_zone = zoneOf(m_site.rules);
    for (const CarEntry& entry : m_file.cars) {
        PlayedCar car;
        car.entry = &entry;
        car.id = CarId{QStringLiteral("demo-%1").arg(entry.stock.toLower())};
        const QDate day = entry.arrivesDaysAgo == 0 ? today : workDay(today, -entry.arrivesDaysAgo);
        car.arrives = momentOn(day, entry.arrivesMinute);
        m_cars.push_back(std::move(car));
    }
    const qint64 days = first.daysTo(today) + 1;
    for (QDate day = first; day <= today; day = day.addDays(1)) {
        progress(double(first.daysTo(day)) / double(days));
        if (day.dayOfWeek() > 5)
            continue;
        for (int minuteOfDay = dayStart; minuteOfDay <= m_site.rules.shiftEndMinute;
             ++minuteOfDay) {
            const Moment at = momentOn(day, minuteOfDay);
            if (at > now)
                break;
            m_clock.set(at);
            if (minuteOfDay == m_site.rules.shiftEndMinute) {
                if (auto stopped = m_workshop.stopAllWork(nextCommand()); !stopped)
                    return tl::unexpected(words(stopped.error()));
                for (PlayedCar& car : m_cars)
                    if (car.state.exists())
                        if (auto fresh = m_workshop.ledger().car(car.id))
                            car.state = *fresh;
                m_jobs.clear();
            } else if (minuteOfDay < lunchStart || minuteOfDay >= lunchEnd) {
                if (auto played = minute(at); !played)
                    return played;
            }
        }
    }
    leaveSomethingForLater();
    progress(1);
    return {};
}

tl::expected<void, QString> Crew::minute(Moment at)
{
    for (PlayedCar& car : m_cars) {
        if (!car.state.exists() && car.arrives <= at)
            arrive(car);
        if (car.state.exists() && !car.away)
            storyTurns(car, at);
    }
    for (const auto& [person, details] : m_site.people) {
        const auto job = m_jobs.find(person);
        if (job != m_jobs.end() && job->second.until <= at)
            finish(person);
        // The appraiser has walk-rounds to do; the rest take what is most pressing.
        if (!m_jobs.contains(person) && person != appraiser)
            findWork(person, at);
        if (!m_fault.isEmpty())
            return tl::unexpected(m_fault);
    }
    return {};
}

void Crew::arrive(PlayedCar& car)
{
    const CarEntry& entry = *car.entry;
    const QDate today = QDateTime::fromMSecsSinceEpoch(m_end.ms, m_zone).date();
    car::BringIn bring;
    bring.identity = {entry.stock, entry.registration, {},           entry.make,
                      entry.model, entry.shape,        entry.colour, {}};
    bring.facts.has = entry.facts;
    bring.facts.odometer = 12'000 + m_random.bounded(70'000);
    bring.facts.keys = 1 + m_random.bounded(2);
    bring.facts.testCertificateMonths = m_random.bounded(1, 12);
    bring.promised = entry.promised == 0 ? today : workDay(today, entry.promised);
    bring.parking = QStringLiteral("Yard");
    std::vector<CarCommand> commands{bring};
    for (const FindingData& finding : entry.findings)
        commands.emplace_back(car::RecordFinding{finding, {}});
    run(car, appraiser, commands);
    if (!entry.appraised)
        return;
    std::vector<CarCommand> walkRound{foundSound(entry.findings, entry.unseen),
                                      car::FinishAppraisal{}};
    for (const auto& [id, finding] : car.state.findings)
        walkRound.emplace_back(
            car::AttachPhoto{m_pictures(entry, finding.data().place, PhotoMoment::Before, 0),
                             PhotoMoment::Before,
                             finding.data().place,
                             {},
                             id});
    run(car, appraiser, walkRound);
}

bool Crew::findWork(PersonId person, Moment at)
{
    std::vector<PlayedCar*> order;
    for (PlayedCar& car : m_cars)
        if (car.state.exists() && !car.away && !car.state.released && !car.state.left)
            order.push_back(&car);
    std::ranges::stable_sort(order, [](const PlayedCar* a, const PlayedCar* b) {
        return a->state.promised < b->state.promised;
    });
    const Person& details = m_site.people.at(person);
    const QDate today = dayOf(at, m_site.rules);
    for (PlayedCar* car : order) {
        const bool somebodyElse =
            std::ranges::any_of(m_jobs, [&](const auto& job) { return job.second.car == car->id; });
        // The office does its papers beside the work; two people under one car do not go together.
        std::vector<OperationId> ids;
        for (const auto& [id, operation] : car->state.operations)
            if (operation.isOpen() && operation.state != OperationState::Blocked &&
                (!somebodyElse || operation.spec->skill == Skill::Office))
                ids.push_back(id);
        for (const OperationId id : ids) {
            const Operation& operation = *car->state.operation(id);
            if (whyNotAble(details, operation.spec) ||
                whyNotQualified(details, operation.spec, today))
                continue;
            // What did not close on several days is for a manager, who has none here.
            const Asked asked{person, car->id, id, car->state.seq};
            if (m_refused.contains(asked) || m_unfinished[{car->id, id}] >= mostTries)
                continue;
            if (isNotYet(car->state, operation, m_site.rules, at))
                continue;
            // A copy: the car's state is another as soon as the car is moved.
            if (begin(*car, Operation(operation), person, at))
                return true;
            m_refused.insert(asked);
        }
    }
    return false;
}

bool Crew::bringToBay(PlayedCar& car, const Operation& operation, PersonId person)
{
    if (operation.spec->bay == BayKind::Any)
        return true;
    const Bay* current = car.state.bay.isNull() ? nullptr : m_site.bay(car.state.bay);
    if (current != nullptr && current->kind == operation.spec->bay)
        return true;
    for (const RestraintReason& reason : restraints(car.state, m_clock.now()))
        if (reason.what == Restraint::Move)
            return true; // it is worked on where it stands
    for (const auto& [id, bay] : m_site.bays) {
        if (bay.kind != operation.spec->bay)
            continue;
        auto taken = m_workshop.ledger().bayTakenBy(id);
        if (!taken || !taken->isEmpty()) {
            // A car that nobody works on makes room.
            for (PlayedCar& other : m_cars)
                if (taken && other.entry->stock == *taken &&
                    std::ranges::none_of(
                        m_jobs, [&](const auto& job) { return job.second.car == other.id; }))
                    if (run(other, person, {car::MoveCar{{}, QStringLiteral("Yard")}}))
                        return run(car, person, {car::MoveCar{id, {}}});
            continue;
        }
        return run(car, person, {car::MoveCar{id, {}}});
    }
    return false;
}

bool Crew::begin(PlayedCar& car, const Operation& operation, PersonId person, Moment at)
{
    const OperationId id = operation.id;
    if (operation.state == OperationState::AwaitingCheck)
        return false;
    if (!bringToBay(car, operation, person))
        return false;
    std::vector<CarCommand> commands;
    if (!operation.spec->cautions.isEmpty() && !operation.cautionsReadBy.contains(person))
        commands.emplace_back(car::ReadCautions{id});
    commands.emplace_back(car::StartWork{id});
    if (!run(car, person, commands))
        return false;
    const Minutes& minutes = operation.spec->minutes;
    const int spread = std::max(1, minutes.high - minutes.low);
    // Two throws make the middle more likely than the ends.
    const int length = minutes.low + (m_random.bounded(spread) + m_random.bounded(spread)) / 2 -
                       operation.minutes();
    m_jobs[person] = {car.id, id, at.plusMinutes(std::max(3, length))};
    return true;
}

void Crew::enterFigures(PlayedCar& car, OperationId id, PersonId doer)
{
    const Operation& operation = *car.state.operation(id);
    const std::vector<CarCommand> commands = missingFigures(
        operation, QStringLiteral("%1 %2 workshop data").arg(car.entry->make, car.entry->model));
    if (commands.empty())
        return;
    // Never by the one who then signs against it.
    for (const auto& [person, details] : m_site.people)
        if (person != doer && (details.can(Right::Manage) || details.can(Right::Check)) &&
            !details.has(operation.spec->skill)) {
            run(car, person, commands);
            return;
        }
    for (const auto& [person, details] : m_site.people)
        if (person != doer && (details.can(Right::Manage) || details.can(Right::Check))) {
            run(car, person, commands);
            return;
        }
}

std::vector<CarCommand> Crew::evidenceOf(const PlayedCar& car, const Operation& operation)
{
    return evidence(operation, m_site, dayOf(m_clock.now(), m_site.rules), m_random,
                    [&](PhotoMoment moment, int number) {
                        return m_pictures(*car.entry, operation.place, moment, number);
                    });
}

void Crew::finish(PersonId person)
{
    const Job job = m_jobs.at(person);
    m_jobs.erase(person);
    const auto it = std::ranges::find(m_cars, job.car, &PlayedCar::id);
    enterFigures(*it, job.operation, person);
    const Operation operation = *it->state.operation(job.operation);
    std::vector<CarCommand> commands = evidenceOf(*it, operation);
    commands.emplace_back(car::SignOff{job.operation, {}});
    if (run(*it, person, commands))
        return;
    ++m_unfinished[{it->id, job.operation}];
    // Something came in between (a tyre that turned out worn, work that was added): pause it.
    if (std::vector<CarCommand> rest = evidenceOf(*it, operation); !run(*it, person, rest)) {
        // A picture that was taken is there, whatever became of the readings.
        std::erase_if(rest, [](const CarCommand& command) {
            return !std::holds_alternative<car::AttachPhoto>(command);
        });
        if (!rest.empty())
            run(*it, person, rest);
    }
    run(*it, person, {car::PauseWork{job.operation, person, StopKind::Paused}});
    m_refused.insert({person, it->id, job.operation, it->state.seq});
}

} // namespace ramplight::demo
