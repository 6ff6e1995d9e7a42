// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/names.h"

#include <array>
#include <utility>

// What a car has that decides about its work.
namespace ramplight {

/// Facts of a car that decide whether an operation applies.
enum class Fact {
    CombustionEngine,
    TractionBattery,
    ScreenCamera,
    FrontRadar,
    RearRadar,
    ValveSensors,
    RunFlats,
    RepairKit,
    SpecialFinish, ///< matt, three-coat or another paint that is not matched by the spot
    ElectricParkingBrake,
    FaceCutWheels, ///< wheel faces cut on a lathe
    LeatherTrim,
};
template <>
struct Names<Fact>
{
    static constexpr std::array table{
        std::pair{Fact::CombustionEngine, "combustion-engine"},
        std::pair{Fact::TractionBattery, "traction-battery"},
        std::pair{Fact::ScreenCamera, "screen-camera"},
        std::pair{Fact::FrontRadar, "front-radar"},
        std::pair{Fact::RearRadar, "rear-radar"},
        std::pair{Fact::ValveSensors, "valve-sensors"},
        std::pair{Fact::RunFlats, "run-flats"},
        std::pair{Fact::RepairKit, "repair-kit"},
        std::pair{Fact::SpecialFinish, "special-finish"},
        std::pair{Fact::ElectricParkingBrake, "electric-parking-brake"},
        std::pair{Fact::FaceCutWheels, "face-cut-wheels"},
        std::pair{Fact::LeatherTrim, "leather-trim"},
    };
};

} // namespace ramplight
