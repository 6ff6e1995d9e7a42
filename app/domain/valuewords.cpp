// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Words of words.h that are put together: titles, findings, values with their limits and units.
#include "domain/say.h"
#include "domain/words.h"

#include <QLocale>

#include <cstdlib>

namespace ramplight {

QString capital(QString text)
{
    if (!text.isEmpty())
        text[0] = text[0].toUpper();
    return text;
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
    if (data.count && *data.count != 1)
        parts.append(say("%1 of them").arg(*data.count));
    if (data.sizeMm)
        parts.append(QStringLiteral("%1 mm").arg(*data.sizeMm));
    if (data.screen)
        parts.append(words(reached(*data.screen, data.sizeMm.value_or(0))));
    if (data.treadTenthsMm)
        parts.append(say("tread %1").arg(valueWords(*data.treadTenthsMm, 1, Unit::Millimetre)));
    return QStringLiteral("%1: %2").arg(capital(placeWords(data.place, rules)),
                                        parts.join(QStringLiteral(", ")));
}

QString words(Qualification qualification)
{
    switch (qualification) {
    case Qualification::HighVoltage:
        return say("high voltage");
    case Qualification::Refrigerant:
        return say("refrigerant");
    case Qualification::GlassBonding:
        return say("glass bonding");
    case Qualification::Spraying:
        return say("spraying");
    }
    return {};
}

QString words(ToolKind kind)
{
    switch (kind) {
    case ToolKind::TorqueWrench:
        return say("torque wrench");
    case ToolKind::TreadGauge:
        return say("tread depth gauge");
    case ToolKind::PressureGauge:
        return say("tyre pressure gauge");
    case ToolKind::PaintGauge:
        return say("paint thickness gauge");
    case ToolKind::BrakeGauge:
        return say("brake wear gauge");
    case ToolKind::BatteryTester:
        return say("battery tester");
    case ToolKind::DialGauge:
        return say("dial gauge");
    case ToolKind::Thermometer:
        return say("thermometer");
    case ToolKind::FluidTester:
        return say("fluid tester");
    case ToolKind::VoltageTester:
        return say("voltage tester");
    case ToolKind::AlignmentRig:
        return say("alignment rig");
    case ToolKind::HeadlampTester:
        return say("headlamp tester");
    }
    return {};
}

QString neededWords(const OperationSpec& spec)
{
    QStringList needed{words(spec.skill)};
    if (!spec.speciality.isEmpty())
        needed.append(specialityWords(spec.speciality));
    if (spec.qualification)
        needed.append(words(*spec.qualification));
    return needed.join(QStringLiteral(", "));
}

QString specialityWords(const QString& speciality)
{
    return QString(speciality).replace(QLatin1Char('-'), QLatin1Char(' '));
}

QString dayWords(QDate day)
{
    static const QLocale english(QLocale::English, QLocale::UnitedKingdom);
    return english.toString(day, QStringLiteral("d MMM yyyy"));
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
    case Unit::Month:
        return say("months");
    case Unit::Day:
        return say("days");
    }
    return {};
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
    const bool one = number == 1 && decimals == 0;
    const QString suffix = one && unit == Unit::Year    ? say("year")
                           : one && unit == Unit::Month ? say("month")
                           : one && unit == Unit::Day   ? say("day")
                                                        : unitWords(unit);
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
    if (parts.isEmpty() && spec.neededFrom)
        return say("to be entered from: %1").arg(words(*spec.neededFrom));
    // An answer in words has none, and may have to be given all the same.
    if (parts.isEmpty())
        return spec.kind == ReadingKind::Choice || spec.kind == ReadingKind::Text
                   ? QString()
                   : say("no limit: noted only");
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

QString toolWords(const ReadingSpec& spec, const ToolUsed& used)
{
    if (!spec.tool)
        return {};
    return used.isEntered() ? say("%1 %2").arg(words(*spec.tool), used.number)
                            : say("tool not entered");
}

} // namespace ramplight
