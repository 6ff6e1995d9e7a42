// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/paper.h"
#include "record/recordmodel.h"

namespace ramplight::paper {

/// The car from above with what was found: places marked, each with the finding's number, which is
/// that of the list. Findings at places without a region on the outline are in the list only.
void addCarPlan(Page& page, const RecordModel& model, const QRectF& box);

} // namespace ramplight::paper
