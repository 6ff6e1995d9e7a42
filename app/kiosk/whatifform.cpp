// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/whatifform.h"

#include "kiosk/carwords.h"
#include "kiosk/enumchoices.h"
#include "kiosk/wallrow.h"

#include <QDateTime>

#include <algorithm>

namespace ramplight {

namespace {

using namespace planning;

const QString everybodyId = QStringLiteral("0");
const QString hereNow = QStringLiteral("now");
const QString forGood = QStringLiteral("good");
constexpr int daysToChooseFrom = 7;
constexpr int promiseDays = 12;
constexpr int mostMore = 4; ///< hours after a working day

QString idOf(QDate day)
{
    return day.toString(Qt::ISODate);
}

QString spanWords(int from, int to)
{
    return WhatIfForm::tr("%1 to %2").arg(hourWords(from), hourWords(to));
}

/// "car|7": a piece of work among those of all cars.
QString workId(const CarId& car, OperationId operation)
{
    return QStringLiteral("%1|%2").arg(car.text).arg(operation.value);
}

bool isAwaited(const Operation& operation)
{
    return operation.state == OperationState::Blocked && (operation.part || operation.isAway());
}

} // namespace

WhatIfForm::WhatIfForm(SiteBook& book, Ticker& ticker, PlanService& plans, QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_ticker(ticker)
    , m_plans(plans)
    , m_whom(false)
    , m_first(false)
    , m_second(false)
{
    connect(&plans, &PlanService::changed, this, &WhatIfForm::plansChanged);
}

QString WhatIfForm::title() const
{
    switch (m_kind) {
    case Nothing:
        return {};
    case Person:
        return tr("What if there were one more person?");
    case Bay:
        return tr("What if there were one more bay?");
    case Hours:
        return tr("What if somebody worked longer?");
    case Away:
        return tr("What if somebody were away?");
    case Part:
        return tr("What if it came on another day?");
    case Promise:
        return tr("What if something else were promised?");
    }
    return {};
}

QString WhatIfForm::whomHead() const
{
    switch (m_kind) {
    case Nothing:
        return {};
    case Person:
    case Bay:
        return tr("Like");
    case Hours:
    case Away:
        return tr("Who");
    case Part:
        return tr("What");
    case Promise:
        return tr("Car");
    }
    return {};
}

QString WhatIfForm::firstHead() const
{
    switch (m_kind) {
    case Nothing:
    case Bay:
        return {};
    case Person:
    case Away:
        return tr("From");
    case Hours:
        return tr("Day");
    case Part:
        return tr("Comes");
    case Promise:
        return tr("For");
    }
    return {};
}

QString WhatIfForm::secondHead() const
{
    switch (m_kind) {
    case Nothing:
    case Bay:
    case Part:
        return {};
    case Person:
    case Away:
        return tr("For");
    case Hours:
        return tr("Hours");
    case Promise:
        return tr("It");
    }
    return {};
}

QDate WhatIfForm::today() const
{
    return m_book.times().dateOf(m_ticker.now());
}

QDate WhatIfForm::firstDay() const
{
    return QDate::fromString(m_first.current(), Qt::ISODate);
}

std::vector<QDate> WhatIfForm::workingDays(QDate from, int count) const
{
    const HouseCalendar calendar = calendarOf(m_book.site());
    std::vector<QDate> days;
    for (int d = 0; d < plannedDays && static_cast<int>(days.size()) < count; ++d)
        if (openOn(calendar, from.addDays(d)) != nullptr)
            days.push_back(from.addDays(d));
    return days;
}

std::vector<ChoiceRow> WhatIfForm::people() const
{
    std::vector<ChoiceRow> rows;
    for (const PersonId id : whatif::everybody(m_book.site()))
        rows.push_back({QString::number(id.value), m_book.nameOf(id), {}, false});
    return rows;
}

std::vector<ChoiceRow> WhatIfForm::awaited() const
{
    std::vector<ChoiceRow> rows;
    if (!m_plans.plan())
        return rows;
    for (const CarState& car : m_plans.input().cars)
        for (const auto& [id, operation] : car.operations)
            if (isAwaited(operation))
                rows.push_back({workId(car.id, id),
                                tr("%1: %2").arg(car.identity.stockNumber,
                                                 operation.part ? operation.part->part
                                                                : operation.outside->firm),
                                {},
                                false});
    std::ranges::stable_sort(rows, naturallyLess, &ChoiceRow::title);
    return rows;
}

bool WhatIfForm::somethingAwaited() const
{
    return !awaited().empty();
}

void WhatIfForm::begin(int kind)
{
    m_kind = static_cast<Kind>(std::clamp(kind, int(Nothing), int(Promise)));
    m_whom.clear();
    m_first.clear();
    m_second.clear();
    offerWhom();
    offerFirst();
    offerSecond();
    emit changed();
}

void WhatIfForm::offerWhom()
{
    std::vector<ChoiceRow> rows;
    switch (m_kind) {
    case Nothing:
        break;
    case Hours:
        rows = people();
        rows.insert(rows.begin(), {everybodyId, tr("Everybody"), {}, false});
        break;
    case Person:
    case Away:
        rows = people();
        break;
    case Bay:
        for (const auto& [id, bay] : m_book.site().bays)
            if (bay.active && bay.kind != BayKind::Parking)
                rows.push_back({QString::number(id.value), m_book.bayOf(id), {}, false});
        break;
    case Part:
        rows = awaited();
        break;
    case Promise:
        if (m_plans.plan())
            for (const CarState& car : m_plans.input().cars)
                rows.push_back({car.id.text, car.identity.stockNumber, {}, false});
        std::ranges::stable_sort(rows, naturallyLess, &ChoiceRow::title);
        break;
    }
    m_whom.offer(std::move(rows));
}

void WhatIfForm::offerFirst()
{
    std::vector<ChoiceRow> rows;
    const auto add = [&](QDate day) {
        rows.push_back({idOf(day), sentence(m_book.times().day(day, m_ticker.now())), {}, false});
    };
    switch (m_kind) {
    case Nothing:
    case Bay:
        break;
    case Person:
    case Away:
        for (const QDate day : workingDays(today(), daysToChooseFrom))
            add(day);
        break;
    case Hours:
        for (int d = 0; d < daysToChooseFrom; ++d)
            if (!hoursOf(today().addDays(d)).empty())
                add(today().addDays(d));
        break;
    case Part:
        rows.push_back({hereNow, tr("It is here now"), {}, false});
        for (const QDate day : workingDays(today().addDays(1), daysToChooseFrom))
            add(day);
        break;
    case Promise: {
        std::vector<QDate> days = workingDays(today(), promiseDays);
        // The day that holds now may be over, or further away.
        if (const CarState* car = m_plans.car(CarId{m_whom.current()});
            car != nullptr && car->promised.isValid() &&
            std::ranges::find(days, car->promised) == days.end())
            days.push_back(car->promised);
        std::ranges::sort(days);
        for (const QDate day : days)
            add(day);
        break;
    }
    }
    m_first.offer(std::move(rows));
    if (m_kind != Promise && m_first.current().isEmpty() && !m_first.rows().empty())
        m_first.choose(m_first.rows().front().choiceId);
}

std::vector<ChoiceRow> WhatIfForm::hoursOf(QDate day) const
{
    std::vector<ChoiceRow> rows;
    const int now = day != today()
                        ? 0
                        : QDateTime::fromMSecsSinceEpoch(m_ticker.now().ms, zoneOf(m_book.rules()))
                                  .time()
                                  .msecsSinceStartOfDay() /
                              60'000;
    const auto add = [&](int from, int to, const QString& words) {
        if (to > now && to <= 24 * 60 && from >= 0)
            rows.push_back({QStringLiteral("%1-%2").arg(from).arg(to), words, {}, false});
    };
    const HouseCalendar calendar = calendarOf(m_book.site());
    if (const DayTimes* times = openOn(calendar, day)) {
        for (int more = 1; more <= mostMore; ++more)
            add(times->closes, times->closes + more * 60,
                tr("until %1").arg(hourWords(times->closes + more * 60)));
        add(times->opens - 60, times->opens, tr("from %1 on").arg(hourWords(times->opens - 60)));
        return rows;
    }
    // As long as on the first day of the week on which the house works, or half of that.
    const auto usual = std::ranges::find_if(
        calendar.week, [](const DayTimes& times) { return times.closes > times.opens; });
    if (usual == calendar.week.end())
        return rows;
    for (const int hours : {4, 6})
        if (usual->opens + hours * 60 < usual->closes)
            add(usual->opens, usual->opens + hours * 60,
                spanWords(usual->opens, usual->opens + hours * 60));
    add(usual->opens, usual->closes, spanWords(usual->opens, usual->closes));
    return rows;
}

void WhatIfForm::offerSecond()
{
    std::vector<ChoiceRow> rows;
    switch (m_kind) {
    case Nothing:
    case Bay:
    case Part:
        break;
    case Person:
    case Away: {
        const QDate from = firstDay();
        const std::vector<QDate> days = workingDays(from, 2);
        const auto add = [&](QDate last, const QString& words) {
            rows.push_back({idOf(last), words, {}, false});
        };
        add(from, tr("That day"));
        if (days.size() > 1)
            add(days.back(), tr("Two days"));
        add(from.addDays(6), tr("A week"));
        add(from.addDays(13), tr("Two weeks"));
        if (m_kind == Person)
            rows.push_back({forGood, tr("For good"), {}, false});
        break;
    }
    case Hours:
        rows = hoursOf(firstDay());
        break;
    case Promise:
        rows = rowsOf<PromiseImportance>();
        break;
    }
    m_second.offer(std::move(rows));
    if (m_kind != Promise && m_second.current().isEmpty() && !m_second.rows().empty())
        m_second.choose(m_second.rows().front().choiceId);
}

void WhatIfForm::chooseWhom(const QString& id)
{
    m_whom.choose(id);
    if (m_kind == Promise)
        offerFirst();
    // As it is promised now.
    if (const CarState* car = m_kind == Promise ? m_plans.car(CarId{id}) : nullptr) {
        m_first.setChosen({idOf(car->promised)});
        m_second.setChosen({nameOf(car->importance)});
    }
    emit changed();
}

void WhatIfForm::chooseFirst(const QString& id)
{
    // As long from the other day on.
    const auto& rows = m_second.rows();
    const auto chosen = std::ranges::find_if(rows, &ChoiceRow::chosen);
    const auto place = chosen - rows.begin();
    m_first.choose(id);
    offerSecond();
    if ((m_kind == Person || m_kind == Away) &&
        place < static_cast<std::ptrdiff_t>(m_second.rows().size()))
        m_second.choose(m_second.rows()[static_cast<std::size_t>(place)].choiceId);
    emit changed();
}

void WhatIfForm::chooseSecond(const QString& id)
{
    m_second.choose(id);
    emit changed();
}

bool WhatIfForm::ready() const
{
    return change().has_value();
}

DaysAway WhatIfForm::span() const
{
    return {firstDay(), QDate::fromString(m_second.current(), Qt::ISODate)};
}

std::optional<whatif::Change> WhatIfForm::change() const
{
    const QString whom = m_whom.current();
    if (whom.isEmpty() || (!firstHead().isEmpty() && m_first.current().isEmpty()) ||
        (!secondHead().isEmpty() && m_second.current().isEmpty()))
        return std::nullopt;
    switch (m_kind) {
    case Nothing:
        return std::nullopt;
    case Person:
        return whatif::AnotherPerson{PersonId{whom.toInt()}, span()};
    case Bay:
        return whatif::AnotherBay{BayId{whom.toInt()}};
    case Hours: {
        const QStringList hours = m_second.current().split(QLatin1Char('-'));
        return whatif::ExtraTime{PersonId{whom.toInt()},
                                 {firstDay(), hours.value(0).toInt(), hours.value(1).toInt()}};
    }
    case Away:
        return whatif::Absence{PersonId{whom.toInt()}, span()};
    case Part: {
        const QStringList parts = whom.split(QLatin1Char('|'));
        return whatif::PartAt{CarId{parts.value(0)}, OperationId{parts.value(1).toInt()},
                              firstDay()};
    }
    case Promise: {
        const CarState* car = m_plans.car(CarId{whom});
        const auto importance = fromName<PromiseImportance>(m_second.current());
        if (car == nullptr || (car->promised == firstDay() && importance == car->importance))
            return std::nullopt;
        return whatif::Promise{car->id, firstDay(),
                               importance == car->importance ? std::nullopt : importance};
    }
    }
    return std::nullopt;
}

} // namespace ramplight
