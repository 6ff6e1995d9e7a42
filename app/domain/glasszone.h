// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/names.h"
#include "domain/site.h"

#include <QString>

#include <array>
#include <optional>

// Where damage lies on a windscreen, what the annual test says of it, and whether it may be filled.
// The zone of the test and the zone of the repair standard are two things of different width: they
// are never taken for each other. Pure.
namespace ramplight {

/// Where damage lies, when it is chosen on the drawing and not measured.
enum class ScreenZone {
    DriverTest,   ///< within the test's zone A, 145 mm to either side of the wheel's centre
    DriverRepair, ///< beyond that, within the repair standard's zone, 200 mm to either side
    Swept,        ///< elsewhere in the glass that the wipers sweep
    Unswept,
};
template <>
struct Names<ScreenZone>
{
    static constexpr std::array table{
        std::pair{ScreenZone::DriverTest, "driver-test"},
        std::pair{ScreenZone::DriverRepair, "driver-repair"},
        std::pair{ScreenZone::Swept, "swept"},
        std::pair{ScreenZone::Unswept, "unswept"},
    };
};

/// Width of zone A of the British annual test, upright and centred on the steering wheel.
constexpr int testZoneWidthMm = 290;
/// Width of the driver's zone of BS AU 242, centred alike.
constexpr int repairZoneWidthMm = 400;

struct ScreenSpot
{
    ScreenZone zone = ScreenZone::Swept; ///< counts where nothing was measured
    /// Millimetres from the centre of the steering wheel to the middle of the damage, to the right
    /// positive; inside the swept glass.
    std::optional<int> fromWheelMm = {};
    bool atSensor = false; ///< in the window of a camera or a rain or light sensor

    static constexpr auto fields =
        fieldList(field("zone", &ScreenSpot::zone), field("fromWheelMm", &ScreenSpot::fromWheelMm),
                  field("atSensor", &ScreenSpot::atSensor));
    friend bool operator==(const ScreenSpot&, const ScreenSpot&) = default;
};

/// The zone that damage of a size reaches into: its near edge counts, not its middle.
[[nodiscard]] ScreenZone reached(const ScreenSpot& spot, int sizeMm);

struct ScreenVerdict
{
    std::optional<bool> passesTest;  ///< empty: no figure is known, nothing is concluded
    std::optional<bool> mayBeFilled; ///< likewise
    QString testWords;               ///< with the figure and who set it
    QString repairWords;

    friend bool operator==(const ScreenVerdict&, const ScreenVerdict&) = default;
};

/// For damage that fits a circle of sizeMm. Limits: screen-zone-a, screen-swept, screen-repair and
/// screen-repair-driver of country or house.
[[nodiscard]] ScreenVerdict judgeScreen(const ScreenSpot& spot, int sizeMm,
                                        const Catalogue& catalogue, const HouseRules& rules);

[[nodiscard]] QString words(ScreenZone zone);

} // namespace ramplight
