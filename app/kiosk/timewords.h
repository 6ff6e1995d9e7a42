// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"

#include <QDate>
#include <QLocale>
#include <QString>
#include <QTimeZone>

namespace ramplight {

/// Times and durations as a workshop says them. A value; zone and locale are passed in, "now" with
/// each call. Any thread.
class TimeWords
{
public:
    explicit TimeWords(const QTimeZone& zone = QTimeZone::utc(), const QLocale& locale = QLocale());

    [[nodiscard]] const QTimeZone& zone() const { return m_zone; }
    [[nodiscard]] QDate dateOf(Moment at) const;
    /// The last time up to now at which the local day was this many minutes old.
    [[nodiscard]] Moment lastTimeOfDay(int minute, Moment now) const;
    /// The same time on the day of `now`, past or to come.
    [[nodiscard]] Moment timeOfDay(int minute, Moment now) const;
    /// "14:00"
    [[nodiscard]] QString clock(Moment at) const;
    /// "today", "tomorrow", "yesterday", "Thu" within the next six days, "4 May", "4 May 2031".
    [[nodiscard]] QString day(QDate date, Moment now) const;
    /// Beside large figures, where "tomorrow" has no room: "today", "Thu" for one to come within
    /// six days, otherwise "4 May".
    [[nodiscard]] QString shortDay(QDate date, Moment now) const;
    /// Its last minute is over.
    [[nodiscard]] bool isOver(QDate date, Moment now) const;
    /// "Thu 4 May 2031": what is read much later.
    [[nodiscard]] QString date(QDate date) const;
    /// "Thu 4 May": beside the clock.
    [[nodiscard]] QString weekday(Moment at) const;
    /// "today 16:00", "Thu 14:00", "4 May 14:00".
    [[nodiscard]] QString dayAndClock(Moment at, Moment now) const;
    /// "14:00" on the same day, otherwise as dayAndClock.
    [[nodiscard]] QString shortly(Moment at, Moment now) const;
    /// "since 40 min", "since 1 h 05", from half a day on "since yesterday 14:00".
    [[nodiscard]] QString since(Moment at, Moment now) const;
    /// "Thu 4 May 2031, 14:00": for the record and the history.
    [[nodiscard]] QString full(Moment at) const;

    friend bool operator==(const TimeWords&, const TimeWords&) = default;

private:
    QTimeZone m_zone;
    QLocale m_locale;
};

/// "38 min", "1 h 05", "2 h"
[[nodiscard]] QString minutesWords(int minutes);
/// "1 h 10 to 2 h"; one figure when both are the same.
[[nodiscard]] QString minutesSpan(int low, int high);
/// "07:05", "1:07:05": a moment or length of a recording.
[[nodiscard]] QString recordingWords(int seconds);
/// "0:38" as on a big timer.
[[nodiscard]] QString timerWords(int minutes);

} // namespace ramplight
