// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/reading.h"

#include "domain/words.h"

#include <cmath>

namespace ramplight {

namespace {

QString moment(double seconds)
{
    if (seconds < 0)
        return {};
    const int whole = int(seconds);
    return QStringLiteral("[%1:%2] ").arg(whole / 60).arg(whole % 60, 2, 10, QLatin1Char('0'));
}

QString listed(const std::vector<PlaceId>& places, const HouseRules& rules)
{
    QStringList all;
    for (const PlaceId& place : places)
        all << placeWords(place, rules);
    return all.join(QStringLiteral(", "));
}

} // namespace

QString readingWords(const SpokenReading& reading, const HouseRules& rules)
{
    QString out;
    for (const SpokenFinding& finding : reading.findings) {
        QStringList work;
        for (const Remedy remedy : finding.remedies)
            work << words(remedy);
        out +=
            QStringLiteral("%1%2: %3%4%5 (%6%)\n    \"%7\"\n")
                .arg(moment(finding.seconds), placeWords(finding.place, rules),
                     words(finding.condition),
                     finding.severity ? QStringLiteral(", ") + words(*finding.severity) : QString(),
                     work.isEmpty() ? QString()
                                    : QStringLiteral("; ") + work.join(QStringLiteral(", ")))
                .arg(std::lround(finding.confidence * 100))
                .arg(QString::fromStdString(finding.quote));
    }
    for (const SpokenTread& tread : reading.treads)
        out += QStringLiteral("%1%2: %3\n")
                   .arg(moment(tread.seconds), placeWords(tread.place, rules),
                        tread.lowTenthsMm == tread.highTenthsMm
                            ? valueWords(tread.lowTenthsMm, 1, Unit::Millimetre)
                            : QStringLiteral("%1 to %2")
                                  .arg(valueWords(tread.lowTenthsMm, 1, Unit::None),
                                       valueWords(tread.highTenthsMm, 1, Unit::Millimetre)));
    if (!reading.sound.empty())
        out += QStringLiteral("Sound: %1\n").arg(listed(reading.sound, rules));
    if (!reading.notMentioned.empty())
        out += QStringLiteral("Not mentioned: %1\n").arg(listed(reading.notMentioned, rules));
    const SpokenFacts& facts = reading.facts;
    if (facts.odometer)
        out += QStringLiteral("Odometer: %1 %2\n")
                   .arg(*facts.odometer)
                   .arg(facts.odometerUnit == DistanceUnit::Miles ? QStringLiteral("miles")
                                                                  : QStringLiteral("km"));
    const auto fact = [&](const QString& title, const std::optional<int>& value) {
        if (value)
            out += QStringLiteral("%1: %2\n").arg(title).arg(*value);
    };
    fact(QStringLiteral("Keys"), facts.keys);
    fact(QStringLiteral("Months of test certificate"), facts.testMonths);
    fact(QStringLiteral("Service stamps"), facts.serviceStamps);
    fact(QStringLiteral("Owners"), facts.owners);
    return out;
}

} // namespace ramplight
