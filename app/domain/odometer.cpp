// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/odometer.h"

namespace ramplight {

namespace {

/// The international mile, exactly.
qint64 millimetresOf(qint64 value, DistanceUnit unit)
{
    return value * (unit == DistanceUnit::Miles ? 1'609'344 : 1'000'000);
}

} // namespace

bool showsLess(int value, DistanceUnit unit, int before, DistanceUnit unitBefore)
{
    if (unit == unitBefore)
        return value < before;
    return millimetresOf(qint64{value} + 1, unit) <= millimetresOf(before, unitBefore);
}

QString odometerWords(int value, DistanceUnit unit)
{
    return QStringLiteral("%1 %2").arg(value).arg(nameOf(unit));
}

} // namespace ramplight
