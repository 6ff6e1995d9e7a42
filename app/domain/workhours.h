// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

#include <QDate>
#include <QString>

#include <optional>
#include <vector>

// When a house works, and who works otherwise or is away. Times are local minutes after midnight:
// 8 * 60 is eight in the morning. Why somebody is away is nobody's business here.
namespace ramplight {

/// One day of a week; off when it closes as it opens.
struct DayHours
{
    int opens = 0;
    int closes = 0;
    int breakFrom = 0;
    int breakTo = 0; ///< no break when it ends as it begins

    [[nodiscard]] bool isOff() const { return closes <= opens; }
    [[nodiscard]] bool hasBreak() const { return breakTo > breakFrom; }

    static constexpr auto fields =
        fieldList(field("opens", &DayHours::opens), field("closes", &DayHours::closes),
                  field("breakFrom", &DayHours::breakFrom), field("breakTo", &DayHours::breakTo));
    friend bool operator==(const DayHours&, const DayHours&) = default;
};

/// Monday to Sunday.
using WeekHours = std::vector<DayHours>;

/// From eight to five with half an hour at noon, not at the weekend.
[[nodiscard]] WeekHours usualWeek();

/// "08:00": minutes after midnight.
[[nodiscard]] QString hourWords(int minute);

/// Whole days, the first and the last counted.
struct DaysAway
{
    QDate first;
    QDate last;

    static constexpr auto fields =
        fieldList(field("first", &DaysAway::first), field("last", &DaysAway::last));
    friend bool operator==(const DaysAway&, const DaysAway&) = default;
};

/// Hours that somebody works beside their usual ones.
struct ExtraHours
{
    QDate day;
    int from = 0;
    int to = 0;

    static constexpr auto fields =
        fieldList(field("day", &ExtraHours::day), field("from", &ExtraHours::from),
                  field("to", &ExtraHours::to));
    friend bool operator==(const ExtraHours&, const ExtraHours&) = default;
};

/// What one person's times are beside the house's.
struct PersonTimes
{
    WeekHours week; ///< empty: the house's
    std::vector<DaysAway> away;
    std::vector<ExtraHours> extra;

    static constexpr auto fields =
        fieldList(field("week", &PersonTimes::week), field("away", &PersonTimes::away),
                  field("extra", &PersonTimes::extra));
    friend bool operator==(const PersonTimes&, const PersonTimes&) = default;
};

/// With one stretch away more; what overlaps or touches becomes one. first is not after last.
[[nodiscard]] PersonTimes with(PersonTimes times, DaysAway away);
/// With extra hours more; what overlaps or touches on a day becomes one.
[[nodiscard]] PersonTimes with(PersonTimes times, ExtraHours extra);

/// What cannot be of a week, or of a person's times; nothing when all can.
[[nodiscard]] std::optional<QString> weekFault(const WeekHours& week);
[[nodiscard]] std::optional<QString> timesFault(const PersonTimes& times);

} // namespace ramplight
