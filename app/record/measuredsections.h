// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/flow.h"
#include "record/recordmodel.h"

// What was measured of the car itself: tyres on a plan of it, paint, odometer. Each adds nothing
// where nothing was measured.
namespace ramplight::paper {

void addTyrePlan(Flow& flow, const RecordModel& model);
void addPaint(Flow& flow, const RecordModel& model);
void addOdometer(Flow& flow, const RecordModel& model);

} // namespace ramplight::paper
