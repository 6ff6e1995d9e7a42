// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/paper.h"
#include "record/recordmodel.h"

namespace ramplight::paper {

/// What a buyer sees first: which car, released or not, the drawing with its numbered places, the
/// figures in short. Returns where the rest of the page begins.
[[nodiscard]] double addFront(Page& page, const RecordModel& model);

} // namespace ramplight::paper
