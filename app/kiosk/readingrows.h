// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "kiosk/carlists.h"
#include "kiosk/sitebook.h"
#include "kiosk/toolchoice.h"

#include <tl/expected.hpp>

// The readings of an operation as the screen lists them, and what is typed into such a row. Pure;
// GUI thread or any other.
namespace ramplight {

/// A row per reading and place, in the order of the catalogue.
[[nodiscard]] std::vector<ReadingRow> readingRows(const Operation& operation,
                                                  const Catalogue& catalogue, const SiteBook& book,
                                                  const ToolChoice& tools, Moment now);
/// Which of these values are not taken anew by this person, and how they and their figures are
/// corrected. Nobody signed in may be whoever read it.
void tellWhatStands(std::vector<ReadingRow>& rows, const CarState& car, const Operation& operation,
                    PersonId person, const HouseRules& rules);
/// What was typed into a row of this reading: digits, an option's id or words. The error is words:
/// which reading, and what was expected.
[[nodiscard]] tl::expected<ReadingValue, QString> typedReading(const ReadingSpec& spec,
                                                               const QString& text);

} // namespace ramplight
