// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/timesview.h"

#include <algorithm>
#include <utility>

namespace ramplight {

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
    std::erase_if(m_times.away, [&](const DaysAway& other) {
        if (other.first > to.addDays(1) || other.last < from.addDays(-1))
            return false;
        from = std::min(from, other.first);
        to = std::max(to, other.last);
        return true;
    });
    m_times.away.push_back({from, to});
    std::ranges::sort(m_times.away, {}, &DaysAway::first);
    rebuild();
}

void TimesView::remove(const QString& first)
{
    const QDate from = QDate::fromString(first, Qt::ISODate);
    std::erase_if(m_times.away, [&](const DaysAway& away) { return away.first == from; });
    rebuild();
}

void TimesView::rebuild()
{
    const QDate today = m_book.times().dateOf(m_ticker.now());
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
