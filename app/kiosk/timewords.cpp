// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/timewords.h"

#include "domain/say.h"

#include <QDateTime>

namespace ramplight {

TimeWords::TimeWords(const QTimeZone& zone, const QLocale& locale)
    : m_zone(zone.isValid() ? zone : QTimeZone::utc())
    , m_locale(locale)
{
}

QDate TimeWords::dateOf(Moment at) const
{
    return QDateTime::fromMSecsSinceEpoch(at.ms, m_zone).date();
}

Moment TimeWords::timeOfDay(int minute, Moment now) const
{
    const QTime time(minute / 60, minute % 60);
    return {QDateTime(dateOf(now), time, m_zone).toMSecsSinceEpoch()};
}

Moment TimeWords::lastTimeOfDay(int minute, Moment now) const
{
    const QTime time(minute / 60, minute % 60);
    const Moment today = timeOfDay(minute, now);
    if (today <= now)
        return today;
    return {QDateTime(dateOf(now).addDays(-1), time, m_zone).toMSecsSinceEpoch()};
}

QString TimeWords::clock(Moment at) const
{
    return at.isNull() ? QString()
                       : QDateTime::fromMSecsSinceEpoch(at.ms, m_zone)
                             .time()
                             .toString(QStringLiteral("HH:mm"));
}

QString TimeWords::day(QDate date, Moment now) const
{
    if (!date.isValid())
        return {};
    const QDate today = dateOf(now);
    const qint64 away = today.daysTo(date);
    if (away == 0)
        return say("today");
    if (away == 1)
        return say("tomorrow");
    if (away == -1)
        return say("yesterday");
    // A weekday alone is one to come.
    if (away > 0 && away < 7)
        return m_locale.dayName(date.dayOfWeek(), QLocale::ShortFormat);
    return m_locale.toString(date, date.year() == today.year() ? QStringLiteral("d MMM")
                                                               : QStringLiteral("d MMM yyyy"));
}

QString TimeWords::shortDay(QDate date, Moment now) const
{
    const qint64 away = dateOf(now).daysTo(date);
    return away == 0 ? day(date, now)
                     : m_locale.toString(date, away > 0 && away < 7 ? QStringLiteral("ddd")
                                                                    : QStringLiteral("d MMM"));
}

bool TimeWords::isOver(QDate date, Moment now) const
{
    return date.isValid() && date < dateOf(now);
}

QString TimeWords::date(QDate date) const
{
    return m_locale.toString(date, QStringLiteral("ddd d MMM yyyy"));
}

QString TimeWords::weekday(Moment at) const
{
    return m_locale.toString(dateOf(at), QStringLiteral("ddd d MMM"));
}

QString TimeWords::dayAndClock(Moment at, Moment now) const
{
    return at.isNull() ? QString() : QStringLiteral("%1 %2").arg(day(dateOf(at), now), clock(at));
}

QString TimeWords::shortly(Moment at, Moment now) const
{
    return dateOf(at) == dateOf(now) ? clock(at) : dayAndClock(at, now);
}

QString TimeWords::since(Moment at, Moment now) const
{
    if (at.isNull())
        return {};
    const int minutes = minutesBetween(at, now);
    if (minutes >= 12 * 60)
        return say("since %1").arg(dayAndClock(at, now));
    return say("for %1").arg(minutesWords(minutes));
}

QString TimeWords::full(Moment at) const
{
    if (at.isNull())
        return {};
    const QDateTime local = QDateTime::fromMSecsSinceEpoch(at.ms, m_zone);
    return m_locale.toString(local, QStringLiteral("ddd d MMM yyyy, HH:mm"));
}

QString minutesWords(int minutes)
{
    if (minutes < 60)
        return say("%1 min").arg(minutes);
    if (minutes % 60 == 0)
        return say("%1 h").arg(minutes / 60);
    return say("%1 h %2").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

QString minutesSpan(int low, int high)
{
    return low == high ? minutesWords(low)
                       : say("%1 to %2").arg(minutesWords(low), minutesWords(high));
}

QString recordingWords(int seconds)
{
    constexpr int minute = 60;
    constexpr int hour = 60 * minute;
    const QString rest = QStringLiteral("%1:%2")
                             .arg(seconds % hour / minute, 2, 10, QLatin1Char('0'))
                             .arg(seconds % minute, 2, 10, QLatin1Char('0'));
    return seconds < hour ? rest : QStringLiteral("%1:%2").arg(seconds / hour).arg(rest);
}

QString timerWords(int minutes)
{
    return QStringLiteral("%1:%2").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

} // namespace ramplight
