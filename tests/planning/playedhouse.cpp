// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/playedhouse.h"

#include "demo/atwork.h"
#include "domain/holds.h"
#include "domain/housecatalogue.h"
#include "domain/words.h"
#include "domain/worktotals.h"
#include "planning/indexing.h"

#include <QDateTime>
#include <QTimeZone>

#include <algorithm>
#include <cmath>

using namespace ramplight::planning;

namespace ramplight::test {

namespace {

const QDate firstDay(2031, 5, 5); // a Monday
constexpr int opens = 8 * 60;
constexpr int closes = 17 * 60;
constexpr int noon = 12 * 60;
constexpr int noonEnds = 12 * 60 + 30;
constexpr int mostCars = 16; ///< no more are sent in while so many are here
constexpr int minutesBetweenPlans = 10;
constexpr int soonMinutes = 60;

} // namespace

PlayedHouse::PlayedHouse(const Catalogue& catalogue, const demo::WorkshopFile& file,
                         std::uint64_t seed)
    : m_catalogue(catalogue)
    , m_file(file)
    , m_workshop(m_ledger, m_clock, catalogue)
    , m_dice(seed * 7907 + 3)
    , m_random(static_cast<quint32>(seed))
{
    // As much as a model without records takes houses to differ.
    m_house = 0.06 * m_dice.normal();
}

PlanEffort PlayedHouse::effort(int runs)
{
    return {.search = {.schedules = 300}, .runs = runs};
}

HouseLedger PlayedHouse::history()
{
    std::vector<CarId> cars;
    for (const auto& [id, car] : m_ledger.cars())
        cars.push_back(id);
    return houseLedger(m_ledger, cars).value();
}

CommandId PlayedHouse::command()
{
    return CommandId{QStringLiteral("played-%1").arg(++m_commands)};
}

bool PlayedHouse::run(PersonId who, const CarId& id, std::vector<CarCommand> commands,
                      bool pinFresh)
{
    return m_workshop.run(CarRequest{command(), who, id, std::move(commands), pinFresh})
        .has_value();
}

void PlayedHouse::openHouse()
{
    auto opened = demo::openHouse(m_workshop, m_file,
                                  {.command = [this] { return command(); },
                                   .until = [](int) { return firstDay.addDays(400); }});
    if (!opened)
        qFatal("%s", qPrintable(opened.error()));
    m_site = std::move(*opened);
    m_inForce = std::make_shared<const Catalogue>(houseCatalogue(m_catalogue, m_site));
}

void PlayedHouse::play(int days)
{
    const QTimeZone zone("Europe/London");
    const auto momentOn = [&zone](QDate day, int minute) {
        return Moment{QDateTime(day, QTime(minute / 60, minute % 60), zone).toMSecsSinceEpoch()};
    };
    m_clock.set(momentOn(firstDay, opens - 60));
    openHouse();
    for (int cars = 6; cars > 0; --cars)
        bringIn(m_clock.now());
    QDate day = firstDay;
    for (int played = 0; played < days; day = day.addDays(1)) {
        if (day.dayOfWeek() > 5)
            continue;
        ++played;
        std::vector<int> arrivals;
        for (int cars = m_dice.between(1, 3); cars > 0; --cars)
            arrivals.push_back(m_dice.between(opens + 1, closes - 60));
        for (int minute = opens; minute <= closes; ++minute) {
            const Moment at = momentOn(day, minute);
            m_clock.set(at);
            if (minute == opens) {
                m_mornings.push_back(at);
                m_refused.clear(); // another day, another try
            }
            if (minute == noon || minute == closes) {
                if (const auto stopped = m_workshop.stopAllWork(command()); !stopped)
                    qFatal("%s", qPrintable(words(stopped.error())));
                for (auto& [person, task] : m_tasks)
                    task.isPaused = !task.isCheck;
                m_isStale = true;
            }
            if (minute == closes) {
                m_tasks.clear();
                break;
            }
            if (minute >= noon && minute < noonEnds)
                continue;
            for (const int arrival : arrivals) {
                if (arrival == minute && std::ssize(m_here) < mostCars)
                    bringIn(at);
            }
            for (const auto& [person, details] : m_site.people)
                work(person);
            leaveIfReady(at);
            if (minute == opens ||
                (m_isStale && minutesBetween(m_planned, at) >= minutesBetweenPlans))
                planAnew(at, minute == opens);
            for (const auto& [person, details] : m_site.people) {
                if (!m_tasks.contains(person))
                    takeNext(person, at);
            }
        }
    }
}

void PlayedHouse::bringIn(Moment at)
{
    const demo::CarEntry& like =
        m_file.cars[planning::at(m_dice.below(static_cast<int>(m_file.cars.size())))];
    const CarId id{QStringLiteral("played-%1").arg(++m_cars)};
    car::BringIn bring;
    bring.identity = {QStringLiteral("P-%1").arg(1000 + m_cars),
                      QStringLiteral("QX %1 K").arg(1000 + m_cars),
                      {},
                      like.make,
                      like.model,
                      like.shape,
                      like.colour,
                      {}};
    bring.facts.has = like.facts;
    bring.facts.odometer = 12'000 + m_dice.below(70'000);
    bring.facts.keys = 2;
    bring.facts.testCertificateMonths = m_dice.between(1, 11);
    QDate promised = dayOf(at, m_site.rules);
    for (int left = m_dice.between(2, 7); left > 0;) {
        promised = promised.addDays(1);
        left -= promised.dayOfWeek() < 6 ? 1 : 0;
    }
    bring.promised = promised;
    bring.parking = QStringLiteral("Yard");
    std::vector<CarCommand> commands{bring};
    for (const FindingData& finding : like.findings)
        commands.emplace_back(car::RecordFinding{finding, {}});
    commands.emplace_back(demo::foundSound(like.findings));
    commands.emplace_back(car::FinishAppraisal{});
    if (!run(demo::appraiser, id, std::move(commands)))
        qFatal("car %s cannot be brought in", qPrintable(id.text));
    m_here.insert(id);
    m_isStale = true;
}

