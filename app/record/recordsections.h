// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/flow.h"
#include "record/recordmodel.h"

// The record below its front, a function per section. A section without content leaves no heading,
// unless its emptiness is itself an answer for the buyer.
namespace ramplight::paper {

void addSections(Flow& flow, const RecordModel& model);

void addWhatIsLeft(Flow& flow, const RecordModel& model);
void addHolds(Flow& flow, const RecordModel& model);
void addSafetyItems(Flow& flow, const RecordModel& model);
void addWhatWasFound(Flow& flow, const RecordModel& model);
void addWhatWasDone(Flow& flow, const RecordModel& model);
void addNotDone(Flow& flow, const RecordModel& model);
void addCautions(Flow& flow, const RecordModel& model);
void addClosing(Flow& flow, const RecordModel& model);

} // namespace ramplight::paper
