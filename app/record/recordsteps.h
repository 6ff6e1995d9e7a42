// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/recordmodel.h"

// What a car's state no longer shows and its entries still do: who read the cautions when, who left
// or withdrew something, what was reopened, waited for and sent out.
namespace ramplight {

/// Fills cautionsRead, steps and ended from the entries 1..upTo.
void fillFromHistory(RecordOperation& operation, const std::vector<CarEnvelope>& history,
                     qint64 upTo);

/// Corrections of identity and facts, held again, withdrawn, brought back, entered twice.
[[nodiscard]] std::vector<RecordStep> stepsOfCar(const std::vector<CarEnvelope>& history,
                                                 qint64 upTo);

} // namespace ramplight
