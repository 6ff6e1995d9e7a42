// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/housecatalogue.h"

#include <QCoreApplication>

#include <algorithm>

namespace ramplight {

namespace {

void adjust(OperationSpec& spec, const OperationAdjustment& own)
{
    if (own.minutes)
        spec.minutes = *own.minutes;
    if (own.materialMinor)
        spec.materialMinor = own.materialMinor;
    for (const ReadingAdjustment& limit : own.limits) {
        const auto reading = std::ranges::find(spec.readings, limit.key, &ReadingSpec::key);
        const Limit* found = reading == spec.readings.end() ? nullptr : ownLimit(*reading);
        if (found == nullptr)
            continue; // the catalogue was changed meanwhile
        Limit& house = reading->limits[std::size_t(found - reading->limits.data())];
        house.min = limit.min;
        house.max = limit.max;
    }
    spec.photos.insert(spec.photos.end(), own.photos.begin(), own.photos.end());
}

/// A photo of this moment at least, where the operation asks for none.
void askPhoto(OperationSpec& spec, PhotoMoment moment)
{
    if (spec.skill == Skill::Checks || spec.skill == Skill::Office ||
        std::ranges::find(spec.photos, moment, &PhotoSpec::moment) != spec.photos.end())
        return;
    spec.photos.push_back(
        {moment, QCoreApplication::translate("ramplight", "the house asks for it")});
}

} // namespace

const Catalogue& baseCatalogue(const Catalogue& file, const SiteState& site)
{
    // NOLINTNEXTLINE(bugprone-return-const-ref-from-parameter): the header says whose it is
    return site.adopted.catalogue ? *site.adopted.catalogue : file;
}

const Limit* ownLimit(const ReadingSpec& reading)
{
    const auto house = std::ranges::find_if(reading.limits, [](const Limit& limit) {
        return limit.owner == LimitOwner::House && limit.named.isEmpty();
    });
    return house == reading.limits.end() ? nullptr : &*house;
}

void adjust(Catalogue& catalogue, const SiteState& site)
{
    for (OperationSpec& spec : catalogue.operations) {
        const auto own = site.adjustments.find(spec.id);
        if (own != site.adjustments.end())
            adjust(spec, own->second);
        for (const PhotoMoment moment : site.rules.askPhotos)
            askPhoto(spec, moment);
    }
}

} // namespace ramplight
