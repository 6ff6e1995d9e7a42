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

std::vector<PlaceId> fieldsBeside(WalkView view, Side side, BodyShape shape)
{
    const auto ids = [](std::initializer_list<const char*> texts) {
        std::vector<PlaceId> places;
        for (const char* text : texts)
            places.push_back(PlaceId{QString::fromLatin1(text)});
        return places;
    };
    // A van's rear doors stand upright: from above they are a line.
    const bool upright = shape == BodyShape::Van && side == Side::Right;
    std::vector<PlaceId> places;
    if (view == WalkView::Body && side == Side::Left)
        places = ids({"grille", "front-plate", "arch-front-left", "mirror-left", "sill-left",
                      "arch-rear-left", "underside"});
    if (view == WalkView::Body && side == Side::Right)
        places = ids({"arch-front-right", "wipers", "mirror-right", "sill-right", "arch-rear-right",
                      "fuel-flap", "exhaust", "rear-plate"});
    if (view == WalkView::Body && upright)
        places.push_back({QStringLiteral("tailgate")});
    if (view == WalkView::Glass && side == Side::Left)
        places = ids({"fog-lamp-left", "headlamp-left", "front-glass-left", "rear-glass-left",
                      "rear-lamp-left"});
    if (view == WalkView::Glass && side == Side::Right)
        places = ids({"fog-lamp-right", "headlamp-right", "front-glass-right", "rear-glass-right",
                      "rear-lamp-right"});
    if (view == WalkView::Glass && upright)
        places.push_back({QStringLiteral("rear-screen")});
    return places;
}

} // namespace ramplight
