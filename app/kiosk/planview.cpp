// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/planview.h"

#include "kiosk/carwords.h"
#include "planning/indexing.h"

#include <QDateTime>

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array carColumns{
    Column<PlanCarRow>{"carId", cell<&PlanCarRow::carId>},
    Column<PlanCarRow>{"stockNumber", cell<&PlanCarRow::stockNumber>},
    Column<PlanCarRow>{"makeModel", cell<&PlanCarRow::makeModel>},
    Column<PlanCarRow>{"promisedWords", cell<&PlanCarRow::promisedWords>},
    Column<PlanCarRow>{"headWords", cell<&PlanCarRow::headWords>},
    Column<PlanCarRow>{"sureWords", cell<&PlanCarRow::sureWords>},
    Column<PlanCarRow>{"late", cell<&PlanCarRow::late>},
    Column<PlanCarRow>{"spread", cell<&PlanCarRow::spread>},
    Column<PlanCarRow>{"whyWords", cell<&PlanCarRow::whyWords>},
    Column<PlanCarRow>{"promisedAt", cell<&PlanCarRow::promisedAt>},
    Column<PlanCarRow>{"earlyAt", cell<&PlanCarRow::earlyAt>},
    Column<PlanCarRow>{"readyAt", cell<&PlanCarRow::readyAt>},
    Column<PlanCarRow>{"sureAt", cell<&PlanCarRow::sureAt>},
};

constexpr std::array dayColumns{Column<PlanDayRow>{"date", cell<&PlanDayRow::date>}};

template <class One, class Get>
QStringList listOf(const std::vector<One>& all, Get get)
{
    QStringList list;
    for (const One& one : all)
        list.append(get(one));
    return list;
}

} // namespace

PlanCars::PlanCars(QObject* parent)
    : ListBase(std::make_unique<RowTable<PlanCarRow>>(carColumns), parent)
{
}

PlanDays::PlanDays(QObject* parent)
    : ListBase(std::make_unique<RowTable<PlanDayRow>>(dayColumns), parent)
{
}

PlanView::PlanView(CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
                   QObject* parent)
    : QObject(parent)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_plans(plans)
{
    connect(&plans, &PlanService::changed, this, &PlanView::rebuild);
    connect(&plans, &PlanService::workingChanged, this, &PlanView::workingChanged);
    connect(&book, &SiteBook::changed, this, &PlanView::rebuild);
}

QString PlanView::faultWords() const
{
    return plan() ? plan()->faults.join(QLatin1Char('\n')) : QString();
}

QString PlanView::asOf() const
{
    return plan() ? tr("as of %1").arg(m_book.times().clock(plan()->start)) : QString();
}

QStringList PlanView::dayWords() const
{
    return listOf(m_sheet.days, [this](const SheetDay& day) {
        return m_book.times().day(day.date, m_ticker.now());
    });
}

QStringList PlanView::shortDayWords() const
{
    return listOf(m_sheet.days, [this](const SheetDay& day) {
        return m_book.times().shortDay(day.date, m_ticker.now());
    });
}

double PlanView::gone() const
{
    const int now = nowMinute();
    if (now < 0)
        return 0;
    const SheetDay& today = m_sheet.days.front();
    return std::clamp(double(now - today.opens) / (today.closes - today.opens), 0.0, 1.0);
}

QStringList PlanView::bayTitles() const
{
    return listOf(m_sheet.bays, [](const SheetLane& lane) { return lane.title; });
}

QStringList PlanView::bayNames() const
{
    return listOf(m_sheet.bays, [](const SheetLane& lane) { return lane.second; });
}

QStringList PlanView::peopleNames() const
{
    return listOf(m_sheet.people, [](const SheetLane& lane) { return lane.title; });
}

QStringList PlanView::peopleSkills() const
{
    return listOf(m_sheet.people, [](const SheetLane& lane) { return lane.second; });
}

int PlanView::nowMinute() const
{
    if (!plan() || m_sheet.days.empty() ||
        m_sheet.days.front().date != m_book.times().dateOf(m_ticker.now()))
        return -1;
    const QTime time =
        QDateTime::fromMSecsSinceEpoch(m_ticker.now().ms, zoneOf(m_book.rules())).time();
    return time.hour() * 60 + time.minute();
}

bool PlanView::isPinned(int job) const
{
    const auto number = planning::at(job);
    const CarState* car = m_plans.car(plan()->carOf(job));
    const Operation* operation =
        car == nullptr ? nullptr : car->operation(plan()->house.jobs[number]);
    return operation != nullptr && !operation->isRunning() &&
           (!operation->assigned.isNull() || !operation->plannedBay.isNull() ||
            operation->plannedFrom > m_ticker.now());
}

