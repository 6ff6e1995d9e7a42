// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/operationrows.h"

#include "domain/checking.h"
#include "domain/clockwords.h"
#include "domain/holds.h"
#include "domain/retention.h"
#include "domain/say.h"
#include "domain/words.h"
#include "domain/worktotals.h"
#include "kiosk/carrows.h"
#include "kiosk/carwords.h"
#include "kiosk/photourl.h"

#include <algorithm>

namespace ramplight {

namespace {

/// Its own pictures, and those of the finding that it answers, taken before the work.
bool isOf(const AttachedPhoto& photo, const Operation& operation)
{
    if (operation.id.isNull())
        return false;
    if (!photo.operation.isNull())
        return photo.operation == operation.id;
    return photo.moment == PhotoMoment::Before &&
           std::ranges::find(operation.findings, photo.finding) != operation.findings.end();
}

/// For each picture that it asks for the one that is there, or null: so many of a moment, whichever
/// of them it is.
std::vector<const AttachedPhoto*> photosAskedFor(const Operation& operation, const CarState& car)
{
    std::vector<const AttachedPhoto*> answers;
    std::map<PhotoMoment, int> asked;
    for (const PhotoSpec& spec : operation.spec->photos) {
        const auto rank = static_cast<std::size_t>(asked[spec.moment]++);
        const std::vector<const AttachedPhoto*> there = evidencePhotos(operation, car, spec.moment);
        answers.push_back(rank < there.size() ? there[rank] : nullptr);
    }
    return answers;
}

} // namespace

std::vector<CautionRow> cautionRows(const Operation& operation)
{
    std::vector<CautionRow> rows;
    for (const QString& caution : operation.spec->cautions)
        rows.push_back({static_cast<int>(rows.size()) + 1, caution});
    return rows;
}

std::vector<PhotoRow> photoRowsOf(const Operation& operation, const CarState& car,
                                  const SiteBook& book, Moment now)
{
    const std::vector<AttachedPhoto>& all = car.photos;
    std::vector<PhotoRow> photos;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (isOf(all[i], operation)) {
            photos.push_back(photoRow(all[i], static_cast<int>(i) + 1, book, now));
            tellRemoval(photos.back(), car);
        }
    return photos;
}

std::vector<PhotoNeedRow> photoNeedRows(const Operation& operation, const CarState& car,
                                        const SiteBook& book, Moment now)
{
    const std::vector<const AttachedPhoto*> answers = photosAskedFor(operation, car);
    std::vector<PhotoNeedRow> needs;
    std::map<PhotoMoment, int> asked;
    for (std::size_t at = 0; at < answers.size(); ++at) {
        const PhotoSpec& spec = operation.spec->photos[at];
        PhotoNeedRow row;
        row.rank = asked[spec.moment]++;
        row.needId = QStringLiteral("%1/%2").arg(nameOf(spec.moment)).arg(row.rank);
        row.moment = nameOf(spec.moment);
        row.momentWords = words(spec.moment);
        row.title = spec.title;
        if (const AttachedPhoto* photo = answers[at]) {
            row.present = true;
            if (const PhotoFate* fate = car.removedPhoto(photo->photo))
                row.goneWords = removedWords(*fate);
            else
                row.url = photoUrl(photo->photo, PhotoSize::Panel);
            row.whenWords = book.times().shortly(photo->at, now);
        }
        needs.push_back(row);
    }
    return needs;
}

std::vector<PhotoRow> morePhotoRows(const Operation& operation, const CarState& car,
                                    const SiteBook& book, Moment now)
{
    const std::vector<const AttachedPhoto*> answers = photosAskedFor(operation, car);
    const std::vector<AttachedPhoto>& all = car.photos;
    std::vector<PhotoRow> photos;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (isOf(all[i], operation) && std::ranges::find(answers, &all[i]) == answers.end()) {
            photos.push_back(photoRow(all[i], static_cast<int>(i) + 1, book, now));
            tellRemoval(photos.back(), car);
        }
    return photos;
}

PhotoMoment likelyMoment(const Operation& operation)
{
    if (!operation.isOpen() || operation.state == OperationState::AwaitingCheck)
        return PhotoMoment::After;
    return operation.wasStarted() ? PhotoMoment::During : PhotoMoment::Before;
}

PhotoId guidePhoto(const Operation& operation, const CarState& car, PhotoMoment moment, int rank)
{
    if (moment == PhotoMoment::Before)
        return {};
    PhotoId guide;
    PhotoId ofPlace;
    int at = 0;
    for (const AttachedPhoto& photo : car.photos) {
        if (photo.moment != PhotoMoment::Before || car.removedPhoto(photo.photo) != nullptr)
            continue;
        if (!operation.place.isEmpty() && photo.place == operation.place)
            ofPlace = photo.photo;
        if (isOf(photo, operation) && at++ <= rank)
            guide = photo.photo;
    }
    return guide.isEmpty() ? ofPlace : guide;
}

std::vector<SpanRow> spanRows(const Operation& operation, const CarState& car, const SiteBook& book,
                              Moment now)
{
    const TimeWords& times = book.times();
    const Minutes usual = minutesOf(car, operation);
    std::vector<SpanRow> rows;
    for (const Segment& segment : operation.segments) {
        SpanRow row;
        row.segmentId = segment.id.value;
        row.personId = segment.person.value;
        row.who = book.nameOf(segment.person);
        row.running = segment.running();
        row.spanWords =
            row.running ? say("since %1").arg(times.dayAndClock(segment.start, now))
                        : say("%1 to %2")
                              .arg(times.dayAndClock(segment.start, now), times.clock(segment.end));
        row.measured = row.running ? minutesBetween(segment.start, now) : segment.measuredMinutes();
        row.minutes = row.running ? row.measured : segment.minutes();
        row.minutesWords = minutesWords(row.minutes);
        row.corrected = segment.correctedMinutes.has_value();
        if (row.corrected)
            row.correctedWords =
                say("measured %1; corrected by %2: %3")
                    .arg(minutesWords(row.measured), book.nameOf(segment.correctedBy),
                         segment.correctionReason);
        row.clockWords = clockWords(segment.clockSetBack, segment.ranMs.has_value());
        row.overlong = !row.corrected && isOverlong(segment.start, row.running ? now : segment.end,
                                                    usual, book.rules());
        rows.push_back(row);
    }
    return rows;
}

std::vector<ChoiceRow> colleagueRows(const Operation& operation, const CarState& car,
                                     PersonId signedIn, const SiteBook& book, Moment now)
{
    std::vector<ChoiceRow> rows;
    if (operation.id.isNull())
        return rows;
    for (const auto& [id, person] : book.site().people)
        if (person.active && id != signedIn &&
            mayBeGiven(person, car, operation, book.rules(), book.times().dateOf(now)))
            rows.push_back({QString::number(id.value), book.nameOf(id), {}, false});
    return rows;
}

std::vector<ChoiceRow> coveredRows(const Operation& check, const CarState& car,
                                   const HouseRules& rules)
{
    std::vector<ChoiceRow> rows;
    if (check.spec->secondPerson != SecondPerson::Check)
        return rows;
    const QStringList& kinds = check.spec->checksWorkOf;
    for (const auto& [id, other] : car.operations)
        if (other.state == OperationState::Closed && id != check.id &&
            (kinds.contains(other.spec->id) || kinds.contains(QStringLiteral("*")) ||
             std::ranges::find(check.restsOn, id) != check.restsOn.end()))
            rows.push_back({QString::number(id.value),
                            operationTitle(other.spec, other.place, rules),
                            {},
                            false});
    return rows;
}

} // namespace ramplight
