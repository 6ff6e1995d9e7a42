// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/recordmodel.h"
#include "record/recordstamp.h"

#include <QStringList>

#include <vector>

// The parts of a record, each with a hash of its own, so that what differs can be named without
// the record itself.
namespace ramplight {

/// One for each of the model's fields that is set, for each finding and each operation.
[[nodiscard]] std::vector<StampPart> partsOf(const RecordModel& model);
[[nodiscard]] RecordStamp stampOf(const RecordModel& model);
/// What was changed, added or taken away from `before` to `now`, in words and in the record's
/// order: "finding 3: near side sill, corrosion". Empty when nothing was, or `before` is.
[[nodiscard]] QStringList differences(const std::vector<StampPart>& before, const RecordModel& now);

} // namespace ramplight
