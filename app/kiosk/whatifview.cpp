// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/whatifview.h"

#include "kiosk/carwords.h"
#include "planning/indexing.h"

#include <algorithm>
#include <cstdlib>

namespace ramplight {

namespace {

using namespace planning;

constexpr std::array changeColumns{
    Column<WhatIfChange>{"changeId", cell<&WhatIfChange::changeId>},
    Column<WhatIfChange>{"words", cell<&WhatIfChange::words>},
    Column<WhatIfChange>{"keepable", cell<&WhatIfChange::keepable>},
    Column<WhatIfChange>{"wantsReason", cell<&WhatIfChange::wantsReason>},
    Column<WhatIfChange>{"keepWords", cell<&WhatIfChange::keepWords>},
};

constexpr std::array whatIfColumns{
    Column<WhatIfCar>{"carId", cell<&WhatIfCar::carId>},
    Column<WhatIfCar>{"group", cell<&WhatIfCar::group>},
    Column<WhatIfCar>{"stockNumber", cell<&WhatIfCar::stockNumber>},
    Column<WhatIfCar>{"makeModel", cell<&WhatIfCar::makeModel>},
    Column<WhatIfCar>{"nowWords", cell<&WhatIfCar::nowWords>},
    Column<WhatIfCar>{"nowSureWords", cell<&WhatIfCar::nowSureWords>},
    Column<WhatIfCar>{"thenWords", cell<&WhatIfCar::thenWords>},
    Column<WhatIfCar>{"thenSureWords", cell<&WhatIfCar::thenSureWords>},
    Column<WhatIfCar>{"byWords", cell<&WhatIfCar::byWords>},
    Column<WhatIfCar>{"promiseWords", cell<&WhatIfCar::promiseWords>},
    Column<WhatIfCar>{"lateNow", cell<&WhatIfCar::lateNow>},
    Column<WhatIfCar>{"lateThen", cell<&WhatIfCar::lateThen>},
};

/// What making a change real would mean, and whether it can be done from here.
class Keeping
{
public:
    explicit Keeping(const HouseInput& input)
        : m_input(input)
    {
    }

    void operator()(const whatif::AnotherPerson&)
    {
        row.keepWords = WhatIfView::tr(
            "Nobody can be made to come from here. Once they are here, add them under Staff and "
            "bays.");
    }
    void operator()(const whatif::AnotherBay&)
    {
        row.keepWords = WhatIfView::tr(
            "A bay is not made from here. Once it is there, add it under Staff and bays.");
    }
    void operator()(const whatif::ExtraTime&)
    {
        can(WhatIfView::tr("These hours are added to the times of whom they are for."));
    }
    void operator()(const whatif::Absence&)
    {
        can(WhatIfView::tr("These days away are added to the person's times."));
    }
    void operator()(const whatif::PartAt& change)
    {
        const auto car = std::ranges::find(m_input.cars, change.car, &CarState::id);
        const Operation* work =
            car == m_input.cars.end() ? nullptr : car->operation(change.operation);
        if (work != nullptr && work->due() && change.day.isValid())
            can(work->part ? WhatIfView::tr("The part is then expected on this day.")
                           : WhatIfView::tr("The work is then expected back on this day."));
        else if (work == nullptr || !work->part)
            row.keepWords = WhatIfView::tr(
                "Work that is outside is taken back on its own page, when it is back.");
        else
            can(WhatIfView::tr("The work then waits for its part no longer."));
    }
    void operator()(const whatif::Promise&)
    {
        can(WhatIfView::tr("The car is then promised so, and its history says why."));
        row.wantsReason = true;
    }
    void operator()(const whatif::Assign&)
    {
        row.keepWords = WhatIfView::tr("Work is given to somebody in the plan itself.");
    }

    WhatIfChange row = {};

private:
    void can(const QString& words)
    {
        row.keepable = true;
        row.keepWords = words;
    }

