// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "workbench.h"

namespace ramplight::test {

inline NamedLimit houseLimit(const char* name, Unit unit, int decimals, std::optional<int> min,
                             std::optional<int> max)
{
    NamedLimit limit;
    limit.name = QString::fromLatin1(name);
    limit.unit = unit;
    limit.decimals = decimals;
    limit.source = QStringLiteral("house default");
    limit.min = min;
    limit.max = max;
    return limit;
}

/// The bench with the figures that tyres, glass and paint are judged by, and a tyre survey that
/// asks for three points.
struct GaugeBench : Workbench
{
    GaugeBench()
    {
        catalogue.houseLimits = {
            houseLimit("tread-legal", Unit::Millimetre, 1, 16, {}),
            houseLimit("tread-house", Unit::Millimetre, 1, 30, {}),
            houseLimit("tread-spread", Unit::Millimetre, 1, {}, 15),
            houseLimit("tread-axle-difference", Unit::Millimetre, 1, {}, 20),
            houseLimit("tyre-inspect-years", Unit::Year, 0, {}, 6),
            houseLimit("tyre-replace-years", Unit::Year, 0, {}, 10),
            houseLimit("screen-zone-a", Unit::Millimetre, 0, {}, 10),
            houseLimit("screen-swept", Unit::Millimetre, 0, {}, 40),
            houseLimit("screen-repair", Unit::Millimetre, 0, {}, 40),
            houseLimit("screen-repair-driver", Unit::Millimetre, 0, {}, 20),
            houseLimit("paint-repaint-hint", Unit::Micrometre, 0, {}, 200),
            houseLimit("paint-filler-hint", Unit::Micrometre, 0, {}, 500),
        };
        for (OperationSpec& spec : catalogue.operations)
            if (spec.id == QLatin1String("tyre-survey"))
                addTreadPoints(spec);
    }

    static void addTreadPoints(OperationSpec& spec)
    {
        for (const char* key : {"tread-inner", "tread-centre", "tread-outer"}) {
            ReadingSpec reading;
            reading.key = reading.title = QString::fromLatin1(key);
            reading.kind = ReadingKind::Limit;
            reading.unit = Unit::Millimetre;
            reading.decimals = 1;
            reading.limits = {{LimitOwner::House, QStringLiteral("house default"), 30, {}}};
            reading.places = {at("tyre-front-left"), at("tyre-front-right")};
            reading.opens = QStringLiteral("tyre-fit");
            reading.optional = true;
            spec.readings.push_back(reading);
        }
        ReadingSpec odometer;
        odometer.key = odometer.title = QStringLiteral("odometer");
        odometer.optional = true;
        spec.readings.push_back(odometer);
        ReadingSpec date;
        date.key = date.title = QStringLiteral("date-code");
        date.kind = ReadingKind::Text;
        date.places = {at("tyre-front-left")};
        date.optional = true;
        spec.readings.push_back(date);
    }

    /// "condition/remedy" of every finding that stands on a place, in order.
    QStringList foundAt(const CarId& id, const char* place)
    {
        QStringList found;
        for (const auto& [number, finding] : car(id).findings)
            if (finding.stands() && finding.data().place == at(place))
                found.append(QStringLiteral("%1/%2").arg(
                    nameOf(finding.data().condition),
                    finding.data().remedies.empty() ? QString()
                                                    : nameOf(finding.data().remedies.front())));
        return found;
    }

    QString noteAt(const CarId& id, const char* place)
    {
        QString note;
        for (const auto& [number, finding] : car(id).findings)
            if (finding.stands() && finding.data().place == at(place))
                note = finding.data().note;
        return note;
    }
};

} // namespace ramplight::test
