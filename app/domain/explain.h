// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

#include <QString>
#include <QStringList>

#include <vector>

// Why a car has the operations that it has, for a manager who asks. Pure.
namespace ramplight {

/// One operation: where it came from, what it waits for, what it brings along. Sentences without
/// a full stop, each one reason or operation.
struct Explained
{
    OperationId operation;
    QString title;
    QString state;
    QStringList from;     ///< finding and rule, reading, closed work, baseline, or who added it why
    QStringList waitsFor; ///< open operations that have to close first
    QStringList brings;   ///< what its closing makes due
    QStringList mayBring; ///< what a reading outside its limits or an answer makes due
    QStringList beside;   ///< what is said about its place among others: alone, not overnight
};

/// Every operation of a car that was not withdrawn, in the order in which it can be worked on;
/// what is closed comes first.
[[nodiscard]] std::vector<Explained> explain(const CarState& car, const Catalogue& catalogue,
                                             const HouseRules& rules);

/// The open operations in an order in which they can be done: what comes first first, else as
/// they were opened.
[[nodiscard]] std::vector<OperationId> workOrder(const CarState& car);

/// As a text for a terminal or a printer.
[[nodiscard]] QString explainText(const CarState& car, const Catalogue& catalogue,
                                  const HouseRules& rules);

} // namespace ramplight
