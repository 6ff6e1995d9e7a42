// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcard.h"
#include "domain/site.h"

#include <vector>

namespace ramplight {

/// How a site of a group stands, in the counts of its own wall.
struct SiteFacts
{
    SiteId site;
    QString name = {};
    int inPrep = 0;
    int held = 0; ///< by safety
    int ready = 0;
    int late = 0; ///< past what was promised; what only the plan foresees is not counted
    /// Of the car in prep that nothing was entered for longest; null: no car.
    Moment oldestChange = {};

    friend bool operator==(const SiteFacts&, const SiteFacts&) = default;
};

/// Of the cars that are on its wall. Pure.
[[nodiscard]] SiteFacts siteFacts(const SiteId& id, const SiteState& site,
                                  const std::vector<CarCard>& wall, Moment now);

} // namespace ramplight
