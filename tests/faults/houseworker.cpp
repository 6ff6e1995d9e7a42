// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "houseworker.h"

#include "domain/keptrequest.h"

#include <QDateTime>
#include <QDeadlineTimer>
#include <QThread>
#include <QUuid>

#include <algorithm>

namespace ramplight::test {

namespace {

QString words(const char* text)
{
    return QString::fromLatin1(text);
}

/// Once it is kept.
QString keptLine(PersonId who, const CarId& car, const CarCommand& command, const CommandId& id)
{
    if (const auto* read = std::get_if<car::ReadCautions>(&command))
        return QStringLiteral("cautions %1 %2 %3 %4")
            .arg(car.text)
            .arg(read->operation.value)
            .arg(who.value)
            .arg(id.text);
    if (const auto* sound = std::get_if<car::FindSound>(&command))
        return QStringLiteral("sound %1 %2 %3").arg(car.text, sound->places.front().text, id.text);
    if (const auto* repair = std::get_if<car::ConfirmRepair>(&command))
        return QStringLiteral("repaired %1 %2 %3").arg(car.text, repair->panel.text, id.text);
    if (const auto* move = std::get_if<car::MoveCar>(&command))
        return QStringLiteral("moved %1 %2 %3 %4")
            .arg(car.text)
            .arg(move->bay.value)
            .arg(move->bay.isNull() ? move->parking : QString(), id.text);
    if (const auto* sign = std::get_if<car::SignOff>(&command))
        return QStringLiteral("signed %1 %2 %3")
            .arg(car.text)
            .arg(sign->operation.value)
            .arg(id.text);
    return QStringLiteral("kept %1").arg(id.text);
}

template <class Outcome>
const Failure* failureIn(const tl::expected<Outcome, Failure>& outcome)
{
    return outcome ? nullptr : &outcome.error();
}

} // namespace

HouseWorker::HouseWorker(HouseDoor& door, quint64 seed, Told told)
    : m_door(door)
    , m_dice(seed)
    , m_told(std::move(told))
    , m_name(QUuid::createUuid().toString(QUuid::Id128))
    , m_cars(goneCars())
    , m_crew(*this, m_dice, m_people, m_cars, quickScope())
    , m_site(m_dice, m_name.left(8))
{
    for (int i = 1; i <= peopleOfTheBench; ++i)
        m_people.push_back(PersonId{i});
}

const HouseNames& HouseWorker::names() const
{
    return benchNames();
}

Moment HouseWorker::now() const
{
    return {QDateTime::currentMSecsSinceEpoch()};
}

PhotoId HouseWorker::photo()
{
    const QImage picture = anyPicture(m_dice);
    const QDeadlineTimer deadline(std::chrono::minutes(1));
    while (!m_lost) {
        if (const auto kept = m_door.photos().keep(picture))
            return kept->id;
        m_lost = deadline.hasExpired();
        QThread::msleep(5);
    }
    return {};
}

bool HouseWorker::reopen()
{
    m_lost = m_lost || !m_door.open();
    return !m_lost;
}

void HouseWorker::reopenWhereItHasTo()
{
    if (m_door.goesOnAlone())
        QThread::msleep(5);
    else
        reopen();
}

bool HouseWorker::work(int commands, const std::function<bool()>& goesOn)
{
    if (!reopen())
        return false;
    while (m_answered < commands && !m_lost && (!goesOn || goesOn()))
        step();
    return !m_lost;
}

template <class Ask>
std::invoke_result_t<Ask> HouseWorker::untilAnswered(Ask ask)
{
    while (true) {
        auto outcome = ask();
        const StoreError* error = storeErrorIn(outcome);
        const bool unavailable = error != nullptr && error->kind == StoreErrorKind::Unavailable;
        // Whether it was kept is not known: the same again, and it is kept once.
        if (!unavailable || m_door.goesOnAlone()) {
            ++m_answered;
            m_alone = unavailable;
            return outcome;
        }
        QThread::msleep(5);
        if (!reopen())
            return outcome;
    }
}

template <class Ask>
std::invoke_result_t<Ask> HouseWorker::untilRead(Ask ask)
{
    auto answer = ask();
    while (!answer && !m_lost) {
        reopenWhereItHasTo();
        if (!m_lost)
            answer = ask();
    }
    return answer;
}

CommandId HouseWorker::nextCommand()
{
    return {QStringLiteral("%1-%2").arg(m_name).arg(++m_commands)};
}

void HouseWorker::tellAsked(const char* kind, const Failure* failure)
{
    const char* how = failure == nullptr ? "done" : m_alone ? "waits" : "refused";
    m_told(QStringLiteral("asked %1 %2").arg(words(kind), words(how)));
}

void HouseWorker::tellWaits(const CommandId& id, const Failure* failure)
{
    if (failure != nullptr && m_alone)
        m_told(QStringLiteral("%1 %2").arg(
            ramplight::words(*failure) == notKeptWords() ? words("refused") : words("unsure"),
            id.text));
}

bool HouseWorker::ask(PersonId who, const CarId& car, const CarCommand& command)
{
    if (m_lost)
        return false;
    const CommandId id = nextCommand();
    const auto outcome = untilAnswered([&] {
        return m_door.run(CarRequest{id, who, car, {command}, true});
    });
    tellAsked(commandNames()[command.index()], failureIn(outcome));
    tellWaits(id, failureIn(outcome));
    if (!outcome)
        return false;
    // Nothing to write, or written before its answer was lost.
    if (!outcome->events.empty() || untilRead([&] { return m_door.isKnown(id); }).value_or(false))
        m_told(keptLine(who, car, command, id));
    return true;
}

CarState HouseWorker::car(const CarId& id)
{
    return untilRead([&] { return m_door.car(id); }).value_or(CarState{});
}

SiteState HouseWorker::site()
{
    SiteState site = untilRead([&] { return m_door.site(); }).value_or(SiteState{});
    if (!site.people.empty())
        m_people.clear();
    for (const auto& [id, person] : site.people)
        m_people.push_back(id);
    return site;
}

std::optional<RunningWork> HouseWorker::runningWork(PersonId person)
{
    return untilRead([&] { return m_door.runningWork(person); }).value_or(std::nullopt);
}

void HouseWorker::step()
{
    const auto wall = m_door.wall();
    if (!wall) {
        reopenWhereItHasTo();
        return;
    }
    // Before all else, or who is wanted for the rest may never come back.
    if (m_dice.oneIn(12))
        return changeHouse();
    // What waits for the server is asked for now and then only; work goes on.
    const bool maybe = !m_alone || wall->empty() || m_dice.oneIn(20);
    if (maybe &&
        (wall->size() < m_leastCars || (wall->size() < 3 * m_leastCars && m_dice.oneIn(30))))
        return bringIn();
    const CarId id = m_dice.any(*wall).car;
    if (std::ranges::find(m_cars, id) == m_cars.end())
        m_cars.push_back(id);
    if (m_dice.oneIn(4))
        return somethingElse(id);
    if (wall->size() > 2 * m_leastCars && m_dice.oneIn(20)) {
        ask(names().manager, id, car::LeaveUnreleased{LeavingHow::Trade, words("sold as it is")});
        return;
    }
    const CarState state = car(id);
    if (!state.appraised)
        return m_crew.appraise(id);
    const std::vector<const Operation*> open = state.openOperations();
    std::vector<OperationId> ready;
    for (const Operation* operation : open)
        if (whyNotYet(state, *operation, HouseRules{}, state.lastAt).isEmpty())
            ready.push_back(operation->id);
    if (!ready.empty())
        return m_crew.workOn(id, m_dice.any(ready));
    if (open.empty())
        return m_crew.letGo(id);
    // What dries for an hour is not waited for.
    if (m_dice.oneIn(3))
        ask(names().manager, id,
            car::LeaveUnreleased{LeavingHow::Trade, words("not worth the wait")});
}

void HouseWorker::bringIn()
{
    const QString mark = QStringLiteral("%1-%2").arg(m_name.left(6)).arg(m_commands);
    const CarId id{QStringLiteral("car-") + mark};
    Identity identity;
    identity.stockNumber = mark;
    identity.make = words("Halden");
    identity.model = words("Skerry");
    if (ask(names().appraiser, id, car::BringIn{identity, m_crew.facts(), QDate(2099, 3, 20), {}}))
        m_cars.push_back(id);
}

void HouseWorker::merge()
{
    if (m_lost)
        return;
    const CarId keep = m_dice.any(m_cars);
    const CarId second = m_dice.any(m_cars);
    const CommandId id = nextCommand();
    const auto outcome = untilAnswered([&] {
        return m_door.mergeDuplicate(id, names().manager, keep, second, words("entered twice"));
    });
    for (const std::size_t kind : {kindOf<car::LinkDuplicate>(), kindOf<car::CloseDuplicate>()})
        tellAsked(commandNames()[kind], failureIn(outcome));
    tellWaits(id, failureIn(outcome));
    if (outcome)
        m_told(QStringLiteral("kept %1").arg(id.text));
}

void HouseWorker::changeHouse()
{
    const SiteState now = site();
    if (m_lost || now.people.empty())
        return;
    const RandomSite::Asked asked = m_site.anything(now);
    const PersonId who = m_dice.oneIn(5) ? m_crew.anybody() : names().manager;
    const CommandId id = nextCommand();
    const auto outcome = untilAnswered([&] {
        return m_door.run(SiteRequest{id, who, asked.command, asked.name});
    });
    tellAsked(siteCommandNames()[asked.command.index()], failureIn(outcome));
    tellWaits(id, failureIn(outcome));
    // What is so already is not written.
    if (outcome && untilRead([&] { return m_door.isKnown(id); }).value_or(false))
        m_told(QStringLiteral("house %1").arg(id.text));
}

CarId HouseWorker::carFor(std::size_t kind, const CarId& onWall)
{
    if (kind == kindOf<car::RemovePhotos>())
        return anyOldCar(m_dice);
    if (kind == kindOf<car::CorrectMinutes>())
        return anyWorkedCar(m_dice);
    for (int i = 0; isAimed(kind) && i < 5; ++i)
        if (const CarId id = m_dice.any(m_cars); suits(kind, car(id)))
            return id;
    return m_dice.oneIn(6) ? m_dice.any(m_cars) : onWall;
}

void HouseWorker::prepare(std::size_t kind, const CarId& id)
{
    switch (kind) {
    case kindOf<car::TakeOut>():
        ask(names().appraiser, id, car::RecordFinding{finding("bonnet", Condition::Scratch), {}});
        return;
    case kindOf<car::WithdrawOperation>():
    case kindOf<car::LeaveAsIs>():
        ask(names().manager, id,
            car::OpenOperation{words("touch-in"), at("bonnet"), words("seen in the sun")});
        return;
    case kindOf<car::SetIsolation>():
        ask(names().manager, id,
            car::OpenOperation{words("high-voltage-repair"), at("traction-battery"),
                               words("a warning lamp")});
        return;
    default:
        return;
    }
}

void HouseWorker::somethingElse(const CarId& onWall)
{
    const std::size_t kind = m_kinds.next(m_dice);
    if (kind == kindOf<car::LinkDuplicate>())
        return merge();
    const CarId id = carFor(kind, onWall);
    prepare(kind, id);
    const PersonId who = m_dice.oneIn(3) ? m_crew.anybody() : names().manager;
    m_crew.anything(who, id, kind);
}

} // namespace ramplight::test
