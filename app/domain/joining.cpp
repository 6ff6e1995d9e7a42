// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Two entries of one car become one: what was seen and measured under the other comes over, and who
// said it stands beside it. Work stays there, with its readings and signatures: what another entry
// signed signs nothing here. Safety work that only the other owes is done there first.
#include "domain/carwork.h"
#include "domain/gauging.h"
#include "domain/say.h"

#include <algorithm>
#include <map>

namespace ramplight::decision {

namespace {

/// What is known says all that the other does, or worse.
bool covers(const FindingData& known, const FindingData& other)
{
    const auto isAtLeast = [](const auto& here, const auto& there) {
        return !there || (here && *here >= *there);
    };
    return known.place == other.place && known.condition == other.condition &&
           isAtLeast(known.severity, other.severity) && isAtLeast(known.count, other.count) &&
           isAtLeast(known.sizeMm, other.sizeMm) &&
           (!other.treadTenthsMm ||
            (known.treadTenthsMm && *known.treadTenthsMm <= *other.treadTenthsMm)) &&
           (other.remedies.empty() || known.remedies == other.remedies) &&
           (!other.screen || known.screen == other.screen);
}

/// The finding here that says it already; null when none does.
const Finding* likeIt(const CarState& car, const FindingData& data)
{
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && covers(finding.data(), data))
            return &finding;
    return nullptr;
}

/// What only the other entry says of the car. It opens work and takes none away: nobody has looked
/// at the car again, and what is said otherwise here stands.
void bringFacts(CarWork& work, const CarState& other)
{
    const CarState before = work.car();
    const CarFacts facts = filledIn(before.facts, other.facts);
    if (facts == before.facts)
        return;
    std::set<PersonId> people = other.factsBy.ofWhatDiffers(before.facts, facts);
    if (facts.rearTyre != before.facts.rearTyre)
        people.insert(other.factsBy.rearTyre.begin(), other.factsBy.rearTyre.end());
    std::vector<SafetyPlace> places = before.safetyPlaces;
    std::ranges::copy_if(
        safetyPlacesFor(work.catalogue(), facts), std::back_inserter(places),
        [&](const SafetyPlace& place) { return !work.isSafetyPlace(place.place); });
    const QString reason =
        say("as was said under the second entry, %1").arg(other.identity.stockNumber);
    work.add(FactsCorrected{facts, places, reason, {}, other.id, {people.begin(), people.end()}});
    answerMore(work, before.facts);
    openWithFacts(work, before, reason);
    concludeFromTyres(work);
}

/// Where the car stands, as far as nobody said so here.
void bringStand(CarWork& work, const CarState& other)
{
    const CarState& here = work.car();
    if (!here.bay.isNull())
        return;
    const Bay* bay = work.context().site->bay(other.bay);
    if (bay != nullptr && bay->active)
        work.add(CarMoved{other.bay, {}});
    else if (here.parking.isEmpty() && !other.parking.isEmpty())
        work.add(CarMoved{{}, other.parking});
}

void bringPhoto(CarWork& work, const CarState& other, const AttachedPhoto& photo, FindingId finding)
{
    if (other.removedPhoto(photo.photo) == nullptr)
        attachPhoto(work, PhotoAttached{photo.photo,
                                        photo.moment,
                                        photo.place,
                                        {},
                                        finding,
                                        {other.id, photo.by, photo.at}});
}

void bringFindings(CarWork& work, const CarState& other)
{
    for (const auto& [id, finding] : other.findings) {
        if (!finding.stands())
            continue;
        const Finding* known = likeIt(work.car(), finding.data());
        const FindingId here = known == nullptr ? FindingId{work.car().nextFinding} : known->id;
        if (known == nullptr)
            bringFinding(work, finding, other.id);
        for (const AttachedPhoto& photo : other.photos)
            if (photo.finding == id)
                bringPhoto(work, other, photo, here);
    }
}

/// What is newer counts, reading by reading; nothing that was read before another tyre was fitted.
void bringTyre(CarWork& work, const CarState& other, const PlaceId& tyre, const TyreMeasured& there)
{
    const auto measured = work.car().tyresMeasured.find(tyre);
    const TyreMeasured here =
        measured == work.car().tyresMeasured.end() ? TyreMeasured{} : measured->second;
    const auto tread = other.treads.find(tyre);
    const auto marking = other.tyres.find(tyre);
    const Moment known = std::max(here.tread.at, here.marking.at);
    if (!known.isNull() && there.fitted > std::max(here.fitted, known))
        work.add(TyreRecorded{tyre, {}, {}, {}, true, {other.id, {}, there.fitted}});
    if (tread != other.treads.end() && there.tread.at > std::max(here.fitted, here.tread.at))
        work.add(TyreRecorded{
            tyre, tread->second, {}, {}, false, {other.id, there.tread.by, there.tread.at}});
    if (marking == other.tyres.end() || there.marking.at <= here.fitted)
        return;
    TyreMarking brought = marking->second;
    const auto read = work.car().tyres.find(tyre);
    if (read != work.car().tyres.end() && there.marking.at <= here.marking.at) {
        // Older than what is known here: it only fills in what nobody read.
        if (!read->second.dateCode.isEmpty())
            brought.dateCode.clear();
        if (!read->second.fitment.isEmpty())
            brought.fitment = {};
    }
    if (!brought.isEmpty())
        work.add(TyreRecorded{
            tyre, {}, brought, {}, false, {other.id, there.marking.by, there.marking.at}});
}

void bringTyres(CarWork& work, const CarState& other)
{
    const std::map<PlaceId, TyreMeasured> before = work.car().tyresMeasured;
    for (const auto& [tyre, measured] : other.tyresMeasured)
        bringTyre(work, other, tyre, measured);
    if (work.car().tyresMeasured != before)
        concludeFromTyres(work);
}

void bringPaint(CarWork& work, const CarState& other)
{
    for (const auto& [panel, there] : other.paintMeasured) {
        const auto here = work.car().paintMeasured.find(panel);
        if (here == work.car().paintMeasured.end() || there.at > here->second.at)
            work.add(
                PaintDepthRecorded{panel, other.paint.at(panel), {other.id, there.by, there.at}});
    }
}

void bringOdometer(CarWork& work, const CarState& other)
{
    std::vector<OdometerReading> all = other.odometer;
    if (other.facts.odometer > 0)
        all.push_back({other.facts.odometer,
                       other.facts.odometerUnit,
                       other.factsBy.odometer,
                       other.arrivedAt,
                       {},
                       {}});
    std::ranges::stable_sort(all, {}, &OdometerReading::at);
    for (const OdometerReading& read : all) {
        const CarState& car = work.car();
        const auto isIt = [&](const OdometerReading& known) {
            return known.value == read.value && known.unit == read.unit;
        };
        const bool onArrival =
            car.facts.odometer == read.value && car.facts.odometerUnit == read.unit;
        if (read.value < 1 || onArrival || std::ranges::any_of(car.odometer, isIt))
            continue; // it says nothing, or nothing new
        const std::optional<OdometerReading> before = shownBy(car, read.at);
        const bool less = before && showsLess(read.value, read.unit, before->value, before->unit);
        const QString why = !less || !read.lowerWhy.isEmpty()
                                ? read.lowerWhy
                                : QStringLiteral("as it was read under the second entry, %1")
                                      .arg(other.identity.stockNumber);
        work.add(OdometerRead{read.value, read.unit, {}, why, {other.id, read.by, read.at}});
    }
}

/// Places that somebody called sound; what only signed work cleared is to be looked at here.
void bringSoundPlaces(CarWork& work, const CarState& other)
{
    std::map<std::pair<Moment, PersonId>, std::vector<PlaceId>> said;
    for (const auto& [place, seen] : other.seen.asKeyValueRange())
        if (seen.sound && !seen.byWork && !work.car().seen.contains(place) &&
            !work.car().hasFinding(place))
            said[{seen.at, seen.by}].push_back(place);
    for (const auto& [by, places] : said)
        work.add(PlacesFoundSound{places, {other.id, by.second, by.first}});
}

/// Work of a kind at its place, in a state that is asked for.
bool hasSuch(const CarState& car, const Operation& like, bool open)
{
    return std::ranges::any_of(car.operations, [&](const auto& entry) {
        const Operation& operation = entry.second;
        return operation.spec->id == like.spec->id && operation.place == like.place &&
               (open ? operation.isOpen() : operation.state != OperationState::Withdrawn);
    });
}

/// Open work of the entry that ends which nothing here would ask for: what is safety, what is not
/// in this house just now, and what was said there and is to be decided. Findings and the facts
/// bring their own; what closed work, a reading or a hand opened there is owed here as it was
/// there.
QStringList lostWith(const CarWork& work, const CarState& other)
{
    QStringList lost;
    for (const auto& [id, operation] : other.operations) {
        if (!operation.isOpen())
            continue;
        const bool isOwed = operation.origin == Origin::Trigger ||
                            operation.origin == Origin::Reading ||
                            operation.origin == Origin::ByHand;
        const bool isAway = operation.part || operation.isAway();
        if (isAway || (operation.spec->safety && !hasSuch(work.car(), operation, isOwed)))
            lost.append(work.titleOf(operation));
    }
    if (const int open = other.openDrafts(); open > 0)
        lost.append(say("%1 findings of its spoken walk-round, not decided yet").arg(open));
    return lost;
}

} // namespace

MaybeRefusal on(CarWork& work, const car::LinkDuplicate& c)
{
    if (auto no = work.mayJoinWith(c.other))
        return no;
    const CarState* other = work.context().other;
    work.add(DuplicateLinked{c.other, other->identity.stockNumber});
    // Facts before findings: they decide about what answers one.
    bringFacts(work, *other);
    // Findings before depths: a low one is a finding by itself, and may be there already.
    bringFindings(work, *other);
    bringTyres(work, *other);
    bringPaint(work, *other);
    bringOdometer(work, *other);
    bringSoundPlaces(work, *other);
    bringStand(work, *other);
    for (const AttachedPhoto& photo : other->photos)
        if (photo.finding.isNull())
            bringPhoto(work, *other, photo, {});
    if (const QStringList lost = lostWith(work, *other); !lost.empty())
        return Refusal{RefusalId::SecondEntryOpen, {lost.join(QStringLiteral("; "))}};
    return std::nullopt;
}

} // namespace ramplight::decision
