// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/names.h"

#include <array>
#include <utility>

// What a person must be qualified for, beyond the skill, and the tools that must be in date.
namespace ramplight {

/// Work that law or insurer wants a certificate for; each of a person's has a last day.
enum class Qualification { HighVoltage, Refrigerant, GlassBonding, Spraying };
template <>
struct Names<Qualification>
{
    static constexpr std::array table{
        std::pair{Qualification::HighVoltage, "high-voltage"},
        std::pair{Qualification::Refrigerant, "refrigerant"},
        std::pair{Qualification::GlassBonding, "glass-bonding"},
        std::pair{Qualification::Spraying, "spraying"},
    };
};

/// Measuring tools that are calibrated; a reading that wants one names the one used.
enum class ToolKind {
    TorqueWrench,
    TreadGauge,
    PressureGauge,
    PaintGauge,
    BrakeGauge,
    BatteryTester,
    DialGauge,
    Thermometer,
    FluidTester,
    VoltageTester,
    AlignmentRig,
    HeadlampTester,
};
template <>
struct Names<ToolKind>
{
    static constexpr std::array table{
        std::pair{ToolKind::TorqueWrench, "torque-wrench"},
        std::pair{ToolKind::TreadGauge, "tread-gauge"},
        std::pair{ToolKind::PressureGauge, "pressure-gauge"},
        std::pair{ToolKind::PaintGauge, "paint-gauge"},
        std::pair{ToolKind::BrakeGauge, "brake-gauge"},
        std::pair{ToolKind::BatteryTester, "battery-tester"},
        std::pair{ToolKind::DialGauge, "dial-gauge"},
        std::pair{ToolKind::Thermometer, "thermometer"},
        std::pair{ToolKind::FluidTester, "fluid-tester"},
        std::pair{ToolKind::VoltageTester, "voltage-tester"},
        std::pair{ToolKind::AlignmentRig, "alignment-rig"},
        std::pair{ToolKind::HeadlampTester, "headlamp-tester"},
    };
};

} // namespace ramplight
