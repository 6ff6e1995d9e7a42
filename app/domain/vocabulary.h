// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "domain/names.h"

#include <vector>

// The ids that findings, appraisal files and the ledger share: places of a car, conditions,
// severities, remedies. Entries are added where the trade needs more and never renamed. Left and
// right are as seen from the driver's seat; near side and off side are words of a country.
namespace ramplight {

using PlaceId = Key<struct PlaceTag>; ///< e.g. "wheel-front-left"; "car" is the whole car

/// What is wrong with a place.
enum class Condition {
    Mark,
    Scratch,
    Scuff,
    Chip,
    Dent,
    Kerbed,
    Corrosion,
    Crack,
    Pepper,
    Fade,
    Peel,
    Tear,
    Stain,
    Wear,
    Burn,
    Hole,
    Missing,
    Broken,
    Loose,
    Misaligned,
    Contamination,
    Dirty,
    Odour,
    Cut,
    Bulge,
    Perished,
    Worn,
    Leak,
    Lit,
    Inoperative,
    Noise,
    Vibration,
    Overspray,
    PreviousRepair,
    Flat,
    Overdue,
    Mismatched, ///< not like its counterpart, or not what the car asks for
};

template <>
struct Names<Condition>
{
    static constexpr std::array table{
        std::pair{Condition::Mark, "mark"},
        std::pair{Condition::Scratch, "scratch"},
        std::pair{Condition::Scuff, "scuff"},
        std::pair{Condition::Chip, "chip"},
        std::pair{Condition::Dent, "dent"},
        std::pair{Condition::Kerbed, "kerbed"},
        std::pair{Condition::Corrosion, "corrosion"},
        std::pair{Condition::Crack, "crack"},
        std::pair{Condition::Pepper, "pepper"},
        std::pair{Condition::Fade, "fade"},
        std::pair{Condition::Peel, "peel"},
        std::pair{Condition::Tear, "tear"},
        std::pair{Condition::Stain, "stain"},
        std::pair{Condition::Wear, "wear"},
        std::pair{Condition::Burn, "burn"},
        std::pair{Condition::Hole, "hole"},
        std::pair{Condition::Missing, "missing"},
        std::pair{Condition::Broken, "broken"},
        std::pair{Condition::Loose, "loose"},
        std::pair{Condition::Misaligned, "misaligned"},
        std::pair{Condition::Contamination, "contamination"},
        std::pair{Condition::Dirty, "dirty"},
        std::pair{Condition::Odour, "odour"},
        std::pair{Condition::Cut, "cut"},
        std::pair{Condition::Bulge, "bulge"},
        std::pair{Condition::Perished, "perished"},
        std::pair{Condition::Worn, "worn"},
        std::pair{Condition::Leak, "leak"},
        std::pair{Condition::Lit, "lit"},
        std::pair{Condition::Inoperative, "inoperative"},
        std::pair{Condition::Noise, "noise"},
        std::pair{Condition::Vibration, "vibration"},
        std::pair{Condition::Overspray, "overspray"},
        std::pair{Condition::PreviousRepair, "previous-repair"},
        std::pair{Condition::Flat, "flat"},
        std::pair{Condition::Overdue, "overdue"},
        std::pair{Condition::Mismatched, "mismatched"},
    };
};

/// How much of it, in four steps.
enum class Severity {
    Trace,
    Light,
    Moderate,
    Heavy,
};

template <>
struct Names<Severity>
{
    static constexpr std::array table{
        std::pair{Severity::Trace, "trace"},
        std::pair{Severity::Light, "light"},
        std::pair{Severity::Moderate, "moderate"},
        std::pair{Severity::Heavy, "heavy"},
    };
};

/// What is to be done about it.
enum class Remedy {
    Polish,
    TouchIn,
    FlatAndPolish,
    Refinish,
    Refurbish,
    DentRepair,
    Clean,
    Replace,
    Repair,
    Adjust,
    Recharge,
    Calibrate,
    Investigate,
    Leave,
};

template <>
struct Names<Remedy>
{
    static constexpr std::array table{
        std::pair{Remedy::Polish, "polish"},
        std::pair{Remedy::TouchIn, "touch-in"},
        std::pair{Remedy::FlatAndPolish, "flat-and-polish"},
        std::pair{Remedy::Refinish, "refinish"},
        std::pair{Remedy::Refurbish, "refurbish"},
        std::pair{Remedy::DentRepair, "dent-repair"},
        std::pair{Remedy::Clean, "clean"},
        std::pair{Remedy::Replace, "replace"},
        std::pair{Remedy::Repair, "repair"},
        std::pair{Remedy::Adjust, "adjust"},
        std::pair{Remedy::Recharge, "recharge"},
        std::pair{Remedy::Calibrate, "calibrate"},
        std::pair{Remedy::Investigate, "investigate"},
        std::pair{Remedy::Leave, "leave"},
    };
};

/// What sort of thing a place is; rules of the catalogue speak of kinds.
enum class PlaceKind {
    Panel,
    Bumper,
    Glass,
    Lamp,
    OutsideTrim,
    Plate,
    Underbody,
    Wheel,
    Tyre,
    Brake,
    Interior,
    Restraint,
    Drivetrain,
    Steering,
    Suspension,
    Battery,
    HighVoltage,
    Electrical,
    Keys,
    WholeCar,
};

template <>
struct Names<PlaceKind>
{
    static constexpr std::array table{
        std::pair{PlaceKind::Panel, "panel"},
        std::pair{PlaceKind::Bumper, "bumper"},
        std::pair{PlaceKind::Glass, "glass"},
        std::pair{PlaceKind::Lamp, "lamp"},
        std::pair{PlaceKind::OutsideTrim, "outside-trim"},
        std::pair{PlaceKind::Plate, "plate"},
        std::pair{PlaceKind::Underbody, "underbody"},
        std::pair{PlaceKind::Wheel, "wheel"},
        std::pair{PlaceKind::Tyre, "tyre"},
        std::pair{PlaceKind::Brake, "brake"},
        std::pair{PlaceKind::Interior, "interior"},
        std::pair{PlaceKind::Restraint, "restraint"},
        std::pair{PlaceKind::Drivetrain, "drivetrain"},
        std::pair{PlaceKind::Steering, "steering"},
        std::pair{PlaceKind::Suspension, "suspension"},
        std::pair{PlaceKind::Battery, "battery"},
        std::pair{PlaceKind::HighVoltage, "high-voltage"},
        std::pair{PlaceKind::Electrical, "electrical"},
        std::pair{PlaceKind::Keys, "keys"},
        std::pair{PlaceKind::WholeCar, "whole-car"},
    };
};

enum class Side { None, Left, Right };
enum class Axle { None, Front, Rear };

struct PlaceInfo
{
    PlaceId id;
    PlaceKind kind = PlaceKind::Panel;
    Side side = Side::None;
    Axle axle = Axle::None;

    friend bool operator==(const PlaceInfo&, const PlaceInfo&) = default;
};

/// Every place, in the order in which a walk-round names them.
[[nodiscard]] const std::vector<PlaceInfo>& allPlaces();
/// Null when the id is not of the vocabulary.
[[nodiscard]] const PlaceInfo* placeInfo(const PlaceId& id);
[[nodiscard]] PlaceId wholeCar();
/// The wheel that a tyre sits on and the other way round; the place itself when it is neither.
[[nodiscard]] PlaceId wheelOf(const PlaceId& tyre);
[[nodiscard]] PlaceId tyreOf(const PlaceId& wheel);

} // namespace ramplight
