// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

#include <QDate>
#include <QString>

// Work that the planner found nobody for.
namespace ramplight::planning {

/// Why nobody can do an open operation, and what a manager can do about it, as a sentence without
/// its end that goes behind the title and a colon: "everybody who may check it has worked on the
/// car; ...". Pure.
[[nodiscard]] QString whyNobody(const CarState& car, const Operation& operation,
                                const SiteState& site, QDate today);

} // namespace ramplight::planning