    const HouseInput& m_input;
};

} // namespace

WhatIfChanges::WhatIfChanges(QObject* parent)
    : ListBase(std::make_unique<RowTable<WhatIfChange>>(changeColumns), parent)
{
}

WhatIfCars::WhatIfCars(QObject* parent)
    : ListBase(std::make_unique<RowTable<WhatIfCar>>(whatIfColumns), parent)
{
}

WhatIfView::WhatIfView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
                       PlanService& plans, PlanView& view, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_feed(feed)
    , m_ticker(ticker)
    , m_plans(plans)
    , m_view(view)
    , m_form(book, ticker, plans)
{
    // The plan that it is held against is another one.
    connect(&view, &PlanView::changed, this, &WhatIfView::tellAnew);
}

void WhatIfView::tellAnew()
{
    std::vector<WhatIfChange> rows = m_changes.rows();
    for (WhatIfChange& row : rows)
        row = rowOf(row.changeId, row.change);
    m_changes.set(std::move(rows));
    look();
}

WhatIfChange WhatIfView::rowOf(int changeId, const whatif::Change& change) const
{
    Keeping keeping(m_plans.input());
    std::visit(keeping, change);
    WhatIfChange row = std::move(keeping.row);
    row.changeId = changeId;
    row.change = change;
    row.words = sentence(whatif::words(change, m_plans.input(), [this](QDate day) {
        return m_book.times().day(day, m_ticker.now());
    }));
    return row;
}

void WhatIfView::add()
{
    const auto change = m_form.change();
    if (!change || !m_plans.plan())
        return;
    m_ask.dismiss();
    std::vector<WhatIfChange> rows = m_changes.rows();
    rows.push_back(rowOf(++m_lastId, *change));
    m_changes.set(std::move(rows));
    look();
}

void WhatIfView::remove(int changeId)
{
    std::vector<WhatIfChange> rows = m_changes.rows();
    std::erase_if(rows, [changeId](const WhatIfChange& row) { return row.changeId == changeId; });
    m_changes.set(std::move(rows));
    look();
}

void WhatIfView::clear()
{
    m_ask.dismiss();
    m_changes.set({});
    look();
}

void WhatIfView::look()
{
    const int mine = ++m_looks;
    m_plans.leaveWhatIf();
    m_considering = m_changes.count() > 0 && m_view.planned();
    if (!m_considering) {
        m_considered = false;
        m_would.reset();
        m_cars.set({});
        m_restWords.clear();
        m_faultWords.clear();
        emit changed();
        return;
    }
    // What was seen stays until there is an answer.
    emit changed();
    std::vector<whatif::Change> changes;
    for (const WhatIfChange& row : m_changes.rows())
        changes.push_back(row.change);
    const PlanService::Plan before = m_plans.plan();
    whenReady(m_plans.whatIf(changes), this, [this, mine, before](const PlanService::Plan& would) {
        if (mine == m_looks && would)
            show(before, would);
    });
}

void WhatIfView::show(const PlanService::Plan& before, const PlanService::Plan& would)
{
    m_considering = false;
    m_considered = true;
    m_would = would;
    m_faultWords = would->faults.join(QLatin1Char('\n'));
    std::vector<WhatIfCar> rows;
    m_restWords.clear();
    m_lateThen = 0;
    if (m_faultWords.isEmpty()) {
        const whatif::Outcome outcome = whatif::outcomeOf(*before, *would, planning::leastShift);
        m_lateThen = outcome.lateAfter;
        const auto add = [&](const std::vector<CarShift>& shifts, const QString& group) {
            for (const CarShift& shift : shifts)
                rows.push_back(rowOf(shift, group));
        };
        add(outcome.sooner, tr("Sooner"));
        add(outcome.later, tr("Later"));
        add(outcome.otherwise, tr("Ready as planned"));
        m_restWords = rows.empty()            ? tr("No car is ready at another time.")
                      : outcome.asBefore == 0 ? QString()
                      : outcome.asBefore == 1
                          ? tr("The one other car is ready as planned.")
                          : tr("The %1 other cars are ready as planned.").arg(outcome.asBefore);
    }
    m_cars.set(std::move(rows));
    emit changed();
}

QString WhatIfView::timeWords(PlanMinute minute) const
{
    return minute == never
               ? tr("cannot be finished")
               : m_book.times().dayAndClock(m_would->clock().momentOf(minute), m_ticker.now());
}

QString WhatIfView::sureWords(PlanMinute minute) const
{
    return minute == never ? tr("one time in ten or more it cannot be finished")
                           : tr("nine times in ten by %1").arg(timeWords(minute));
}

QString WhatIfView::byWords(const CarShift& shift) const
{
    if (shift.before == never || shift.after == never || shift.before == shift.after)
        return {};
    const PlanClock clock = m_would->clock();
    const bool later = shift.after > shift.before;
    const auto days = std::abs(clock.dayOf(shift.before).daysTo(clock.dayOf(shift.after)));
    if (days == 0) {
        const QString by = minutesWords(std::abs(shift.after - shift.before));
        return later ? tr("%1 later").arg(by) : tr("%1 sooner").arg(by);
    }
    if (days == 1)
        return later ? tr("a day later") : tr("a day sooner");
    return (later ? tr("%1 days later") : tr("%1 days sooner")).arg(days);
}

QString WhatIfView::promiseWords(const CarShift& shift) const
{
    const int car = m_would->numberOf(shift.car);
    const PlanMinute promised = m_would->house.shop.cars[at(car)].promised;
    if (promised == never)
        return tr("nothing promised");
    const QString day = m_book.times().day(m_would->clock().dayOf(promised), m_ticker.now());
    const QString become = shift.wasLate && shift.isLate ? tr("late either way")
                           : shift.wasLate               ? tr("late now, in time then")
                           : shift.isLate                ? tr("in time now, late then")
                                                         : tr("in time either way");
    return tr("promised %1: %2").arg(day, become);
}

WhatIfCar WhatIfView::rowOf(const CarShift& shift, const QString& group) const
{
    WhatIfCar row;
    row.carId = shift.car.text;
    row.group = group;
    row.stockNumber = m_would->house.shop.cars[at(m_would->numberOf(shift.car))].name;
    if (const CarCard* card = m_feed.card(shift.car))
        row.makeModel = makeModelOf(card->identity);
    row.nowWords = timeWords(shift.before);
    row.thenWords = timeWords(shift.after);
    row.nowSureWords = shift.before == never ? QString() : sureWords(shift.before90);
    row.thenSureWords = shift.after == never ? QString() : sureWords(shift.after90);
    row.byWords = byWords(shift);
    row.promiseWords = promiseWords(shift);
    row.lateNow = shift.wasLate;
    row.lateThen = shift.isLate;
    return row;
}

// ---- making it real --------------------------------------------------------------------------

void WhatIfView::keep(int changeId, const QString& reason)
{
    const auto& rows = m_changes.rows();
    const auto row = std::ranges::find(rows, changeId, &WhatIfChange::changeId);
    if (row == rows.end() || !row->keepable)
        return;
    const whatif::Change change = row->change;
    if (const auto* hours = std::get_if<whatif::ExtraTime>(&change)) {
        keepTimes(changeId,
                  hours->person.isNull() ? whatif::everybody(m_book.site())
                                         : std::vector{hours->person},
                  [extra = hours->hours](const PersonTimes& times) { return with(times, extra); });
    } else if (const auto* away = std::get_if<whatif::Absence>(&change)) {
        keepTimes(changeId, {away->person},
                  [days = away->days](const PersonTimes& times) { return with(times, days); });
    } else if (const auto* promise = std::get_if<whatif::Promise>(&change)) {
        keepOnCar(changeId, promise->car,
                  {car::ChangePromise{promise->day, reason.trimmed(), promise->importance}});
    } else if (const auto* part = std::get_if<whatif::PartAt>(&change)) {
        const CarState* car = m_plans.car(part->car);
        const Operation* work = car == nullptr ? nullptr : car->operation(part->operation);
        if (work == nullptr || !work->due())
            return;
        if (part->day.isValid())
            keepOnCar(changeId, part->car, {car::ChangeDue{part->operation, part->day, {}}});
        else
            keepOnCar(changeId, part->car, {car::Unblock{part->operation}});
    }
}

void WhatIfView::keepTimes(int changeId, const std::vector<PersonId>& people,
                           const std::function<PersonTimes(const PersonTimes&)>& made)
{
    const QString why = people.size() == 1 ? tr("to change %1").arg(m_book.nameOf(people.front()))
                                           : tr("to change everybody's hours");
    m_session.whenPinAgain(why, [this, changeId, people, made](PersonId manager) {
        std::vector<site::SetTimes> commands;
        for (const PersonId id : people)
            if (const Person* person = m_book.site().person(id))
                commands.push_back({id, made(person->times)});
        sendTimes(changeId, std::move(commands), manager);
    });
}

void WhatIfView::sendTimes(int changeId, std::vector<site::SetTimes> commands, PersonId manager)
{
    if (commands.empty())
        return;
    const SiteRequest request{newCommandId(), manager, commands.front(), {}};
    commands.erase(commands.begin());
    // Each has a name of its own, so that the next waits for its turn.
    m_ask.send<SiteOutcome>(
        QStringLiteral("times %1").arg(request.id.text),
        [this, request] { return m_desk.run(request); },
        [this, changeId, commands, manager](const SiteOutcome& outcome) {
            m_book.take(outcome.site);
            if (!commands.empty()) {
                sendTimes(changeId, commands, manager);
                return;
            }
            remove(changeId);
            emit kept();
        });
}

void WhatIfView::keepOnCar(int changeId, const CarId& car, std::vector<CarCommand> commands)
{
    const CarState* state = m_plans.car(car);
    const CarRequest request{newCommandId(), {}, car, std::move(commands), false};
    m_session.whenSignedIn(
        tr("to change %1").arg(state == nullptr ? QString() : state->identity.stockNumber),
        [this, changeId, request](PersonId person) {
            CarRequest signedRequest = request;
            signedRequest.actor = person;
            m_ask.send<CarOutcome>(
                QStringLiteral("keep"), [this, signedRequest] { return m_desk.run(signedRequest); },
                [this, changeId](const CarOutcome&) {
                    remove(changeId);
                    emit kept();
                });
        });
}

} // namespace ramplight
