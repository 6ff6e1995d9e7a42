// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/flow.h"
#include "record/recordmodel.h"

namespace ramplight::paper {

/// Photos in rows: before, during, after side by side, each with its caption. The first row stays
/// with what is in front of it. x: where the first begins.
void addPhotoRows(Flow& flow, const RecordModel& model, const std::vector<RecordPhoto>& photos,
                  double x);

} // namespace ramplight::paper
