// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/vocabulary.h"

#include <QHash>

namespace ramplight {

namespace {

PlaceInfo make(const char* id, PlaceKind kind, Side side, Axle axle)
{
    return {PlaceId{QString::fromLatin1(id)}, kind, side, axle};
}

PlaceId swapStart(const PlaceId& place, const QString& from, const QString& to)
{
    if (place.text.startsWith(from + QLatin1Char('-')))
        return PlaceId{to + place.text.mid(from.size())};
    if (place.text == QStringLiteral("spare-") + from)
        return PlaceId{QStringLiteral("spare-") + to};
    return place;
}

} // namespace

const std::vector<PlaceInfo>& allPlaces()
{
    static const std::vector<PlaceInfo> places{
        make("front-bumper", PlaceKind::Bumper, Side::None, Axle::None),
        make("grille", PlaceKind::OutsideTrim, Side::None, Axle::None),
        make("bonnet", PlaceKind::Panel, Side::None, Axle::None),
        make("windscreen", PlaceKind::Glass, Side::None, Axle::None),
        make("roof", PlaceKind::Panel, Side::None, Axle::None),
        make("sunroof", PlaceKind::Glass, Side::None, Axle::None),
        make("rear-screen", PlaceKind::Glass, Side::None, Axle::None),
        make("tailgate", PlaceKind::Panel, Side::None, Axle::None),
        make("rear-bumper", PlaceKind::Bumper, Side::None, Axle::None),
        make("wing-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("wing-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("front-door-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("front-door-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("rear-door-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("rear-door-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("quarter-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("quarter-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("sill-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("sill-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("mirror-left", PlaceKind::OutsideTrim, Side::Left, Axle::None),
        make("mirror-right", PlaceKind::OutsideTrim, Side::Right, Axle::None),
        make("arch-front-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("arch-rear-left", PlaceKind::Panel, Side::Left, Axle::None),
        make("arch-front-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("arch-rear-right", PlaceKind::Panel, Side::Right, Axle::None),
        make("front-glass-left", PlaceKind::Glass, Side::Left, Axle::None),
        make("front-glass-right", PlaceKind::Glass, Side::Right, Axle::None),
        make("rear-glass-left", PlaceKind::Glass, Side::Left, Axle::None),
        make("rear-glass-right", PlaceKind::Glass, Side::Right, Axle::None),
        make("headlamp-left", PlaceKind::Lamp, Side::Left, Axle::None),
        make("headlamp-right", PlaceKind::Lamp, Side::Right, Axle::None),
        make("fog-lamp-left", PlaceKind::Lamp, Side::Left, Axle::None),
        make("fog-lamp-right", PlaceKind::Lamp, Side::Right, Axle::None),
        make("rear-lamp-left", PlaceKind::Lamp, Side::Left, Axle::None),
        make("rear-lamp-right", PlaceKind::Lamp, Side::Right, Axle::None),
        make("front-plate", PlaceKind::Plate, Side::None, Axle::None),
        make("rear-plate", PlaceKind::Plate, Side::None, Axle::None),
        make("fuel-flap", PlaceKind::Panel, Side::None, Axle::None),
        make("wipers", PlaceKind::OutsideTrim, Side::None, Axle::None),
        make("underside", PlaceKind::Underbody, Side::None, Axle::None),
        make("exhaust", PlaceKind::Underbody, Side::None, Axle::None),
        make("wheel-front-left", PlaceKind::Wheel, Side::Left, Axle::Front),
        make("wheel-rear-left", PlaceKind::Wheel, Side::Left, Axle::Rear),
        make("wheel-front-right", PlaceKind::Wheel, Side::Right, Axle::Front),
        make("wheel-rear-right", PlaceKind::Wheel, Side::Right, Axle::Rear),
        make("spare-wheel", PlaceKind::Wheel, Side::None, Axle::None),
        make("tyre-front-left", PlaceKind::Tyre, Side::Left, Axle::Front),
        make("tyre-rear-left", PlaceKind::Tyre, Side::Left, Axle::Rear),
        make("tyre-front-right", PlaceKind::Tyre, Side::Right, Axle::Front),
        make("tyre-rear-right", PlaceKind::Tyre, Side::Right, Axle::Rear),
        make("spare-tyre", PlaceKind::Tyre, Side::None, Axle::None),
        make("brakes-front", PlaceKind::Brake, Side::None, Axle::Front),
        make("brakes-rear", PlaceKind::Brake, Side::None, Axle::Rear),
        make("driver-seat", PlaceKind::Interior, Side::None, Axle::None),
        make("passenger-seat", PlaceKind::Interior, Side::None, Axle::None),
        make("rear-seats", PlaceKind::Interior, Side::None, Axle::None),
        make("seat-belts", PlaceKind::Restraint, Side::None, Axle::None),
        make("steering-wheel", PlaceKind::Interior, Side::None, Axle::None),
        make("dashboard", PlaceKind::Interior, Side::None, Axle::None),
        make("centre-console", PlaceKind::Interior, Side::None, Axle::None),
        make("headlining", PlaceKind::Interior, Side::None, Axle::None),
        make("front-carpet", PlaceKind::Interior, Side::None, Axle::None),
        make("rear-carpet", PlaceKind::Interior, Side::None, Axle::None),
        make("mats", PlaceKind::Interior, Side::None, Axle::None),
        make("boot-interior", PlaceKind::Interior, Side::None, Axle::None),
        make("door-card-front-left", PlaceKind::Interior, Side::Left, Axle::None),
        make("door-card-front-right", PlaceKind::Interior, Side::Right, Axle::None),
        make("door-card-rear-left", PlaceKind::Interior, Side::Left, Axle::None),
        make("door-card-rear-right", PlaceKind::Interior, Side::Right, Axle::None),
        make("engine", PlaceKind::Drivetrain, Side::None, Axle::None),
        make("engine-bay", PlaceKind::Drivetrain, Side::None, Axle::None),
        make("gearbox", PlaceKind::Drivetrain, Side::None, Axle::None),
        make("clutch", PlaceKind::Drivetrain, Side::None, Axle::None),
        make("steering", PlaceKind::Steering, Side::None, Axle::None),
        make("suspension", PlaceKind::Suspension, Side::None, Axle::None),
        make("battery", PlaceKind::Battery, Side::None, Axle::None),
        make("traction-battery", PlaceKind::HighVoltage, Side::None, Axle::None),
        make("warning-lamps", PlaceKind::Electrical, Side::None, Axle::None),
        make("air-conditioning", PlaceKind::Electrical, Side::None, Axle::None),
        make("infotainment", PlaceKind::Electrical, Side::None, Axle::None),
        make("parking-sensors", PlaceKind::Electrical, Side::None, Axle::None),
        make("camera", PlaceKind::Electrical, Side::None, Axle::None),
        make("windows", PlaceKind::Electrical, Side::None, Axle::None),
        make("locks", PlaceKind::Electrical, Side::None, Axle::None),
        make("keys", PlaceKind::Keys, Side::None, Axle::None),
        make("horn", PlaceKind::Electrical, Side::None, Axle::None),
    };
    return places;
}

const PlaceInfo* placeInfo(const PlaceId& id)
{
    static const QHash<PlaceId, const PlaceInfo*> index = [] {
        QHash<PlaceId, const PlaceInfo*> hash;
        for (const PlaceInfo& info : allPlaces())
            hash.insert(info.id, &info);
        static const PlaceInfo car{wholeCar(), PlaceKind::WholeCar, Side::None, Axle::None};
        hash.insert(car.id, &car);
        return hash;
    }();
    return index.value(id, nullptr);
}

PlaceId wholeCar()
{
    return PlaceId{QStringLiteral("car")};
}

PlaceId wheelOf(const PlaceId& tyre)
{
    return swapStart(tyre, QStringLiteral("tyre"), QStringLiteral("wheel"));
}

PlaceId tyreOf(const PlaceId& wheel)
{
    return swapStart(wheel, QStringLiteral("wheel"), QStringLiteral("tyre"));
}

} // namespace ramplight
