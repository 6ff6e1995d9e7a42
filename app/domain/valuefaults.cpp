// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/valuefaults.h"

#include <algorithm>
#include <cstdlib>

namespace ramplight {

namespace {

/// No windscreen of a car or van reaches farther from the steering wheel.
constexpr int widestScreenMm = 2500;
constexpr int deepestTreadTenths = 200;
constexpr int thickestPaint = 5000;
constexpr std::size_t mostPaintPoints = 50;
constexpr qsizetype longestAnswer = 200;

Refusal outOfRange(const QString& what)
{
    return {RefusalId::ValueOutOfRange, {what}};
}

bool isOnCar(const PlaceId& place)
{
    return placeInfo(place) != nullptr && place != wholeCar();
}

} // namespace

std::optional<Refusal> factsFault(const CarFacts& facts)
{
    if (facts.odometer < 0 || facts.odometer > largestOdometer)
        return outOfRange(QStringLiteral("odometer"));
    if (facts.keys < 0 || facts.keys > mostKeys)
        return outOfRange(QStringLiteral("keys"));
    if (facts.testCertificateMonths &&
        (*facts.testCertificateMonths < 0 || *facts.testCertificateMonths > 48))
        return outOfRange(QStringLiteral("months of test certificate"));
    for (const TyreFitment& tyre : {facts.frontTyre, facts.rearTyre})
        if (const auto fitment = tidied(tyre); !fitment)
            return Refusal{RefusalId::TyreMarkMalformed, {fitment.error()}};
    return std::nullopt;
}

std::optional<Refusal> findingFault(const FindingData& data)
{
    if (!isOnCar(data.place))
        return Refusal{RefusalId::PlaceUnknown, {data.place.text}};
    if (data.count && (*data.count < 1 || *data.count > 999))
        return outOfRange(QStringLiteral("count"));
    if (data.sizeMm && (*data.sizeMm < 1 || *data.sizeMm > 5000))
        return outOfRange(QStringLiteral("size"));
    if (data.treadTenthsMm && (*data.treadTenthsMm < 0 || *data.treadTenthsMm > deepestTreadTenths))
        return outOfRange(QStringLiteral("tread"));
    if (data.screen && (data.place != PlaceId{QStringLiteral("windscreen")} ||
                        std::abs(data.screen->fromWheelMm.value_or(0)) > widestScreenMm))
        return outOfRange(QStringLiteral("position on the windscreen"));
    return std::nullopt;
}

std::optional<Refusal> treadFault(const Tread& tread)
{
    for (const int tenths : {tread.inner, tread.centre, tread.outer})
        if (tenths < 0 || tenths > deepestTreadTenths)
            return outOfRange(QStringLiteral("tread"));
    return std::nullopt;
}

bool isTyre(const PlaceId& place)
{
    const PlaceInfo* info = placeInfo(place);
    return info != nullptr && info->kind == PlaceKind::Tyre;
}

bool isPaintDepth(const std::vector<int>& micrometres)
{
    return micrometres.size() <= mostPaintPoints && std::ranges::all_of(micrometres, [](int depth) {
               return depth >= 0 && depth <= thickestPaint;
           });
}

bool isAnswerTo(const ReadingSpec& spec, const ReadingValue& value)
{
    if (spec.kind == ReadingKind::Text)
        return !value.number && !value.text.trimmed().isEmpty() &&
               value.text.size() <= longestAnswer;
    if (spec.kind == ReadingKind::Choice)
        return !value.number &&
               std::ranges::find(spec.options, value.text, &ChoiceOption::id) != spec.options.end();
    return value.number && value.text.isEmpty() && std::abs(*value.number) <= largestReading &&
           (*value.number >= 0 || spec.unit == Unit::Celsius);
}

PlaceId strangePlace(const SpokenRound& round)
{
    std::vector<PlaceId> all = round.sound;
    all.insert(all.end(), round.notMentioned.begin(), round.notMentioned.end());
    for (const SpokenDraft& draft : round.drafts)
        all.push_back(draft.data.place);
    for (const SpokenDepth& depth : round.depths)
        all.push_back(depth.tyre);
    const auto strange =
        std::ranges::find_if(all, [](const PlaceId& place) { return !isOnCar(place); });
    return strange == all.end() ? PlaceId{} : *strange;
}

} // namespace ramplight
