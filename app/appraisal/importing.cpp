// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/importing.h"

#include <QTimeZone>

#include <algorithm>

namespace ramplight {

CarRequest requestFrom(const AppraisalFile& file, PersonId actor, PersonId foundBy)
{
    // The day is all that the file says: at noon it is that day in nearly every time zone.
    const Moment foundAt =
        file.date.isValid()
            ? Moment{QDateTime(file.date, QTime(12, 0), QTimeZone::utc()).toMSecsSinceEpoch()}
            : Moment{};
    CarRequest request;
    request.id = CommandId{QStringLiteral("appraisal-%1").arg(file.hash)};
    request.car = CarId{QStringLiteral("car-%1").arg(file.hash.left(24))};
    request.actor = actor;
    request.commands.emplace_back(car::BringIn{file.identity, file.facts, file.promised, {}});
    for (const FindingData& finding : file.findings)
        request.commands.emplace_back(car::RecordFinding{finding, {}, {}, foundBy, foundAt});
    for (const TyreReading& tyre : file.tyres)
        request.commands.emplace_back(car::RecordTread{tyre.place, tyre.tread});
    // A tyre that was measured is looked at; what its tread says decides whether it is sound.
    car::FindSound sound;
    for (const PlaceId& place : file.sound)
        if (std::ranges::find(file.tyres, place, &TyreReading::place) == file.tyres.end())
            sound.places.push_back(place);
    if (!sound.places.empty())
        request.commands.emplace_back(sound);
    request.commands.emplace_back(car::FinishAppraisal{});
    return request;
}

PersonId appraiserOf(const AppraisalFile& file, const SiteState& site)
{
    const QString wanted = file.appraiser.trimmed();
    for (const auto& [id, person] : site.people)
        if (person.can(Right::Appraise) && person.name.compare(wanted, Qt::CaseInsensitive) == 0)
            return id;
    return {};
}

} // namespace ramplight
