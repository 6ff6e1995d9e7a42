// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/walkroundplaces.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ramplight {

namespace {

/// Without side: "front-door-left" is "front-door".
QString stemOf(const PlaceInfo& place)
{
    return place.side == Side::None ? place.id.text
                                    : place.id.text.left(place.id.text.lastIndexOf(u'-'));
}

bool isOneOf(const QString& id, std::initializer_list<const char*> ids)
{
    return std::ranges::any_of(ids, [&](const char* each) { return id == QLatin1String(each); });
}

} // namespace

WalkView walkViewOf(const PlaceInfo& place)
{
    switch (place.kind) {
    case PlaceKind::Panel:
    case PlaceKind::Bumper:
    case PlaceKind::OutsideTrim:
    case PlaceKind::Plate:
    case PlaceKind::Underbody:
        return WalkView::Body;
    case PlaceKind::Wheel:
    case PlaceKind::Tyre:
    case PlaceKind::Brake:
        return WalkView::Wheels;
    case PlaceKind::Glass:
    case PlaceKind::Lamp:
        return WalkView::Glass;
    case PlaceKind::Interior:
    case PlaceKind::Restraint:
        return WalkView::Inside;
    case PlaceKind::Drivetrain:
    case PlaceKind::Steering:
    case PlaceKind::Suspension:
    case PlaceKind::Battery:
    case PlaceKind::HighVoltage:
    case PlaceKind::Electrical:
    case PlaceKind::Keys:
    case PlaceKind::WholeCar:
        break;
    }
    return WalkView::Systems;
}

bool hasPlace(const CarState& car, const PlaceInfo& place)
{
    if (std::ranges::any_of(car.safetyPlaces,
                            [&](const SafetyPlace& safety) { return safety.place == place.id; }))
        return true;
    const QString stem = stemOf(place);
    const BodyShape shape = car.identity.shape;
    const bool twoDoors = shape == BodyShape::Coupe || shape == BodyShape::Convertible;
    if (isOneOf(stem, {"rear-door", "door-card-rear"}))
        return !twoDoors;
    if (stem == QLatin1String("rear-glass"))
        return shape != BodyShape::Convertible && shape != BodyShape::Van;
    if (stem == QLatin1String("sunroof"))
        return shape != BodyShape::Convertible && shape != BodyShape::Van &&
               shape != BodyShape::Pickup;
    if (isOneOf(stem, {"spare-wheel", "spare-tyre"}))
        return !car.facts.is(Fact::RepairKit) && !car.facts.is(Fact::RunFlats);
    if (isOneOf(stem, {"engine", "clutch", "exhaust"}))
        return car.facts.is(Fact::CombustionEngine) || !car.facts.is(Fact::TractionBattery);
    if (stem == QLatin1String("traction-battery"))
        return car.facts.is(Fact::TractionBattery);
    return true;
}

std::vector<const PlaceInfo*> placesIn(WalkView view, const CarState& car)
{
    std::vector<const PlaceInfo*> places;
    for (const PlaceInfo& place : allPlaces())
        if (walkViewOf(place) == view && hasPlace(car, place))
            places.push_back(&place);
    return places;
}

std::vector<const PlaceInfo*> unseenIn(WalkView view, const CarState& car)
{
    std::vector<const PlaceInfo*> places = placesIn(view, car);
    std::erase_if(places, [&](const PlaceInfo* place) { return car.seen.contains(place->id); });
    return places;
}

std::vector<PlaceId> fieldsBeside(WalkView view, Side side)
{
    const auto ids = [](std::initializer_list<const char*> texts) {
        std::vector<PlaceId> places;
        for (const char* text : texts)
            places.push_back(PlaceId{QString::fromLatin1(text)});
        return places;
    };
    // From above, the lid of a steep tail and a van's rear screen are but a line.
    if (view == WalkView::Body && side == Side::Left)
        return ids({"front-plate", "grille", "arch-front-left", "mirror-left", "sill-left",
                    "arch-rear-left", "exhaust", "underside"});
    if (view == WalkView::Body && side == Side::Right)
        return ids({"arch-front-right", "wipers", "mirror-right", "sill-right", "arch-rear-right",
                    "fuel-flap", "tailgate", "rear-plate"});
    if (view == WalkView::Glass && side == Side::Left)
        return ids({"fog-lamp-left", "headlamp-left", "windscreen", "front-glass-left",
                    "rear-glass-left", "rear-lamp-left"});
    if (view == WalkView::Glass && side == Side::Right)
        return ids({"fog-lamp-right", "headlamp-right", "front-glass-right", "rear-glass-right",
                    "rear-screen", "rear-lamp-right"});
    return {};
}

} // namespace ramplight
