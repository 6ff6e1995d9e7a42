// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

#include <QString>

#include <array>
#include <optional>
#include <utility>
#include <vector>

// What differs from country to country and from house to house: the side of the road, the words
// for left and right, and the limits that many readings share. Each names who set it.
namespace ramplight {

/// Side of the road that the country drives on; near side is the kerb's.
enum class TrafficSide { Left, Right };
template <>
struct Names<TrafficSide>
{
    static constexpr std::array table{std::pair{TrafficSide::Left, "left"},
                                      std::pair{TrafficSide::Right, "right"}};
};

/// How a left or right place is called: by the kerb, or plainly.
enum class SideWords { NearOff, LeftRight };
template <>
struct Names<SideWords>
{
    static constexpr std::array table{std::pair{SideWords::NearOff, "near-off"},
                                      std::pair{SideWords::LeftRight, "left-right"}};
};

/// Who set a limit.
enum class LimitOwner { Law, AnnualTest, Standard, VehicleData, ProductData, House };
template <>
struct Names<LimitOwner>
{
    static constexpr std::array table{
        std::pair{LimitOwner::Law, "law"},
        std::pair{LimitOwner::AnnualTest, "annual-test"},
        std::pair{LimitOwner::Standard, "standard"},
        std::pair{LimitOwner::VehicleData, "vehicle-data"},
        std::pair{LimitOwner::ProductData, "product-data"},
        std::pair{LimitOwner::House, "house"},
    };
};

enum class Unit {
    None,
    Millimetre,
    Micrometre,
    NewtonMetre,
    Celsius,
    Minute,
    Gram,
    Percent,
    Volt,
    Bar,
    Kilometre,
    Year,
    Month,
    Day,
    Count,
};
template <>
struct Names<Unit>
{
    static constexpr std::array table{
        std::pair{Unit::None, ""},         std::pair{Unit::Millimetre, "mm"},
        std::pair{Unit::Micrometre, "um"}, std::pair{Unit::NewtonMetre, "Nm"},
        std::pair{Unit::Celsius, "degC"},  std::pair{Unit::Minute, "min"},
        std::pair{Unit::Gram, "g"},        std::pair{Unit::Percent, "percent"},
        std::pair{Unit::Volt, "V"},        std::pair{Unit::Bar, "bar"},
        std::pair{Unit::Kilometre, "km"},  std::pair{Unit::Year, "years"},
        std::pair{Unit::Month, "months"},  std::pair{Unit::Day, "days"},
        std::pair{Unit::Count, "count"},
    };
};

/// A bound that several readings and rules share, like the tread that the house asks. Whole
/// counts of 10^-decimals of the unit.
struct NamedLimit
{
    QString name;  ///< "tread-legal", "tread-house"; a Limit refers to it by this
    QString title; ///< as the settings show it
    Unit unit = Unit::None;
    int decimals = 0;
    LimitOwner owner = LimitOwner::House;
    QString source; ///< where it can be looked up; a country's ends with "verify locally"
    std::optional<int> min;
    std::optional<int> max;

    static constexpr auto fields =
        fieldList(field("name", &NamedLimit::name), field("title", &NamedLimit::title),
                  field("unit", &NamedLimit::unit), field("decimals", &NamedLimit::decimals),
                  field("owner", &NamedLimit::owner), field("source", &NamedLimit::source),
                  field("min", &NamedLimit::min), field("max", &NamedLimit::max));
    friend bool operator==(const NamedLimit&, const NamedLimit&) = default;
};

/// What a country brings: its side of the road, its words, its limits.
struct Country
{
    QString id; ///< "GB", "IE", "EU", "US"
    QString title;
    TrafficSide trafficSide = TrafficSide::Left;
    SideWords sideWords = SideWords::NearOff;
    std::vector<NamedLimit> limits; ///< the same names in every country

    static constexpr auto fields =
        fieldList(field("id", &Country::id), field("title", &Country::title),
                  field("trafficSide", &Country::trafficSide),
                  field("sideWords", &Country::sideWords), field("limits", &Country::limits));
    friend bool operator==(const Country&, const Country&) = default;
};

/// The house's own value of one of its limits, in place of the shipped min or max.
struct HouseLimit
{
    QString name;
    int value = 0;

    static constexpr auto fields =
        fieldList(field("name", &HouseLimit::name), field("value", &HouseLimit::value));
    friend bool operator==(const HouseLimit&, const HouseLimit&) = default;
};

} // namespace ramplight
