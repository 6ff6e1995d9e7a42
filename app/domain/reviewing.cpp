// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/reviewing.h"

#include <algorithm>

namespace ramplight {

namespace {

bool hasOpenDraft(const SpokenReview& review, const PlaceId& place)
{
    for (std::size_t i = 0; i < review.decisions.size(); ++i)
        if (review.decisions[i].end == DraftEnd::Open && review.round.drafts[i].data.place == place)
            return true;
    return false;
}

void addDepth(std::vector<SpokenDepth>& depths, const SpokenDepth& said)
{
    const auto known = std::ranges::find(depths, said.tyre, &SpokenDepth::tyre);
    if (known == depths.end()) {
        depths.push_back(said);
        return;
    }
    known->lowTenthsMm = std::min(known->lowTenthsMm, said.lowTenthsMm);
    known->highTenthsMm = std::max(known->highTenthsMm, said.highTenthsMm);
}

SaidOfCar factsLeft(const CarState& car, const SaidOfCar& said)
{
    SaidOfCar left = said;
    if (const auto before = car.lastOdometer();
        before && said.odometer == before->value && said.odometerUnit == before->unit)
        left.odometer.reset();
    if (said.keys == car.facts.keys)
        left.keys.reset();
    if (said.testCertificateMonths == car.facts.testCertificateMonths)
        left.testCertificateMonths.reset();
    return left;
}

QString lettersAndDigits(const QString& words)
{
    QString kept;
    for (const QChar sign : words)
        if (sign.isLetterOrNumber())
            kept.append(sign.toCaseFolded());
    return kept;
}

QStringList wordsOf(const QString& name)
{
    QStringList words{QString()};
    for (const QChar sign : name) {
        if (sign.isLetterOrNumber())
            words.back().append(sign.toCaseFolded());
        else if (!words.back().isEmpty())
            words.append(QString());
    }
    return words;
}

bool carries(const QStringList& words, const QString& number)
{
    for (qsizetype first = 0; first < words.size(); ++first) {
        QString joined;
        for (qsizetype at = first; at < words.size() && joined.size() < number.size(); ++at)
            joined += words[at];
        if (joined == number)
            return true;
    }
    return false;
}

} // namespace

bool isSure(const SpokenDraft& draft)
{
    return draft.percent >= surePercent;
}

ReviewLeft leftOf(const CarState& car, const SpokenReview& review)
{
    ReviewLeft left;
    const std::vector<SpokenDraft>& drafts = review.round.drafts;
    for (std::size_t i = 0; i < drafts.size(); ++i)
        if (review.decisions[i].end == DraftEnd::Open)
            (isSure(drafts[i]) ? left.sure : left.doubtful).push_back(static_cast<int>(i));
    std::ranges::stable_sort(left.doubtful, {}, [&](int draft) {
        return drafts[static_cast<std::size_t>(draft)].percent;
    });
    for (const SpokenDepth& depth : review.round.depths)
        if (!car.treads.contains(depth.tyre))
            addDepth(left.depths, depth);
    if (!car.appraised) {
        for (const PlaceId& place : review.round.sound)
            if (!car.seen.contains(place) && !hasOpenDraft(review, place) && !car.hasFinding(place))
                left.sound.push_back(place);
        for (const PlaceId& place : review.round.notMentioned)
            if (!car.seen.contains(place))
                left.notMentioned.push_back(place);
    }
    left.facts = factsLeft(car, review.round.facts);
    return left;
}

bool waitsForDraft(const SpokenReview& review, const PlaceId& tyre)
{
    return hasOpenDraft(review, tyre);
}

std::optional<Tread> treadOf(const SpokenDepth& depth)
{
    if (depth.lowTenthsMm != depth.highTenthsMm)
        return std::nullopt;
    return Tread{depth.lowTenthsMm, depth.lowTenthsMm, depth.lowTenthsMm};
}

bool saysLess(const CarState& car, const SaidOfCar& said)
{
    const auto before = car.lastOdometer();
    return said.odometer && before &&
           showsLess(*said.odometer, said.odometerUnit, before->value, before->unit);
}

std::vector<CarCommand> takeFacts(const CarState& car, const SaidOfCar& left, const QString& reason)
{
    std::vector<CarCommand> commands;
    if (left.odometer && !saysLess(car, left))
        commands.emplace_back(car::ReadOdometer{*left.odometer, left.odometerUnit, {}, {}});
    CarFacts facts = car.facts;
    facts.keys = left.keys.value_or(facts.keys);
    if (left.testCertificateMonths)
        facts.testCertificateMonths = left.testCertificateMonths;
    // After the walk-round another word than was entered is corrected at the car, with a photo.
    if (facts != car.facts && !(car.appraised && contradict(car.facts, facts)))
        commands.emplace_back(car::CorrectFacts{facts, reason, {}});
    return commands;
}

std::optional<std::size_t> numberNamedBy(const QString& fileName,
                                         const std::vector<QString>& numbers)
{
    const QStringList words = wordsOf(fileName.left(fileName.lastIndexOf(QLatin1Char('.'))));
    std::optional<std::size_t> named;
    qsizetype longest = 0;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const QString number = lettersAndDigits(numbers[i]);
        if (number.isEmpty() || number.size() < longest || !carries(words, number))
            continue;
        named = number.size() == longest ? std::nullopt : std::optional(i);
        longest = number.size();
    }
    return named;
}

} // namespace ramplight
