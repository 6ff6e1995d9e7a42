// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/ids.h"
#include "domain/names.h"

#include <QDate>
#include <QString>

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

/// One that a person holds, up to and with its last day.
struct HeldQualification
{
    Qualification qualification = Qualification::HighVoltage;
    QDate until;

    [[nodiscard]] bool isInDate(QDate today) const { return until.isValid() && today <= until; }
    static constexpr auto fields =
        fieldList(field("qualification", &HeldQualification::qualification),
                  field("until", &HeldQualification::until));
    friend bool operator==(const HeldQualification&, const HeldQualification&) = default;
};

/// One of the house's measuring tools.
struct Tool
{
    ToolId id;
    QString number; ///< as engraved on it
    ToolKind kind = ToolKind::TorqueWrench;
    QDate nextCalibration; ///< the last day on which it may be used before it is calibrated again
    bool active = true;    ///< false: it left the house

    [[nodiscard]] bool isInDate(QDate today) const
    {
        return nextCalibration.isValid() && today <= nextCalibration;
    }
    static constexpr auto fields = fieldList(
        field("id", &Tool::id), field("number", &Tool::number), field("kind", &Tool::kind),
        field("nextCalibration", &Tool::nextCalibration), field("active", &Tool::active));
    friend bool operator==(const Tool&, const Tool&) = default;
};

/// The tool that a reading was taken with, as it was then.
struct ToolUsed
{
    ToolId id; ///< null: none was entered
    QString number;
    QDate nextCalibration;

    [[nodiscard]] bool isEntered() const { return !id.isNull(); }
    static constexpr auto fields =
        fieldList(field("id", &ToolUsed::id), field("number", &ToolUsed::number),
                  field("nextCalibration", &ToolUsed::nextCalibration));
    friend bool operator==(const ToolUsed&, const ToolUsed&) = default;
};

} // namespace ramplight
