// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/plannedjob.h"

#include "kiosk/carwords.h"
#include "planning/indexing.h"

#include "domain/checking.h"

#include <QDateTime>

#include <algorithm>

namespace ramplight {

namespace {

const QString anybody = QStringLiteral("0");
constexpr int afternoon = 13 * 60;
constexpr int offeredDays = 4;

} // namespace

PlannedJob::PlannedJob(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                       PlanService& plans, PlanView& view, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_plans(plans)
    , m_view(view)
    , m_people(false)
    , m_bays(false)
    , m_times(false)
{
    connect(&view, &PlanView::changed, this, &PlannedJob::follow);
}

const Operation* PlannedJob::operation() const
{
    const CarState* car = m_plans.car(m_wish.car);
    return car == nullptr ? nullptr : car->operation(m_wish.operation);
}

QString PlannedJob::stockNumber() const
{
    const CarState* car = m_plans.car(m_wish.car);
    return car == nullptr ? QString() : car->identity.stockNumber;
}

QString PlannedJob::title() const
{
    return chosen() ? m_plans.plan()->house.shop.jobs[planning::at(m_job)].title : QString();
}

QString PlannedJob::placeWords(const planning::HousePlan& plan, int job) const
{
    const planning::Placement& placed = plan.plan.jobs[planning::at(job)];
    return dotted(
        {placed.person < 0 ? QString()
                           : m_book.nameOf(plan.house.people[planning::at(placed.person)]),
         placed.bay < 0
             ? tr("where the car stands")
             : tr("bay %1").arg(m_book.bayOf(plan.house.bays[planning::at(placed.bay)]))});
}

QString PlannedJob::spanWords(const planning::HousePlan& plan, int job) const
{
    const planning::Placement& placed = plan.plan.jobs[planning::at(job)];
    if (!placed.isPlanned())
        return tr("not planned");
    const planning::PlanClock clock = plan.clock();
    const Moment start = clock.momentOf(placed.start);
    const Moment end = clock.momentOf(placed.end);
    const TimeWords& times = m_book.times();
    return tr("%1 to %2")
        .arg(times.dayAndClock(start, m_ticker.now()),
             times.dateOf(start) == times.dateOf(end) ? times.clock(end)
                                                      : times.dayAndClock(end, m_ticker.now()));
}

QString PlannedJob::whose() const
{
    return chosen() ? placeWords(*m_plans.plan(), m_job) : QString();
}

QString PlannedJob::when() const
{
    return chosen() ? spanWords(*m_plans.plan(), m_job) : QString();
}

QString PlannedJob::why() const
{
    if (!chosen())
        return {};
    const QString words = m_plans.plan()->waitWords(
        m_job, [this](Moment at) { return m_book.times().dayAndClock(at, m_ticker.now()); });
    return words.isEmpty() ? tr("It is in hand.") : sentence(words);
}

QString PlannedJob::pinnedWords() const
{
    if (!chosen())
        return {};
    const Bay* bay = m_book.site().bay(m_now.bay);
    return dotted(
        {m_now.person.isNull() ? QString() : tr("for %1").arg(m_book.nameOf(m_now.person)),
         bay == nullptr ? QString() : tr("in bay %1").arg(bay->number),
         m_now.from <= m_ticker.now()
             ? QString()
             : tr("not before %1").arg(m_book.times().dayAndClock(m_now.from, m_ticker.now()))});
}

bool PlannedJob::foreseen() const
{
    return chosen() && m_plans.plan()->isForeseen(m_job);
}

QString PlannedJob::foreseenWords() const
{
    if (!foreseen())
        return {};
    const planning::HouseShop& house = m_plans.plan()->house;
    QStringList openers;
    if (const auto found = house.openers.find(m_job); found != house.openers.end())
        for (const int opener : found->second)
            openers.append(tr("\"%1\"").arg(house.shop.jobs[planning::at(opener)].title));
    return openers.isEmpty()
               ? tr("It is not open yet, but certain to come, so it is planned already.")
               : tr("It is not open yet. It comes as soon as %1 is signed off, which is certain, "
                    "so "
                    "it is planned already.")
                     .arg(openers.join(tr(" and ")));
}

bool PlannedJob::movable() const
{
    const Operation* one = chosen() ? operation() : nullptr;
    return one != nullptr && one->isOpen() && !one->isRunning() &&
           one->state != OperationState::AwaitingCheck && !one->isAway();
}

void PlannedJob::choose(int job)
{
    m_ask.dismiss();
    m_job = -1;
    m_wish = {};
    if (m_plans.plan() && job >= 0 && job < static_cast<int>(m_plans.plan()->house.jobs.size())) {
        m_wish.car = m_plans.plan()->carOf(job);
        m_wish.operation = m_plans.plan()->house.jobs[planning::at(job)];
        m_title = m_plans.plan()->house.shop.jobs[planning::at(job)].title;
    }
    follow();
    leave();
}

int PlannedJob::numberNow() const
{
    const planning::HousePlan& plan = *m_plans.plan();
    if (!m_wish.operation.isNull())
        return plan.numberOf(m_wish.car, m_wish.operation);
    // What was foreseen has no id before it is open; its name on its car is all there is.
    const int car = plan.numberOf(m_wish.car);
    int became = -1;
    for (std::size_t job = 0; job < plan.house.jobs.size(); ++job) {
        const planning::ShopJob& one = plan.house.shop.jobs[job];
        if (one.car != car || one.title != m_title)
            continue;
        if (plan.house.jobs[job].isNull())
            return static_cast<int>(job);
        became = static_cast<int>(job);
    }
    return became;
}

/// A new plan has other numbers; the job stays the same one as long as it is open.
void PlannedJob::follow()
{
    const bool was = m_wish.car.isEmpty();
    m_job = was || !m_plans.plan() ? -1 : numberNow();
    if (m_job < 0) {
        if (!was)
            m_wish = {};
        emit changed();
        return;
    }
    m_wish.operation = m_plans.plan()->house.jobs[planning::at(m_job)];
    m_now = {.car = m_wish.car, .operation = m_wish.operation};
    if (const Operation* one = operation()) {
        m_now.person = one->assigned;
        m_now.bay = one->plannedBay;
        m_now.from = one->plannedFrom > m_ticker.now() ? one->plannedFrom : Moment{};
    }
    offer();
    if (m_wish == m_now) {
        m_considered = false;
        m_shifts.clear();
    }
    emit changed();
}

void PlannedJob::offer()
{
    const Operation* one = operation();
    const CarState* car = m_plans.car(m_wish.car);
    if (one == nullptr)
        return;
    std::vector<ChoiceRow> people{{anybody, tr("Whoever can"), {}, m_wish.person.isNull()}};
    const QDate today = m_book.times().dateOf(m_ticker.now());
    for (const auto& [id, person] : m_book.site().people) {
        if (person.active && mayBeGiven(person, *car, *one, m_book.rules(), today))
            people.push_back(
                {QString::number(id.value), m_book.nameOf(id), {}, m_wish.person == id});
    }
    m_people.offer(std::move(people));
    m_people.setChosen({QString::number(m_wish.person.value)});

    std::vector<ChoiceRow> bays{{anybody, tr("Where it fits"), {}, m_wish.bay.isNull()}};
    for (const auto& [id, bay] : m_book.site().bays) {
        if (bay.active && suits(bay, one->spec->bay))
            bays.push_back({QString::number(id.value), m_book.bayOf(id), {}, m_wish.bay == id});
    }
    m_bays.offer(std::move(bays));
    m_bays.setChosen({QString::number(m_wish.bay.value)});

    std::vector<ChoiceRow> times{{anybody, tr("As soon as it can"), {}, m_wish.from.isNull()}};
    const auto add = [&](Moment at) {
        const QString id = QString::number(at.ms);
        if (at > m_ticker.now() &&
            std::ranges::find(times, id, &ChoiceRow::choiceId) == times.end())
            times.push_back(
                {id,
                 tr("not before %1").arg(m_book.times().dayAndClock(at, m_ticker.now())),
                 {},
                 m_wish.from == at});
    };
    if (!m_wish.from.isNull())
        add(m_wish.from);
    int days = 0;
    for (const SheetDay& day : m_view.sheet().days) {
        const auto at = [&](int minute) {
            return startOf(day.date, m_book.rules()).plusMinutes(minute);
        };
        if (++days > offeredDays)
            break;
        add(at(day.opens));
        if (day.date == today)
            add(at(afternoon));
    }
    std::ranges::stable_sort(times, {},
                             [](const ChoiceRow& row) { return row.choiceId.toLongLong(); });
    m_times.offer(std::move(times));
    m_times.setChosen({QString::number(m_wish.from.ms)});
}

void PlannedJob::choosePerson(const QString& id)
{
    m_wish.person = PersonId{id.toInt()};
    look();
}

void PlannedJob::chooseBay(const QString& id)
{
    m_wish.bay = BayId{id.toInt()};
    look();
}

void PlannedJob::chooseTime(const QString& id)
{
    m_wish.from = Moment{id.toLongLong()};
    look();
}

void PlannedJob::moveTo(bool ofPeople, int lane, int day, int minute)
{
    const std::vector<SheetLane>& lanes = m_view.sheet().lanes(ofPeople);
    if (!movable() || lane < 0 || lane >= static_cast<int>(lanes.size()) || day < 0 ||
        day >= m_view.days())
        return;
    const int id = lanes[planning::at(lane)].id;
    Choices& among = ofPeople ? m_people : m_bays;
    const auto fits = std::ranges::find(among.rows(), QString::number(id), &ChoiceRow::choiceId);
    if (fits == among.rows().end()) {
        m_ask.refuse(QStringLiteral("move"), QStringLiteral("unfit"),
                     ofPeople
                         ? tr("%1 may not do this work.").arg(m_book.nameOf(PersonId{id}))
                         : tr("This work is not done in bay %1.").arg(m_book.bayOf(BayId{id})));
        return;
    }
    m_ask.dismiss();
    // A finger does not mean a minute: quarters of an hour.
    const int quarter = minute - minute % 15;
    const Moment at =
        startOf(m_view.sheet().days[planning::at(day)].date, m_book.rules()).plusMinutes(quarter);
    if (ofPeople)
        m_wish.person = PersonId{id};
    else
        m_wish.bay = BayId{id};
    m_wish.from = at > m_ticker.now() ? at : Moment{};
    look();
}

void PlannedJob::look()
{
    const int mine = ++m_looks;
    m_considered = false;
    m_shifts.clear();
    m_becomes.clear();
    m_considering = chosen() && m_wish != m_now;
    offer();
    emit changed();
    if (!m_considering)
        return;
    const PlanService::Plan base = m_plans.plan();
    whenReady(m_plans.consider(m_wish), this, [this, mine, base](const PlanService::Plan& would) {
        if (mine == m_looks)
            show(base, would);
    });
}

void PlannedJob::show(const PlanService::Plan& base, const PlanService::Plan& would)
{
    m_considering = false;
    m_considered = true;
    const int job = would->numberOf(m_wish.car, m_wish.operation);
    m_becomes = job < 0 || !would->plan.jobs[planning::at(job)].isPlanned()
                    ? tr("cannot be planned so")
                    : dotted({spanWords(*would, job), placeWords(*would, job)});
    for (const planning::CarShift& shift :
         planning::shiftsBetween(*base, *would, planning::leastShift))
        m_shifts.append(shiftWords(*would, shift));
    emit changed();
}

QString PlannedJob::shiftWords(const planning::HousePlan& plan,
                               const planning::CarShift& shift) const
{
    const planning::PlanClock clock = plan.clock();
    const int car = plan.numberOf(shift.car);
    const QString stock = plan.house.shop.cars[planning::at(car)].name;
    const TimeWords& times = m_book.times();
    if (shift.after == planning::never)
        return tr("%1 could not be finished").arg(stock);
    const Moment after = clock.momentOf(shift.after);
    const QString at = times.dayAndClock(after, m_ticker.now());
    if (shift.before == planning::never)
        return tr("%1 could be finished: %2").arg(stock, at);
    const Moment before = clock.momentOf(shift.before);
    const bool later = shift.after > shift.before;
    const CarState* state = m_plans.car(shift.car);
    const QString late = !plan.isLate(car) ? QString()
                         : state == nullptr || isLate(state->promised, m_ticker.now(), m_book)
                             ? tr(", late for its promise")
                             : tr(", will be late for its promise");
    if (times.dateOf(before) == times.dateOf(after)) {
        const QString by = minutesWords(std::abs(shift.after - shift.before));
        return (later ? tr("%1 later by %2: %3") : tr("%1 sooner by %2: %3")).arg(stock, by, at) +
               late;
    }
    return (later ? tr("%1 later: %2 instead of %3") : tr("%1 sooner: %2 instead of %3"))
               .arg(stock, at, times.dayAndClock(before, m_ticker.now())) +
           late;
}

void PlannedJob::take()
{
    if (!differs())
        return;
    const CarRequest request{
        newCommandId(),
        {},
        m_wish.car,
        {car::PlanWork{m_wish.operation, m_wish.person, m_wish.bay, m_wish.from}},
        false};
    m_session.whenSignedIn(tr("to plan %1").arg(stockNumber()), [this, request](PersonId person) {
        CarRequest signedRequest = request;
        signedRequest.actor = person;
        m_ask.send<CarOutcome>(
            QStringLiteral("plan"), [this, signedRequest] { return m_desk.run(signedRequest); },
            [this](const CarOutcome&) {
                m_now = m_wish;
                m_considered = false;
                emit changed();
                emit taken();
            });
    });
}

void PlannedJob::leave()
{
    ++m_looks;
    m_considering = false;
    m_considered = false;
    m_shifts.clear();
    m_becomes.clear();
    if (chosen()) {
        m_wish = m_now;
        offer();
    }
    emit changed();
}

} // namespace ramplight
