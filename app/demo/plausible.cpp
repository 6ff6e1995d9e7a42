// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/plausible.h"

#include <QDateTime>
#include <QTimeZone>

#include <array>

namespace ramplight::demo {

namespace {

/// By the reading's key; %1 is a number of its own, DATE-CODE the week and year in which a young
/// tyre was made, GOOD-UNTIL a month to come.
constexpr std::array<std::pair<const char*, const char*>, 20> texts{{
    {"adhesive", "Tessil Bond 40, batch %1, use by GOOD-UNTIL"},
    {"cause", "worn bush, no. %1 of the parts list"},
    {"corners", "chalk, each on its own corner"},
    {"date-code", "DATE-CODE"},
    {"done", "cleaned, refitted, tried twice"},
    {"fault-list", "none stored, printout %1 in the folder"},
    {"glass-marks", "camera window and heater as before, no. %1"},
    {"grade", "class 4, batch %1"},
    {"lock", "lock 2, key with the qualified person"},
    {"marks", "205/55 R16 91V"},
    {"paint-code", "K%1, plate at the near side pillar"},
    {"part", "PT-%1"},
    {"parts", "PT-%1, both sides"},
    {"printout", "folder of the car, sheet %1"},
    {"proof", "folder of the car, sheet %1, today"},
    {"report", "report %1, reader R2, today"},
    {"wheel-marks", "7J x 16 ET45, load 690 kg"},
    {"who-drove", "the signer, trade plate 2"},
    {"work-done", "PT-%1 replaced"},
    {"wrench", "TW 11, until GOOD-UNTIL"},
}};

/// What is only noted; the least and most that anybody would believe.
struct Believable
{
    const char* key;
    int least;
    int most;
};
constexpr std::array<Believable, 12> notes{{
    {"keys-received", 2, 2},
    {"handed-on", 2, 2},
    {"thickest", 105, 160},
    {"health", 86, 97},
    {"charge", 55, 85},
    {"new-pad", 110, 125},
    {"old-disc", 205, 215},
    {"taken-out", 430, 520},
    {"temperature", 17, 22},
    {"safe-drive-away", 60, 60},
    {"size", 12, 35},
    {"chips", 2, 5},
}};

int plausibleNote(const ReadingSpec& spec, QRandomGenerator& random)
{
    for (const Believable& one : notes)
        if (spec.key == QLatin1String(one.key))
            return random.bounded(one.least, one.most + 1);
    return random.bounded(2, 40);
}

QString datedWords(QString words, QDate day)
{
    constexpr int youngTyreDays = 400;
    constexpr int monthsGood = 14;
    int year = 0;
    const int week = day.addDays(-youngTyreDays).weekNumber(&year);
    words.replace(QLatin1String("DATE-CODE"), QStringLiteral("%1%2")
                                                  .arg(week, 2, 10, QLatin1Char('0'))
                                                  .arg(year % 100, 2, 10, QLatin1Char('0')));
    words.replace(QLatin1String("GOOD-UNTIL"),
                  day.addMonths(monthsGood).toString(QStringLiteral("MM/yy")));
    return words;
}

QString plausibleWords(const ReadingSpec& spec, QDate day, QRandomGenerator& random)
{
    const int number = random.bounded(100, 999);
    for (const auto& [key, words] : texts)
        if (spec.key == QLatin1String(key)) {
            const QString text = datedWords(QString::fromLatin1(words), day);
            return text.contains(QLatin1String("%1")) ? text.arg(number) : text;
        }
    return QStringLiteral("noted, sheet %1").arg(number);
}

} // namespace

int plausibleFigure(const ReadingSpec& spec)
{
    switch (spec.unit) {
    case Unit::NewtonMetre:
        return 120;
    case Unit::Bar:
        return 24;
    case Unit::Micrometre:
        return 300;
    default:
        return 220;
    }
}

ReadingValue plausibleReading(const Operation& operation, const ReadingSpec& spec,
                              const PlaceId& place, QRandomGenerator& random)
{
    switch (spec.kind) {
    case ReadingKind::Text:
        return {{},
                plausibleWords(
                    spec,
                    QDateTime::fromMSecsSinceEpoch(operation.openedAt.ms, QTimeZone::utc()).date(),
                    random)};
    case ReadingKind::Choice: {
        // Some answers go with something else: take the plainest one that lets it close.
        for (const ChoiceOption& option : spec.options)
            if (option.id == QLatin1String("swept")) // away from the driver's eyes
                return {{}, option.id};
        for (const ChoiceOption& option : spec.options)
            if (option.closes && option.opens.isEmpty())
                return {{}, option.id};
        for (const ChoiceOption& option : spec.options)
            if (option.closes)
                return {{}, option.id};
        return {{}, spec.options.front().id};
    }
    case ReadingKind::Figure:
        if (const Figure* figure = operation.figure(spec.key, place))
            return {figure->value, {}};
        return {plausibleFigure(spec), {}};
    case ReadingKind::Record:
        return {plausibleNote(spec, random), {}};
    case ReadingKind::Limit:
        break;
    }
    int low = 0;
    int high = 1'000'000;
    for (const Limit& limit : spec.limits) {
        low = std::max(low, limit.min.value_or(low));
        high = std::min(high, limit.max.value_or(high));
    }
    if (const Figure* figure = operation.figure(spec.key, place))
        (spec.neededIsMax ? high : low) = figure->value;
    constexpr int chip = 9;
    if (spec.key == QLatin1String("size") && high >= chip) {
        static_cast<void>(random.bounded(high)); // what follows stays as it is for a seed
        return {chip, {}};
    }
    // Well used, as an oven is; small counts stay small.
    if (low == 0 && high != 1'000'000 && high >= 30)
        return {high - random.bounded(high / 4), {}};
    if (high == 1'000'000)
        return {low + random.bounded(low / 2 + 8), {}};
    return {low + random.bounded(std::max(1, (high - low) / 2 + 1)), {}};
}

} // namespace ramplight::demo
