// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/phototarget.h"

#include "domain/car.h"
#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

std::optional<car::AttachPhoto> PhotoTarget::with(const PhotoId& picture, const CarState& now) const
{
    car::AttachPhoto command = photo;
    command.photo = picture;
    if (!photo.finding.isNull()) {
        command.finding = findingIn(now, shown);
        if (command.finding.isNull())
            return std::nullopt;
    }
    if (!photo.operation.isNull()) {
        command.operation = operationIn(now, shown);
        if (command.operation.isNull())
            return std::nullopt;
    }
    return command;
}

QString PhotoTarget::goneWords()
{
    return say("What this photo is of is not in the workshop's ledger: look at the car, and take "
               "it again where it belongs.");
}

bool PhotoTarget::isSameAs(const PhotoTarget& other) const
{
    return car == other.car && photo.moment == other.photo.moment &&
           photo.place == other.photo.place && photo.operation == other.photo.operation &&
           photo.finding == other.photo.finding;
}

std::vector<PhotoId> PhotoTarget::earlierOnes(const CarState& state, std::size_t fresh) const
{
    const Operation* work = state.operation(photo.operation);
    const auto belongs = [&](const AttachedPhoto& other) {
        if (other.place != photo.place || state.removedPhoto(other.photo) != nullptr)
            return false;
        if (work == nullptr || !other.operation.isNull())
            return other.operation == photo.operation && other.finding == photo.finding;
        return std::ranges::find(work->findings, other.finding) != work->findings.end();
    };
    std::vector<PhotoId> earlier;
    for (std::size_t at = 0; at + fresh < state.photos.size(); ++at)
        if (belongs(state.photos[at]))
            earlier.push_back(state.photos[at].photo);
    return earlier;
}

std::optional<PhotoTarget> photoOfWork(const CarState& car, OperationId operation,
                                       const QString& moment, const HouseRules& rules)
{
    const auto known = fromName<PhotoMoment>(moment);
    const Operation* work = car.operation(operation);
    if (!known || work == nullptr)
        return std::nullopt;
    PhotoTarget target;
    target.car = car.id;
    target.why = say("for %1: %2")
                     .arg(car.identity.stockNumber, operationTitle(work->spec, work->place, rules));
    target.photo.moment = *known;
    target.photo.place = work->place;
    target.photo.operation = operation;
    target.shown = knownAs(*work);
    return target;
}

PhotoTarget photoOfFinding(const CarState& car, FindingId finding)
{
    PhotoTarget target;
    target.car = car.id;
    target.why = say("to add a photo to %1").arg(car.identity.stockNumber);
    target.photo.moment = PhotoMoment::Before;
    if (const Finding* found = car.finding(finding)) {
        target.photo.finding = finding;
        target.photo.place = found->data().place;
        target.shown = knownAs(*found);
    }
    return target;
}

} // namespace ramplight
