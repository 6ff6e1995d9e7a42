// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QDateTime>

#include <vector>

// Which backups stay. Pure.
namespace ramplight {

/// For how many days, weeks (ISO 8601, from Monday) and months the last backup of each stays. What
/// has no backup is not counted, so a house that was closed for a month keeps as many.
struct KeepCounts
{
    int days = 7;
    int weeks = 4;
    int months = 12;
};

/// Those that may go, the first made first. `made` has the latest made first: a clock that was set
/// wrongly says nothing of that. Days are those of the times' own zone. The latest always stays.
[[nodiscard]] std::vector<QDateTime> superfluous(std::vector<QDateTime> made,
                                                 const KeepCounts& counts = {});

} // namespace ramplight
