// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "demo/demofile.h"
#include "domain/workshop.h"

#include <QRandomGenerator>

#include <functional>

// What people in a workshop that is played do at the start, at a walk-round and before they sign,
// as commands.
namespace ramplight::demo {

inline constexpr PersonId manager{1};
inline constexpr PersonId appraiser{2};

/// A house that is about to open.
struct Opening
{
    bool isDemo = false;
    std::function<CommandId()> command; ///< the next
    std::function<QDate(int)> until;    ///< of so many days after the day of now
};

/// Sets the house up with the people, rules, bays and tools of the file. The error is words.
[[nodiscard]] tl::expected<SiteState, QString>
openHouse(Workshop& workshop, const WorkshopFile& file, const Opening& opening);

/// A walk-round sees the outside; what is under the car is for the lift. Where nothing was found.
[[nodiscard]] car::FindSound foundSound(const std::vector<FindingData>& findings,
                                        const std::vector<PlaceId>& unseen = {});

/// Figures of this car that the operation wants and has not got.
[[nodiscard]] std::vector<CarCommand> missingFigures(const Operation& operation,
                                                     const QString& source);

/// Of the photos that an operation wants; the number tells those of one moment apart.
using PictureAt = std::function<PhotoId(PhotoMoment moment, int number)>;

/// The readings that the operation wants and has not got, with tools that are in date that day, and
/// its photos.
[[nodiscard]] std::vector<CarCommand> evidence(const Operation& operation, const SiteState& site,
                                               QDate day, QRandomGenerator& random,
                                               const PictureAt& picture);

} // namespace ramplight::demo
