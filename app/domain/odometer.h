// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/moment.h"
#include "domain/names.h"

#include <QString>

#include <array>
#include <utility>

// What the odometer showed, and when. Pure; no threads, no I/O.
namespace ramplight {

enum class DistanceUnit { Miles, Kilometres };
template <>
struct Names<DistanceUnit>
{
    static constexpr std::array table{std::pair{DistanceUnit::Miles, "mi"},
                                      std::pair{DistanceUnit::Kilometres, "km"}};
};

struct OdometerReading
{
    int value = 0;
    DistanceUnit unit = DistanceUnit::Miles;
    PersonId by = {};
    Moment at = {};
    OperationId during = {}; ///< null: of the car itself
    QString lowerWhy = {};   ///< it shows less than before, and why

    friend bool operator==(const OdometerReading&, const OdometerReading&) = default;
};

/// Less than an earlier reading, whatever unit each is in. A display cuts off below one unit, so
/// that much is allowed for where the units differ.
[[nodiscard]] bool showsLess(int value, DistanceUnit unit, int before, DistanceUnit unitBefore);

/// "41200 mi"
[[nodiscard]] QString odometerWords(int value, DistanceUnit unit);

} // namespace ramplight