double PlayedHouse::factor(std::map<QString, double>& among, const QString& key, double spread)
{
    const auto found = among.find(key);
    return found != among.end() ? found->second : among[key] = spread * m_dice.normal();
}

int PlayedHouse::minutesFor(const CarState& car, const Operation& operation, PersonId person)
{
    const auto known = m_minutes.find({car.id, operation.id});
    if (known != m_minutes.end())
        return known->second;
    const Minutes listed = minutesOf(car, operation);
    const QString kind = operation.spec->id;
    const auto spread = m_spreads
                            .try_emplace(kind, MinutesModel::catalogueSpread(listed) *
                                                   (0.75 + 0.5 * m_dice.share()))
                            .first->second;
    const double log = m_house + factor(m_kinds, kind, 0.25) +
                       factor(m_people, QString::number(person.value), 0.2) +
                       factor(m_shapes, nameOf(car.identity.shape), 0.1) +
                       factor(m_ofCars, car.id.text, 0.2) + spread * m_dice.normal();
    const int minutes = std::max(1, static_cast<int>(std::lround(listed.usual * std::exp(log))));
    m_minutes[{car.id, operation.id}] = minutes;
    return minutes;
}

bool PlayedHouse::isInHand(const CarId& id) const
{
    return std::ranges::any_of(m_tasks, [&](const auto& task) { return task.second.car == id; });
}

void PlayedHouse::work(PersonId person)
{
    const auto found = m_tasks.find(person);
    if (found == m_tasks.end())
        return;
    Task& task = found->second;
    if (task.isPaused) {
        task.isPaused = false;
        if (!run(person, task.car, {car::StartWork{task.operation}})) {
            m_tasks.erase(found);
            return;
        }
    }
    if (--task.left >= 0)
        return;
    const Task done = task;
    m_tasks.erase(found);
    finish(person, done);
    m_isStale = true;
}

void PlayedHouse::finish(PersonId person, const Task& task)
{
    if (task.isCheck) {
        if (run(person, task.car, {car::Countersign{task.operation}}))
            m_closed[task.car] = m_clock.now();
        else
            m_refused.insert({task.car, task.operation});
        return;
    }
    enterFigures(task.car, task.operation, person);
    const std::vector<CarCommand> commands = demo::evidence(
        *car(task.car).operation(task.operation), m_site, dayOf(m_clock.now(), m_site.rules),
        m_random, [](PhotoMoment moment, int number) {
            const int which = number * 8 + static_cast<int>(moment);
            return PhotoId{QStringLiteral("%1").arg(which, 64, 16, QLatin1Char('0'))};
        });
    std::vector<CarCommand> signing = commands;
    signing.emplace_back(car::SignOff{task.operation, {}});
    if (run(person, task.car, signing)) {
        m_closed[task.car] = m_clock.now();
        return;
    }
    // Something came of what was measured; the signature comes after that.
    if (!commands.empty())
        run(person, task.car, commands);
    if (run(person, task.car, {car::SignOff{task.operation, {}}})) {
        m_closed[task.car] = m_clock.now();
        return;
    }
    run(person, task.car, {car::PauseWork{task.operation, person, StopKind::Paused}});
    m_refused.insert({task.car, task.operation});
}

void PlayedHouse::enterFigures(const CarId& id, OperationId number, PersonId doer)
{
    std::vector<CarCommand> commands =
        demo::missingFigures(*car(id).operation(number), QStringLiteral("workshop data"));
    if (!commands.empty())
        run(doer == demo::manager ? demo::appraiser : demo::manager, id, std::move(commands));
}

std::size_t PlayedHouse::withdrawAll(Moment at)
{
    m_clock.set(at);
    // What is half taken apart stays.
    return std::erase_if(m_here, [this](const CarId& id) {
        return run(demo::manager, id,
                   {car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("to the trade")}});
    });
}

