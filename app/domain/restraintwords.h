// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/holds.h"

#include <QStringList>

// What may not be done with a car now, in the words of wall and paper. Pure.
namespace ramplight {

/// "do not move or drive"; empty when nothing is forbidden.
[[nodiscard]] QString words(const std::vector<Restraint>& restraints);
/// "Do not move: wheels are off"; empty.
[[nodiscard]] QString restraintLine(const std::vector<Restraint>& restraints, const QString& why);
/// A line for each reason: "Do not move, do not drive: wheels are off".
[[nodiscard]] QStringList restraintLines(const std::vector<RestraintReason>& reasons);

} // namespace ramplight
