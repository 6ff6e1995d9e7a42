// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"

#include <QString>

#include <vector>

// How a walk-round is divided: which drawing shows which places of a car. Pure.
namespace ramplight {

enum class WalkView { Body, Wheels, Glass, Inside, Systems };
template <>
struct Names<WalkView>
{
    static constexpr std::array table{
        std::pair{WalkView::Body, "body"},       std::pair{WalkView::Wheels, "wheels"},
        std::pair{WalkView::Glass, "glass"},     std::pair{WalkView::Inside, "inside"},
        std::pair{WalkView::Systems, "systems"},
    };
};

/// The view that counts a place. The body's drawing shows wheels, glass and lamps, too.
[[nodiscard]] WalkView walkViewOf(const PlaceInfo& place);

/// Whether a car of this shape and with these facts has the place at all. Safety places are always
/// there: they are left out by nothing but the catalogue.
[[nodiscard]] bool hasPlace(const CarState& car, const PlaceInfo& place);

/// The places of a view that the car has, in the order of a walk-round.
[[nodiscard]] std::vector<const PlaceInfo*> placesIn(WalkView view, const CarState& car);

/// Those of them that nobody has looked at yet.
[[nodiscard]] std::vector<const PlaceInfo*> unseenIn(WalkView view, const CarState& car);

/// Places of a view that have a field of their own beside the drawing, because their region is
/// narrower than a finger: those at its left or right edge, front to rear. Also ones that this car
/// does not have.
[[nodiscard]] std::vector<PlaceId> fieldsBeside(WalkView view, Side side);

} // namespace ramplight
