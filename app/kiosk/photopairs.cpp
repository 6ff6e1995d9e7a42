// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/photopairs.h"

#include "domain/words.h"
#include "kiosk/carrows.h"
#include "kiosk/operationrows.h"

#include <algorithm>

namespace ramplight {

namespace {

/// What was photographed at the place before somebody went to this work.
std::vector<PhotoRow> beforeAt(const PlaceId& place, const CarState& car, const SiteBook& book,
                               Moment now)
{
    std::vector<PhotoRow> rows;
    for (std::size_t i = 0; i < car.photos.size(); ++i)
        if (car.photos[i].place == place && car.photos[i].moment == PhotoMoment::Before &&
            car.removedPhoto(car.photos[i].photo) == nullptr)
            rows.push_back(photoRow(car.photos[i], static_cast<int>(i) + 1, book, now));
    return rows;
}

} // namespace

bool PhotographedWork::has(const QString& photoKey) const
{
    const auto isIt = [&](const PhotoRow& row) { return row.photoKey == photoKey; };
    return std::ranges::any_of(before, isIt) || std::ranges::any_of(after, isIt);
}

std::vector<PhotographedWork> photographedWork(const CarState& car, const SiteBook& book,
                                               Moment now)
{
    std::vector<PhotographedWork> all;
    for (const auto& [id, operation] : car.operations) {
        PhotographedWork work{
            id, operationTitle(operation.spec, operation.place, book.rules()), {}, {}};
        for (PhotoRow& row : photoRowsOf(operation, car, book, now)) {
            if (!row.goneWords.isEmpty())
                continue;
            if (row.moment == nameOf(PhotoMoment::Before))
                work.before.push_back(std::move(row));
            else if (row.moment == nameOf(PhotoMoment::After))
                work.after.push_back(std::move(row));
        }
        if (work.before.empty() && !work.after.empty())
            work.before = beforeAt(operation.place, car, book, now);
        if (!work.before.empty() && !work.after.empty())
            all.push_back(std::move(work));
    }
    return all;
}

} // namespace ramplight
