// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "outlines/carpainter.h"
#include "record/recordmodel.h"

#include <QStringList>

#include <utility>
#include <vector>

// What the top of a record's first page says, whoever lays it out.
namespace ramplight::paper {

/// A figure with what it counts: "5", "found".
struct FrontCount
{
    QString number;
    QString label;
};

[[nodiscard]] QString frontTitle();
/// "Tarrowmere Cars · made Wed 5 Mar 2031, 14:10"
[[nodiscard]] QString frontMade(const RecordModel& model);
/// That nothing of it is true; empty for a real workshop.
[[nodiscard]] QString frontDemo(const RecordModel& model);
/// "Halden Skerry · QK 4471"
[[nodiscard]] QString frontName(const RecordModel& model);
/// The first holds, and how many more there are.
[[nodiscard]] QStringList frontHolds(const RecordModel& model);
[[nodiscard]] std::vector<FrontCount> countsOf(const RecordModel& model);
/// Label and value.
[[nodiscard]] std::vector<std::pair<QString, QString>> factsOf(const RecordModel& model);
[[nodiscard]] std::vector<std::pair<OutlineMark, QString>> frontLegend();
/// What the figures beside the wheels are.
[[nodiscard]] QString frontTyreWords();
/// What the code is for.
[[nodiscard]] QString frontCodeWords();

} // namespace ramplight::paper
