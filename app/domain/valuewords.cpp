// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Words of words.h that are put together: titles, findings, values with their limits and units.
#include "domain/words.h"

#include <QCoreApplication>

#include <cstdlib>

namespace ramplight {

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

QString capital(QString text)
{
    if (!text.isEmpty())
        text[0] = text[0].toUpper();
    return text;
}

} // namespace

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
    if (data.screen)
        parts.append(words(reached(*data.screen, data.sizeMm.value_or(0))));
    if (data.treadTenthsMm)
        parts.append(say("tread %1").arg(valueWords(*data.treadTenthsMm, 1, Unit::Millimetre)));
    return QStringLiteral("%1: %2").arg(capital(placeWords(data.place, rules)),
                                        parts.join(QStringLiteral(", ")));
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
