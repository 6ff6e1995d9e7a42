// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/moment.h"

#include <QString>

#include <cstdlib>

namespace ramplight {

/// How long the last whole backup may be ago: a day and a half, closed days or not. One is made
/// each day that the kiosk runs, and by one that was off as soon as it runs again.
inline constexpr int staleAfterHours = 36;

/// How long the first one may take to come.
inline constexpr int waitingForHours = 24;

/// The last whole one is too old, or, where none was made yet, the first one, which was to come
/// since then, takes too long. Null times: not known.
[[nodiscard]] inline bool isStaleBackup(Moment goodAt, Moment since, Moment now)
{
    const bool isFirst = goodAt.isNull();
    const Moment from = isFirst ? since : goodAt;
    const int hours = isFirst ? waitingForHours : staleAfterHours;
    return !from.isNull() && from.plusMinutes(hours * 60) < now;
}

/// The last whole backup of a site whose kiosks share a server, as its store has it.
struct SiteBackup
{
    Moment goodAt; ///< null: none is noted
    QString kiosk; ///< the machine that made it, as its network knows it

    /// Also where it lies so far ahead that a wrong clock dated it.
    [[nodiscard]] bool isStale(Moment now) const
    {
        return std::abs(now.ms - goodAt.ms) > qint64{staleAfterHours} * 60 * 60'000;
    }
    static constexpr auto fields =
        fieldList(field("goodAt", &SiteBackup::goodAt), field("kiosk", &SiteBackup::kiosk));
    friend bool operator==(const SiteBackup&, const SiteBackup&) = default;
};

} // namespace ramplight
