// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "kiosk/carlists.h"
#include "kiosk/choices.h"
#include "kiosk/sitebook.h"

// The rows of the operation screen's lists, except the readings (readingrows.h). An operation
// without an id gives empty lists. Pure; GUI thread or any other.
namespace ramplight {

[[nodiscard]] std::vector<CautionRow> cautionRows(const Operation& operation);
/// Its pictures in the order in which they were attached, those of its findings among them.
[[nodiscard]] std::vector<PhotoRow> photoRowsOf(const Operation& operation, const CarState& car,
                                                const SiteBook& book, Moment now);
/// The pictures that it asks for, and which of them are there.
[[nodiscard]] std::vector<PhotoNeedRow>
photoNeedRows(const Operation& operation, const CarState& car, const SiteBook& book, Moment now);
/// Its pictures that are none of those, an older one of theirs among them.
[[nodiscard]] std::vector<PhotoRow> morePhotoRows(const Operation& operation, const CarState& car,
                                                  const SiteBook& book, Moment now);
/// What is photographed as the work stands: before while nobody has begun, after once it is signed.
[[nodiscard]] PhotoMoment likelyMoment(const Operation& operation);
/// The picture that one of this moment is taken over: of its own pictures before the work (those of
/// its findings among them) the one at this rank, or the last; otherwise the last that was taken of
/// the place before any work. Empty for a picture before.
[[nodiscard]] PhotoId guidePhoto(const Operation& operation, const CarState& car,
                                 PhotoMoment moment, int rank);
[[nodiscard]] std::vector<SpanRow> spanRows(const Operation& operation, const CarState& car,
                                            const SiteBook& book, Moment now);
/// Who else works here and may do it.
[[nodiscard]] std::vector<ChoiceRow> colleagueRows(const Operation& operation, const CarState& car,
                                                   PersonId signedIn, const SiteBook& book,
                                                   Moment now);
/// Closed work that a check covers; empty for what is no check.
[[nodiscard]] std::vector<ChoiceRow> coveredRows(const Operation& check, const CarState& car,
                                                 const HouseRules& rules);

} // namespace ramplight
