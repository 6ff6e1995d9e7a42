// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/timesview.h"

#include <QLocale>

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

constexpr int noon = 12 * 60;

QString hoursWords(const DayHours& hours)
{
    if (hours.isOff())
        return TimesView::tr("off");
    const QString day =
        TimesView::tr("%1 to %2").arg(hourWords(hours.opens), hourWords(hours.closes));
    return hours.hasBreak() ? TimesView::tr("%1, break %2 to %3")
                                  .arg(day, hourWords(hours.breakFrom), hourWords(hours.breakTo))
                            : day;
}

/// The hours of one day that somebody works; what an off day would have.
DayHours hoursOrUsual(const WeekHours& week, std::size_t day)
{
    if (!week[day].isOff())
        return week[day];
    const auto worked = std::ranges::find_if(week, [](const DayHours& h) { return !h.isOff(); });
    return worked == week.end() ? usualWeek().front() : *worked;
}

QString idOf(const ExtraHours& extra)
{
    return QStringLiteral("%1 %2").arg(extra.day.toString(Qt::ISODate)).arg(extra.from);
}

} // namespace

TimesView::TimesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_ticker(ticker)
    , m_asks(desk, session, book, m_ask)
{
}

int TimesView::count() const
{
    return static_cast<int>(m_rows.rows().size());
}

void TimesView::edit(int personId)
{
    const Person* person = m_book.site().person(PersonId{personId});
    m_person = person == nullptr ? PersonId{} : person->id;
    m_times = person == nullptr ? PersonTimes{} : person->times;
    m_ask.dismiss();
    rebuild();
}

void TimesView::add(const QString& first, const QString& last)
{
    QDate from = QDate::fromString(first, Qt::ISODate);
    QDate to = QDate::fromString(last, Qt::ISODate);
    if (!from.isValid() || !to.isValid())
        return;
    if (to < from)
        std::swap(from, to);
    m_times = with(std::move(m_times), DaysAway{from, to});
    rebuild();
}

void TimesView::remove(const QString& first)
{
    const QDate from = QDate::fromString(first, Qt::ISODate);
    std::erase_if(m_times.away, [&](const DaysAway& away) { return away.first == from; });
    rebuild();
}

const WeekHours& TimesView::usual() const
{
    return ownWeek() ? m_times.week : m_book.rules().week;
}

void TimesView::setOwnWeek(bool own)
{
    if (own == ownWeek())
        return;
    m_times.week = own ? m_book.rules().week : WeekHours{};
    rebuild();
}

QString TimesView::weekFault() const
{
    return ownWeek() ? ramplight::weekFault(m_times.week).value_or(QString()) : QString();
}

void TimesView::setDay(int day, bool off, int opens, int closes, int breakMinutes)
{
    if (!ownWeek() || day < 1 || day > static_cast<int>(m_times.week.size()))
        return;
    DayHours hours;
    if (!off) {
        hours = {opens, closes, 0, 0};
        const bool hasNoon = opens <= noon && noon + breakMinutes <= closes;
        if (breakMinutes > 0) {
            hours.breakFrom = hasNoon ? noon : (opens + closes - breakMinutes) / 2;
            hours.breakTo = hours.breakFrom + breakMinutes;
        }
    }
    m_times.week[static_cast<std::size_t>(day - 1)] = hours;
    rebuild();
}

void TimesView::likeThisDay(int day)
{
    if (!ownWeek() || day < 1 || day > static_cast<int>(m_times.week.size()))
        return;
    const DayHours like = m_times.week[static_cast<std::size_t>(day - 1)];
    for (DayHours& hours : m_times.week)
        if (!hours.isOff() && !like.isOff())
            hours = like;
    rebuild();
}

void TimesView::addExtra(const QString& isoDay, int from, int to)
{
    const QDate day = QDate::fromString(isoDay, Qt::ISODate);
    if (!day.isValid() || to <= from)
        return;
    m_times = with(std::move(m_times), ExtraHours{day, from, to});
    rebuild();
}

void TimesView::removeExtra(const QString& extraId)
{
    std::erase_if(m_times.extra, [&](const ExtraHours& extra) { return idOf(extra) == extraId; });
    rebuild();
}

DayHours TimesView::hoursOn(const QString& isoDay) const
{
    const QDate day = QDate::fromString(isoDay, Qt::ISODate);
    const bool closed =
        std::ranges::find(m_book.rules().closed, day) != m_book.rules().closed.end();
    return day.isValid() && !closed ? usual()[static_cast<std::size_t>(day.dayOfWeek() - 1)]
                                    : DayHours{};
}

int TimesView::opensOn(const QString& isoDay) const
{
    return hoursOn(isoDay).opens;
}

int TimesView::closesOn(const QString& isoDay) const
{
    return hoursOn(isoDay).closes;
}

void TimesView::rebuild()
{
    std::vector<WeekRow> week;
    for (std::size_t day = 0; day < usual().size(); ++day) {
        const DayHours& hours = usual()[day];
        const DayHours would = hoursOrUsual(usual(), day);
        week.push_back({static_cast<int>(day) + 1, QLocale().dayName(static_cast<int>(day) + 1),
                        hoursWords(hours), hours.isOff(), would.opens, would.closes,
                        would.breakTo - would.breakFrom});
    }
    m_week.setRows(std::move(week));
    const QDate today = m_book.times().dateOf(m_ticker.now());
    std::vector<ExtraRow> extra;
    for (const ExtraHours& one : m_times.extra)
        if (one.day >= today)
            extra.push_back({idOf(one), dayWords(one.day),
                             tr("%1 to %2").arg(hourWords(one.from), hourWords(one.to))});
    m_extra.setRows(std::move(extra));
    std::vector<AwayRow> rows;
    for (const DaysAway& away : m_times.away) {
        if (away.last < today)
            continue;
        const auto days = static_cast<int>(away.first.daysTo(away.last)) + 1;
        rows.push_back({away.first.toString(Qt::ISODate),
                        days == 1 ? dayWords(away.first)
                                  : tr("%1 to %2").arg(dayWords(away.first), dayWords(away.last)),
                        days == 1 ? tr("one day") : tr("%1 days").arg(days)});
    }
    m_rows.setRows(std::move(rows));
    emit formChanged();
}

void TimesView::save()
{
    if (m_person.isNull())
        return;
    m_asks.send(QStringLiteral("saveTimes"), tr("to change %1").arg(name()),
                site::SetTimes{m_person, m_times});
}

} // namespace ramplight
