// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/wheeltag.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ramplight {

namespace {

constexpr std::array corners{
    std::pair{"FL", "wheel-front-left"}, std::pair{"FR", "wheel-front-right"},
    std::pair{"RL", "wheel-rear-left"},  std::pair{"RR", "wheel-rear-right"},
    std::pair{"SP", "spare-wheel"},
};

} // namespace

QString cornerCode(const PlaceId& wheel)
{
    for (const auto& [code, place] : corners)
        if (wheel.text == QLatin1StringView(place))
            return QString::fromLatin1(code);
    return {};
}

PlaceId wheelOfCorner(const QString& corner)
{
    const QString typed = corner.trimmed();
    for (const auto& [code, place] : corners)
        if (typed.compare(QLatin1StringView(code), Qt::CaseInsensitive) == 0)
            return PlaceId{QString::fromLatin1(place)};
    const PlaceId place{typed.toLower()};
    const PlaceId wheel = cornerCode(place).isEmpty() ? wheelOf(place) : place;
    return cornerCode(wheel).isEmpty() ? PlaceId{} : wheel;
}

QString tagCode(const WheelTag& tag)
{
    return QStringLiteral("%1-%2").arg(cornerCode(tag.wheel), tag.stockNumber);
}

std::optional<WheelTag> readTagCode(const QString& code)
{
    const qsizetype dash = code.indexOf(QLatin1Char('-'));
    if (dash != 2 || dash + 1 >= code.size())
        return std::nullopt;
    const PlaceId wheel = wheelOfCorner(code.left(dash));
    if (wheel.isEmpty())
        return std::nullopt;
    return WheelTag{code.mid(dash + 1), wheel};
}

} // namespace ramplight
