// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/words.h"

#include <QCoreApplication>
#include <QHash>

#include <cstdlib>

namespace ramplight {

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

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

QString capital(QString text)
{
    if (!text.isEmpty())
        text[0] = text[0].toUpper();
    return text;
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

QString words(Condition condition)
{
    switch (condition) {
    case Condition::Mark:
        return say("mark");
    case Condition::Scratch:
        return say("scratch");
    case Condition::Scuff:
        return say("scuff");
    case Condition::Chip:
        return say("chip");
    case Condition::Dent:
        return say("dent");
    case Condition::Kerbed:
        return say("scuffed on a kerb");
    case Condition::Corrosion:
        return say("corrosion");
    case Condition::Crack:
        return say("crack");
    case Condition::Pepper:
        return say("stone peppering");
    case Condition::Fade:
        return say("faded");
    case Condition::Peel:
        return say("lacquer peeling");
    case Condition::Tear:
        return say("torn");
    case Condition::Stain:
        return say("stained");
    case Condition::Wear:
        return say("worn");
    case Condition::Burn:
        return say("burn");
    case Condition::Hole:
        return say("hole");
    case Condition::Missing:
        return say("missing");
    case Condition::Broken:
        return say("broken");
    case Condition::Loose:
        return say("loose");
    case Condition::Misaligned:
        return say("out of line");
    case Condition::Contamination:
        return say("contaminated");
    case Condition::Dirty:
        return say("dirty");
    case Condition::Odour:
        return say("smell");
    case Condition::Cut:
        return say("cut");
    case Condition::Bulge:
        return say("bulge");
    case Condition::Perished:
        return say("perished");
    case Condition::Worn:
        return say("worn");
    case Condition::Leak:
        return say("leak");
    case Condition::Lit:
        return say("lamp lit");
    case Condition::Inoperative:
        return say("does not work");
    case Condition::Noise:
        return say("noise");
    case Condition::Vibration:
        return say("vibration");
    case Condition::Overspray:
        return say("overspray");
    case Condition::PreviousRepair:
        return say("earlier repair");
    case Condition::Flat:
        return say("flat");
    case Condition::Overdue:
        return say("overdue");
    }
    return {};
}

QString words(Severity severity)
{
    switch (severity) {
    case Severity::Trace:
        return say("barely there");
    case Severity::Light:
        return say("light");
    case Severity::Moderate:
        return say("moderate");
    case Severity::Heavy:
        return say("heavy");
    }
    return {};
}

QString words(Remedy remedy)
{
    switch (remedy) {
    case Remedy::Polish:
        return say("polish");
    case Remedy::TouchIn:
        return say("touch in");
    case Remedy::FlatAndPolish:
        return say("flat and polish");
    case Remedy::Refinish:
        return say("paint");
    case Remedy::Refurbish:
        return say("refurbish");
    case Remedy::DentRepair:
        return say("push the dent out");
    case Remedy::Clean:
        return say("clean");
    case Remedy::Replace:
        return say("replace");
    case Remedy::Repair:
        return say("repair");
    case Remedy::Adjust:
        return say("adjust");
    case Remedy::Recharge:
        return say("recharge");
    case Remedy::Calibrate:
        return say("calibrate");
    case Remedy::Investigate:
        return say("find out");
    case Remedy::Leave:
        return say("leave as it is");
    }
    return {};
}

QString words(OperationState state)
{
    switch (state) {
    case OperationState::Waiting:
        return say("waiting");
    case OperationState::InHand:
        return say("in hand");
    case OperationState::Paused:
        return say("paused");
    case OperationState::AwaitingCheck:
        return say("awaiting check");
    case OperationState::Closed:
        return say("closed");
    case OperationState::LeftAsIs:
        return say("left as is");
    case OperationState::Blocked:
        return say("blocked");
    case OperationState::Withdrawn:
        return say("withdrawn");
    }
    return {};
}

QString words(Skill skill)
{
    switch (skill) {
    case Skill::Mechanical:
        return say("mechanical");
    case Skill::Wheels:
        return say("wheels");
    case Skill::SmartRepair:
        return say("smart repair");
    case Skill::Glass:
        return say("glass");
    case Skill::Trim:
        return say("trim");
    case Skill::Valet:
        return say("valet");
    case Skill::Checks:
        return say("checks");
    case Skill::Office:
        return say("office");
    }
    return {};
}

QString words(Right right)
{
    switch (right) {
    case Right::Appraise:
        return say("appraise");
    case Right::Work:
        return say("sign work off");
    case Right::Check:
        return say("check other people's work");
    case Right::Manage:
        return say("manage");
    case Right::Release:
        return say("release to sale");
    }
    return {};
}

QString words(BayKind kind)
{
    switch (kind) {
    case BayKind::Any:
        return say("any work");
    case BayKind::Lift:
        return say("lift");
    case BayKind::Wheels:
        return say("wheels");
    case BayKind::Paint:
        return say("paint");
    case BayKind::SmartRepair:
        return say("smart repair");
    case BayKind::Glass:
        return say("glass");
    case BayKind::Valet:
        return say("valet");
    case BayKind::Parking:
        return say("parking");
    }
    return {};
}

QString words(LimitOwner owner)
{
    switch (owner) {
    case LimitOwner::Law:
        return say("law");
    case LimitOwner::AnnualTest:
        return say("annual test");
    case LimitOwner::Standard:
        return say("standard");
    case LimitOwner::VehicleData:
        return say("vehicle maker's data");
    case LimitOwner::ProductData:
        return say("product data sheet");
    case LimitOwner::House:
        return say("house");
    }
    return {};
}

QString words(BodyShape shape)
{
    switch (shape) {
    case BodyShape::Hatch:
        return say("hatch");
    case BodyShape::Saloon:
        return say("saloon");
    case BodyShape::Estate:
        return say("estate");
    case BodyShape::Suv:
        return say("SUV");
    case BodyShape::Coupe:
        return say("coupe");
    case BodyShape::Convertible:
        return say("convertible");
    case BodyShape::Van:
        return say("van");
    case BodyShape::Pickup:
        return say("pickup");
    case BodyShape::Mpv:
        return say("MPV");
    }
    return {};
}

QString words(Fact fact)
{
    switch (fact) {
    case Fact::CombustionEngine:
        return say("engine");
    case Fact::TractionBattery:
        return say("traction battery");
    case Fact::ScreenCamera:
        return say("camera at the screen");
    case Fact::FrontRadar:
        return say("radar behind the front bumper");
    case Fact::RearRadar:
        return say("radar behind the rear bumper");
    case Fact::ValveSensors:
        return say("pressure sensors in the valves");
    case Fact::RunFlats:
        return say("run-flat tyres");
    case Fact::RepairKit:
        return say("repair kit instead of a spare");
    }
    return {};
}

QString words(LeavingHow how)
{
    switch (how) {
    case LeavingHow::Trade:
        return say("to the trade");
    case LeavingHow::Scrap:
        return say("for scrap");
    case LeavingHow::BackToOwner:
        return say("back to its owner");
    case LeavingHow::EnteredTwice:
        return say("entered twice");
    }
    return {};
}

QString words(SignatureMeaning meaning)
{
    switch (meaning) {
    case SignatureMeaning::DidTheWork:
        return say("did the work");
    case SignatureMeaning::CheckedTheWork:
        return say("checked the work of others");
    case SignatureMeaning::Countersigned:
        return say("countersigned");
    case SignatureMeaning::ReceivedFromOutside:
        return say("checked the outside firm's work");
    }
    return {};
}

QString words(PhotoMoment moment)
{
    switch (moment) {
    case PhotoMoment::Before:
        return say("before");
    case PhotoMoment::During:
        return say("during");
    case PhotoMoment::After:
        return say("after");
    }
    return {};
}

QString unitWords(Unit unit)
{
    switch (unit) {
    case Unit::None:
    case Unit::Count:
        return {};
    case Unit::Millimetre:
        return QStringLiteral("mm");
    case Unit::Micrometre:
        return QStringLiteral("µm");
    case Unit::NewtonMetre:
        return QStringLiteral("N·m");
    case Unit::Celsius:
        return QStringLiteral("°C");
    case Unit::Minute:
        return say("min");
    case Unit::Gram:
        return QStringLiteral("g");
    case Unit::Percent:
        return QStringLiteral("%");
    case Unit::Volt:
        return QStringLiteral("V");
    case Unit::Bar:
        return QStringLiteral("bar");
    case Unit::Kilometre:
        return QStringLiteral("km");
    case Unit::Year:
        return say("years");
    }
    return {};
}

QString operationTitle(const OperationSpec& spec, const PlaceId& place, const HouseRules& rules)
{
    if (place.isEmpty() || place == wholeCar())
        return capital(spec.title);
    QString title = spec.title;
    if (!title.isEmpty() && !title.left(2).isUpper())
        title[0] = title[0].toLower();
    return capital(QStringLiteral("%1: %2").arg(placeWords(place, rules), title));
}

QString findingWords(const FindingData& data, const HouseRules& rules)
{
    QStringList parts{words(data.condition)};
    if (data.severity)
        parts.append(words(*data.severity));
    if (data.count)
        parts.append(*data.count == 1 ? say("1 of them") : say("%1 of them").arg(*data.count));
    if (data.sizeMm)
        parts.append(QStringLiteral("%1 mm").arg(*data.sizeMm));
    if (data.treadTenthsMm)
        parts.append(say("tread %1").arg(valueWords(*data.treadTenthsMm, 1, Unit::Millimetre)));
    return QStringLiteral("%1: %2").arg(capital(placeWords(data.place, rules)),
                                        parts.join(QStringLiteral(", ")));
}

QString valueWords(int number, int decimals, Unit unit)
{
    int power = 1;
    for (int i = 0; i < decimals; ++i)
        power *= 10;
    QString text = QString::number(number / power);
    if (number < 0 && number / power == 0)
        text.prepend(QLatin1Char('-'));
    if (decimals > 0)
        text +=
            QLatin1Char('.') +
            QString::number(std::abs(number % power)).rightJustified(decimals, QLatin1Char('0'));
    const QString suffix = unitWords(unit);
    return suffix.isEmpty() ? text : QStringLiteral("%1 %2").arg(text, suffix);
}

QString limitWords(const ReadingSpec& spec, const std::vector<Limit>& limits)
{
    QStringList parts;
    for (const Limit& limit : limits) {
        QString range;
        if (limit.min && limit.max && *limit.min == *limit.max)
            range = say("exactly %1").arg(valueWords(*limit.min, spec.decimals, spec.unit));
        else if (limit.min && limit.max)
            range = say("%1 to %2")
                        .arg(valueWords(*limit.min, spec.decimals, Unit::None),
                             valueWords(*limit.max, spec.decimals, spec.unit));
        else if (limit.min)
            range = say("at least %1").arg(valueWords(*limit.min, spec.decimals, spec.unit));
        else if (limit.max)
            range = say("at most %1").arg(valueWords(*limit.max, spec.decimals, spec.unit));
        else
            continue;
        parts.append(QStringLiteral("%1 (%2)").arg(range, words(limit.owner)));
    }
    if (parts.isEmpty())
        return spec.neededFrom ? say("to be entered from: %1").arg(words(*spec.neededFrom))
                               : say("record only");
    return parts.join(QStringLiteral("; "));
}

QString readingWords(const ReadingSpec& spec, const ReadingValue& value)
{
    if (value.number)
        return valueWords(*value.number, spec.decimals, spec.unit);
    for (const ChoiceOption& option : spec.options)
        if (option.id == value.text)
            return option.title;
    return value.text;
}

} // namespace ramplight
