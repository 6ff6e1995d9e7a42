// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/flow.h"
#include "record/recordmodel.h"

namespace ramplight::paper {

/// The whole record in pages, with running heads and feet. Needs a QGuiApplication (fonts); any
/// thread.
/// All that stands under the first page's top, as long as that is.
[[nodiscard]] Flow flowOf(const RecordModel& model, double firstTop);
[[nodiscard]] std::vector<Page> layOut(const RecordModel& model);

} // namespace ramplight::paper
