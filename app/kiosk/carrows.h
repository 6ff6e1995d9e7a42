// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "kiosk/carlists.h"
#include "kiosk/choices.h"
#include "kiosk/sitebook.h"

// The rows of the car screen's lists, made from the car's state. Pure; GUI thread or any other.
namespace ramplight {

/// Open before closed, then by place in the order of a walk-round, safety first at each place.
[[nodiscard]] std::vector<OperationRow> operationRows(const CarState& car, const SiteBook& book,
                                                      Moment now);
[[nodiscard]] std::vector<FindingRow> findingRows(const CarState& car, const SiteBook& book,
                                                  Moment now);
/// Newest first.
[[nodiscard]] std::vector<PhotoRow> photoRows(const CarState& car, const SiteBook& book,
                                              Moment now);
/// at: its number among the car's photos, from 1.
[[nodiscard]] PhotoRow photoRow(const AttachedPhoto& photo, int at, const SiteBook& book,
                                Moment now);
/// Of a photo that was removed under the retention: says so, and leaves its picture out.
void tellRemoval(PhotoRow& row, const CarState& car);
/// What keeps the car from release; nothing for one that is released or has left.
[[nodiscard]] std::vector<HoldRow> holdRows(const CarState& car, const SiteBook& book, Moment now);
/// Operations that can be done at the place, by skill; all of them when it is none.
[[nodiscard]] std::vector<ChoiceRow> kindChoices(const Catalogue& catalogue, const PlaceId& place);
/// Newest first. The car as it is now gives the titles.
[[nodiscard]] std::vector<HistoryRow> historyRows(const std::vector<CarEnvelope>& envelopes,
                                                  const CarState& car, const SiteBook& book,
                                                  Moment now);

} // namespace ramplight