void PlanView::rebuild()
{
    if (!plan())
        return;
    m_sheet = sheetOf(*plan(), m_book.site());
    std::vector<PlanDayRow> days;
    for (const SheetDay& day : m_sheet.days)
        days.push_back({day.date.toString(Qt::ISODate)});
    m_days.set(std::move(days));
    std::vector<PlanCarRow> rows;
    m_late = 0;
    std::vector<int> cars(plan()->house.cars.size());
    for (std::size_t car = 0; car < cars.size(); ++car)
        cars[car] = static_cast<int>(car);
    std::ranges::stable_sort(cars, [this](int a, int b) {
        if (plan()->isLate(a) != plan()->isLate(b))
            return plan()->isLate(a);
        return plan()->forecasts[planning::at(a)].ready50 <
               plan()->forecasts[planning::at(b)].ready50;
    });
    for (const int car : cars) {
        rows.push_back(rowOf(*plan(), car));
        m_late += rows.back().late ? 1 : 0;
    }
    m_cars.set(std::move(rows));
    emit changed();
}

PlanCarRow PlanView::rowOf(const planning::HousePlan& plan, int car) const
{
    const auto number = planning::at(car);
    const planning::CarForecast& forecast = plan.forecasts[number];
    const planning::PlanClock clock = plan.clock();
    const planning::PlanMinute promised = plan.house.shop.cars[number].promised;
    PlanCarRow row;
    row.carId = plan.house.cars[number].text;
    row.stockNumber = plan.house.shop.cars[number].name;
    const CarCard* card = m_feed.card(plan.house.cars[number]);
    if (card != nullptr)
        row.makeModel = makeModelOf(card->identity);
    const planning::SayTime say = [this](Moment at) {
        return m_book.times().dayAndClock(at, m_ticker.now());
    };
    if (promised != planning::never)
        row.promisedWords = m_book.times().day(clock.dayOf(promised), m_ticker.now());
    if (const CarState* state = m_plans.car(plan.house.cars[number]);
        state != nullptr && promised != planning::never &&
        state->importance != PromiseImportance::Usual)
        row.promisedWords = tr("%1, %2").arg(row.promisedWords, words(state->importance));
    row.late = plan.isLate(car);
    if (row.late || forecast.ready50 == planning::never)
        row.whyWords = plan.whyWords(car, say).join(QLatin1Char('\n'));
    row.headWords = headOf(plan, car, card, say, row);
    row.spread = forecast.ready50 != planning::never && !plan.hasNoWork(car);
    if (forecast.ready50 == planning::never && !row.promisedWords.isEmpty())
        row.sureWords = tr("promised %1").arg(row.promisedWords);
    if (row.spread)
        row.sureWords =
            forecast.ready90 == planning::never
                ? tr("one time in ten or more it cannot be finished")
                : tr("nine times in ten by %1").arg(say(clock.momentOf(forecast.ready90)));
    row.promisedAt = promised == planning::never ? -1
                     : promised < 0              ? -0.5
                                                 : placeOn(m_sheet, plan, promised);
    row.earlyAt = placeOn(m_sheet, plan, forecast.within90.from);
    row.readyAt = placeOn(m_sheet, plan, forecast.ready50);
    row.sureAt = placeOn(m_sheet, plan, forecast.ready90);
    return row;
}

/// What is said of a car in one line.
QString PlanView::headOf(const planning::HousePlan& plan, int car, const CarCard* card,
                         const planning::SayTime& say, const PlanCarRow& row) const
{
    const QString promised =
        row.promisedWords.isEmpty() ? QString() : tr("promised %1").arg(row.promisedWords);
    const auto behind = [&](const QString& state) {
        const QString late = row.late ? tr("%1, late").arg(state) : state;
        if (promised.isEmpty())
            return late;
        return row.late ? tr("%1: %2").arg(late, promised) : tr("%1, %2").arg(late, promised);
    };
    if (plan.hasNoWork(car)) {
        const CarStatus status =
            card == nullptr ? CarStatus::InPrep : card->statusAt(m_ticker.now());
        return behind(status == CarStatus::ReadyForRelease
                          ? tr("ready now, wants a signature")
                          : tr("no work left on it, %1").arg(words(status)));
    }
    const planning::PlanMinute ready = plan.forecasts[planning::at(car)].ready50;
    if (ready != planning::never)
        return behind(tr("ready %1").arg(say(plan.clock().momentOf(ready))));
    const int stuck = plan.stuckOn(car);
    // That it is late goes without saying; what was promised stands below.
    return stuck < 0 ? tr("cannot be finished as it stands")
                     : tr("cannot be finished: nobody can do %1")
                           .arg(plan.house.shop.jobs[planning::at(stuck)].title);
}

} // namespace ramplight