void PlayedHouse::leaveIfReady(Moment at)
{
    std::vector<CarId> gone;
    for (const CarId& id : m_here) {
        const CarState& state = car(id);
        if (std::ranges::any_of(state.operations,
                                [](const auto& one) { return one.second.isOpen(); }))
            continue;
        Moment ready = m_closed.contains(id) ? m_closed.at(id) : at;
        for (const auto& [number, operation] : state.operations)
            ready = std::max(ready, operation.waitUntil);
        if (ready > at)
            continue;
        // What counts for some days only is done once more.
        for (const OperationId old : tooOld(state, m_site.rules, at)) {
            const Operation& operation = *state.operation(old);
            run(demo::manager, id,
                {car::OpenOperation{operation.spec->id, operation.place,
                                    QStringLiteral("too old")}});
            m_isStale = true;
        }
        if (run(demo::appraiser, id, {car::Release{}}, true)) {
            m_ready[id] = ready;
            gone.push_back(id);
        }
    }
    for (const CarId& id : gone)
        m_here.erase(id);
    m_isStale = m_isStale || !gone.empty();
}

void PlayedHouse::planAnew(Moment at, bool isMorning)
{
    HouseInput input;
    for (const auto& [id, state] : m_ledger.cars()) {
        if (m_here.contains(id))
            input.cars.push_back(state);
        const std::vector<WorkRecord> records = recordsOf(state);
        input.records.insert(input.records.end(), records.begin(), records.end());
    }
    input.site = m_site;
    input.calendar = calendarOf(m_site);
    input.catalogue = m_inForce;
    HousePlan plan = planHouse(input, at, m_effort, isMorning || !m_plan ? nullptr : &*m_plan);
    if (!plan.faults.isEmpty())
        qFatal("%s", qPrintable(plan.faults.join(QStringLiteral("; "))));
    m_plan = std::move(plan);
    m_planned = at;
    m_isStale = false;
}

void PlayedHouse::takeNext(PersonId person, Moment at)
{
    for (const int job : m_plan->jobsOf(person)) {
        const CarId& id = m_plan->carOf(job);
        const OperationId number = m_plan->house.jobs[planning::at(job)];
        if (number.isNull() || !m_here.contains(id) || m_refused.contains({id, number}))
            continue;
        const Operation* operation = car(id).operation(number);
        if (operation == nullptr || !operation->isOpen() || operation->isRunning())
            continue;
        if (std::ranges::any_of(m_tasks, [&](const auto& task) {
                return task.second.car == id && task.second.operation == number;
            }))
            continue;
        if (operation->state == OperationState::AwaitingCheck) {
            // The plan may be from before the signature: then it is the doer's.
            if (operation->doers().contains(person))
                continue;
            m_tasks[person] = {id, number, m_dice.between(2, 8), true};
            return;
        }
        // What cannot be begun is passed over for what was to come soon.
        if (m_plan->clock().momentOf(m_plan->plan.jobs[planning::at(job)].start) >
            at.plusMinutes(soonMinutes))
            return;
        if (!whyNotYet(car(id), *operation, m_site.rules, at).isEmpty())
            continue;
        const int bay = m_plan->plan.jobs[planning::at(job)].bay;
        if (bay >= 0 && !bringToBay(person, id, m_plan->house.bays[planning::at(bay)]))
            continue;
        if (begin(person, id, number, at))
            return;
        m_refused.insert({id, number});
    }
}

bool PlayedHouse::begin(PersonId person, const CarId& id, OperationId number, Moment at)
{
    const Operation& operation = *car(id).operation(number);
    std::vector<CarCommand> commands;
    if (!operation.spec->cautions.isEmpty() && !operation.cautionsReadBy.contains(person))
        commands.emplace_back(car::ReadCautions{number});
    commands.emplace_back(car::StartWork{number});
    if (!run(person, id, std::move(commands)))
        return false;
    const Operation& begun = *car(id).operation(number);
    m_tasks[person] = {id, number,
                       std::max(1, minutesFor(car(id), begun, person) - minutesUntil(begun, at))};
    return true;
}

bool PlayedHouse::bringToBay(PersonId person, const CarId& id, BayId bay)
{
    const auto stays = [this](const CarId& one) {
        return std::ranges::any_of(
            restraints(car(one), m_clock.now()),
            [](const RestraintReason& reason) { return reason.what == Restraint::Move; });
    };
    // What may not be moved is worked on where it stands.
    if (car(id).bay == bay || stays(id))
        return true;
    for (const CarId& other : m_here) {
        if (car(other).bay != bay)
            continue;
        // Whoever stands there unattended makes room.
        if (isInHand(other) || !run(person, other, {car::MoveCar{{}, QStringLiteral("Yard")}}))
            return false;
    }
    return !isInHand(id) && run(person, id, {car::MoveCar{bay, {}}});
}

} // namespace ramplight::test
