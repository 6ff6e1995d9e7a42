// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/retention.h"

#include "domain/carwork.h"

#include <QCoreApplication>

#include <algorithm>
#include <type_traits>

namespace ramplight {

namespace {

/// The last day on which this photo is kept; the car is out of prep.
QDate keptUntil(const CarState& car, const PhotoFate& photo, const HouseRules& rules)
{
    return dayOf(std::max(outOfPrepAt(car), photo.named), rules).addYears(rules.photoYears);
}

bool mayGo(const CarState& car, const HouseRules& rules)
{
    return rules.photoYears > 0 && !outOfPrepAt(car).isNull();
}

} // namespace

PhotoId photoOf(const CarEvent& event)
{
    return std::visit(
        [](const auto& e) {
            using E = std::decay_t<decltype(e)>;
            if constexpr (std::is_same_v<E, PhotoAttached>)
                return e.photo;
            else if constexpr (requires { e.evidence; })
                return e.evidence;
            else
                return PhotoId{};
        },
        event);
}

void followPhotos(std::map<PhotoId, PhotoFate>& fates, const CarEnvelope& envelope)
{
    // Named again, it is kept again.
    if (const PhotoId photo = photoOf(envelope.event); !photo.isEmpty())
        fates[photo] = {envelope.at, {}, 0};
    if (const auto* removed = std::get_if<PhotosRemoved>(&envelope.event))
        for (const PhotoId& photo : removed->photos) {
            fates[photo].removed = envelope.at;
            fates[photo].years = removed->years;
        }
}

void followProofs(std::vector<AttachedPhoto>& proofs, const CarEnvelope& envelope)
{
    const auto note = [&](const PhotoId& photo, OperationId operation, FindingId finding) {
        if (!photo.isEmpty())
            proofs.push_back(
                {photo, PhotoMoment::During, {}, operation, finding, envelope.by, envelope.at});
    };
    if (const auto* reading = std::get_if<ReadingCorrected>(&envelope.event))
        note(reading->evidence, reading->operation, {});
    else if (const auto* figure = std::get_if<FigureCorrected>(&envelope.event))
        note(figure->evidence, figure->operation, {});
    else if (const auto* finding = std::get_if<FindingCorrected>(&envelope.event))
        note(finding->evidence, {}, finding->finding);
    else if (const auto* facts = std::get_if<FactsCorrected>(&envelope.event))
        note(facts->evidence, {}, {});
}

Moment outOfPrepAt(const CarState& car)
{
    return std::max(car.released ? car.released->at : Moment{}, car.left ? car.leftAt : Moment{});
}

std::vector<PhotoId> photosDue(const CarState& car, const HouseRules& rules, Moment now)
{
    std::vector<PhotoId> due;
    if (!mayGo(car, rules))
        return due;
    const QDate today = dayOf(now, rules);
    for (const auto& [photo, fate] : car.photoFates)
        if (!fate.isRemoved() && keptUntil(car, fate, rules) < today)
            due.push_back(photo);
    return due;
}

QDate photosKeptUntil(const CarState& car, const HouseRules& rules)
{
    QDate first;
    if (!mayGo(car, rules))
        return first;
    for (const auto& [photo, fate] : car.photoFates)
        if (!fate.isRemoved())
            if (const QDate until = keptUntil(car, fate, rules); !first.isValid() || until < first)
                first = until;
    return first;
}

QString yearsWords(int years)
{
    return years == 1 ? QCoreApplication::translate("ramplight", "1 year")
                      : QCoreApplication::translate("ramplight", "%1 years").arg(years);
}

QString removedWords(const PhotoFate& fate)
{
    return QCoreApplication::translate("ramplight", "removed after %1").arg(yearsWords(fate.years));
}

namespace decision {

MaybeRefusal on(CarWork& work, const car::RemovePhotos&)
{
    if (auto no = work.needs(Right::Manage))
        return no;
    const auto kept = [](const QString& why) { return Refusal{RefusalId::PhotosKept, {why}}; };
    if (work.rules().photoYears == 0)
        return kept(QStringLiteral("this house keeps photos for good"));
    if (outOfPrepAt(work.car()).isNull())
        return kept(QStringLiteral("it is in prep"));
    const std::vector<PhotoId> due = photosDue(work.car(), work.rules(), work.now());
    if (due.empty()) {
        const QDate until = photosKeptUntil(work.car(), work.rules());
        return kept(until.isValid() ? QStringLiteral("until %1").arg(until.toString(Qt::ISODate))
                                    : QStringLiteral("there are none"));
    }
    work.add(PhotosRemoved{due, work.rules().photoYears});
    return std::nullopt;
}

} // namespace decision

} // namespace ramplight
