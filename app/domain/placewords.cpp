// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Words of words.h for places: the titles of the vocabulary's places, and their sides.
#include "domain/say.h"
#include "domain/words.h"

#include <QHash>

namespace ramplight {

namespace {

/// Places that have no side, and the sided ones without their side.
const QHash<QString, const char*>& placeTitles()
{
    static const QHash<QString, const char*> titles{
        {QStringLiteral("front-bumper"), QT_TRANSLATE_NOOP("ramplight", "front bumper")},
        {QStringLiteral("grille"), QT_TRANSLATE_NOOP("ramplight", "grille")},
        {QStringLiteral("bonnet"), QT_TRANSLATE_NOOP("ramplight", "bonnet")},
        {QStringLiteral("windscreen"), QT_TRANSLATE_NOOP("ramplight", "windscreen")},
        {QStringLiteral("roof"), QT_TRANSLATE_NOOP("ramplight", "roof")},
        {QStringLiteral("sunroof"), QT_TRANSLATE_NOOP("ramplight", "sunroof")},
        {QStringLiteral("rear-screen"), QT_TRANSLATE_NOOP("ramplight", "rear screen")},
        {QStringLiteral("tailgate"), QT_TRANSLATE_NOOP("ramplight", "tailgate")},
        {QStringLiteral("rear-bumper"), QT_TRANSLATE_NOOP("ramplight", "rear bumper")},
        {QStringLiteral("front-plate"), QT_TRANSLATE_NOOP("ramplight", "front number plate")},
        {QStringLiteral("rear-plate"), QT_TRANSLATE_NOOP("ramplight", "rear number plate")},
        {QStringLiteral("fuel-flap"), QT_TRANSLATE_NOOP("ramplight", "fuel flap")},
        {QStringLiteral("wipers"), QT_TRANSLATE_NOOP("ramplight", "wipers")},
        {QStringLiteral("underside"), QT_TRANSLATE_NOOP("ramplight", "underside")},
        {QStringLiteral("exhaust"), QT_TRANSLATE_NOOP("ramplight", "exhaust")},
        {QStringLiteral("spare-wheel"), QT_TRANSLATE_NOOP("ramplight", "spare wheel")},
        {QStringLiteral("spare-tyre"), QT_TRANSLATE_NOOP("ramplight", "spare tyre")},
        {QStringLiteral("brakes-front"), QT_TRANSLATE_NOOP("ramplight", "front brakes")},
        {QStringLiteral("brakes-rear"), QT_TRANSLATE_NOOP("ramplight", "rear brakes")},
        {QStringLiteral("driver-seat"), QT_TRANSLATE_NOOP("ramplight", "driver's seat")},
        {QStringLiteral("passenger-seat"), QT_TRANSLATE_NOOP("ramplight", "passenger seat")},
        {QStringLiteral("rear-seats"), QT_TRANSLATE_NOOP("ramplight", "rear seats")},
        {QStringLiteral("seat-belts"), QT_TRANSLATE_NOOP("ramplight", "seat belts")},
        {QStringLiteral("steering-wheel"), QT_TRANSLATE_NOOP("ramplight", "steering wheel")},
        {QStringLiteral("dashboard"), QT_TRANSLATE_NOOP("ramplight", "dashboard")},
        {QStringLiteral("centre-console"), QT_TRANSLATE_NOOP("ramplight", "centre console")},
        {QStringLiteral("headlining"), QT_TRANSLATE_NOOP("ramplight", "headlining")},
        {QStringLiteral("front-carpet"), QT_TRANSLATE_NOOP("ramplight", "front carpet")},
        {QStringLiteral("rear-carpet"), QT_TRANSLATE_NOOP("ramplight", "rear carpet")},
        {QStringLiteral("mats"), QT_TRANSLATE_NOOP("ramplight", "mats")},
        {QStringLiteral("boot-interior"), QT_TRANSLATE_NOOP("ramplight", "boot interior")},
        {QStringLiteral("engine"), QT_TRANSLATE_NOOP("ramplight", "engine")},
        {QStringLiteral("engine-bay"), QT_TRANSLATE_NOOP("ramplight", "engine bay")},
        {QStringLiteral("gearbox"), QT_TRANSLATE_NOOP("ramplight", "gearbox")},
        {QStringLiteral("clutch"), QT_TRANSLATE_NOOP("ramplight", "clutch")},
        {QStringLiteral("steering"), QT_TRANSLATE_NOOP("ramplight", "steering")},
        {QStringLiteral("suspension"), QT_TRANSLATE_NOOP("ramplight", "suspension")},
        {QStringLiteral("battery"), QT_TRANSLATE_NOOP("ramplight", "12 V battery")},
        {QStringLiteral("traction-battery"), QT_TRANSLATE_NOOP("ramplight", "traction battery")},
        {QStringLiteral("warning-lamps"), QT_TRANSLATE_NOOP("ramplight", "warning lamps")},
        {QStringLiteral("air-conditioning"), QT_TRANSLATE_NOOP("ramplight", "air conditioning")},
        {QStringLiteral("infotainment"), QT_TRANSLATE_NOOP("ramplight", "infotainment")},
        {QStringLiteral("parking-sensors"), QT_TRANSLATE_NOOP("ramplight", "parking sensors")},
        {QStringLiteral("camera"), QT_TRANSLATE_NOOP("ramplight", "camera")},
        {QStringLiteral("windows"), QT_TRANSLATE_NOOP("ramplight", "windows")},
        {QStringLiteral("locks"), QT_TRANSLATE_NOOP("ramplight", "locks")},
        {QStringLiteral("keys"), QT_TRANSLATE_NOOP("ramplight", "keys")},
        {QStringLiteral("horn"), QT_TRANSLATE_NOOP("ramplight", "horn")},
        {QStringLiteral("car"), QT_TRANSLATE_NOOP("ramplight", "car")},
        {QStringLiteral("wing"), QT_TRANSLATE_NOOP("ramplight", "wing")},
        {QStringLiteral("front-door"), QT_TRANSLATE_NOOP("ramplight", "front door")},
        {QStringLiteral("rear-door"), QT_TRANSLATE_NOOP("ramplight", "rear door")},
        {QStringLiteral("quarter"), QT_TRANSLATE_NOOP("ramplight", "quarter panel")},
        {QStringLiteral("sill"), QT_TRANSLATE_NOOP("ramplight", "sill")},
        {QStringLiteral("mirror"), QT_TRANSLATE_NOOP("ramplight", "mirror")},
        {QStringLiteral("arch-front"), QT_TRANSLATE_NOOP("ramplight", "front wheel arch")},
        {QStringLiteral("arch-rear"), QT_TRANSLATE_NOOP("ramplight", "rear wheel arch")},
        {QStringLiteral("front-glass"), QT_TRANSLATE_NOOP("ramplight", "front door glass")},
        {QStringLiteral("rear-glass"), QT_TRANSLATE_NOOP("ramplight", "rear door glass")},
        {QStringLiteral("headlamp"), QT_TRANSLATE_NOOP("ramplight", "headlamp")},
        {QStringLiteral("fog-lamp"), QT_TRANSLATE_NOOP("ramplight", "fog lamp")},
        {QStringLiteral("rear-lamp"), QT_TRANSLATE_NOOP("ramplight", "rear lamp")},
        {QStringLiteral("wheel-front"), QT_TRANSLATE_NOOP("ramplight", "front wheel")},
        {QStringLiteral("wheel-rear"), QT_TRANSLATE_NOOP("ramplight", "rear wheel")},
        {QStringLiteral("tyre-front"), QT_TRANSLATE_NOOP("ramplight", "front tyre")},
        {QStringLiteral("tyre-rear"), QT_TRANSLATE_NOOP("ramplight", "rear tyre")},
        {QStringLiteral("door-card-front"), QT_TRANSLATE_NOOP("ramplight", "front door card")},
        {QStringLiteral("door-card-rear"), QT_TRANSLATE_NOOP("ramplight", "rear door card")},
    };
    return titles;
}

QString sideWords(Side side, const HouseRules& rules)
{
    if (rules.sideWords == SideWords::LeftRight)
        return side == Side::Left ? say("left") : say("right");
    const bool nearSide = (side == Side::Left) == (rules.trafficSide == TrafficSide::Left);
    return nearSide ? say("near side") : say("off side");
}

} // namespace

QString placeWords(const PlaceId& place, const HouseRules& rules)
{
    if (const char* title = placeTitles().value(place.text))
        return say(title);
    const PlaceInfo* info = placeInfo(place);
    if (info == nullptr || info->side == Side::None)
        return place.text;
    const QString base = place.text.left(place.text.lastIndexOf(QLatin1Char('-')));
    const char* title = placeTitles().value(base);
    return QStringLiteral("%1 %2").arg(sideWords(info->side, rules),
                                       title != nullptr ? say(title) : base);
}

} // namespace ramplight
