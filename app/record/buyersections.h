// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/flow.h"
#include "record/recordmodel.h"

namespace ramplight::paper {

/// The rest of the buyer's page under what stands at its top, and the end of that page: what was
/// found and what became of it, what else was done, the safety items with their readings and names.
/// As many findings as the page has room for from firstTop on, those first that are still there.
void addBuyerSections(Flow& flow, const RecordModel& model, double firstTop);

} // namespace ramplight::paper
