// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/carrows.h"

#include "domain/factwords.h"
#include "domain/retention.h"
#include "domain/say.h"
#include "domain/worktotals.h"
#include "kiosk/carwords.h"
#include "kiosk/historywords.h"
#include "kiosk/photourl.h"

#include <algorithm>

namespace ramplight {

std::vector<OperationRow> operationRows(const CarState& car, const SiteBook& book, Moment now)
{
    const HouseRules& rules = book.rules();
    std::vector<OperationRow> rows;
    for (const auto& [id, operation] : car.operations) {
        OperationRow row;
        row.operationId = id.value;
        row.title = operationTitle(operation.spec, operation.place, rules);
        row.placeId = operation.place.text;
        row.placeWords = sentence(placeWords(operation.place, rules));
        row.band = bandOf(operation.state);
        row.stateWord = words(operation.state);
        row.open = operation.isOpen();
        row.safety = operation.spec->safety;
        row.check = operation.spec->secondPerson == SecondPerson::Check;
        row.skill = nameOf(operation.spec->skill);
        row.skillWords = words(operation.spec->skill);
        std::vector<PersonId> people;
        for (const Segment& segment : operation.segments)
            if (segment.running())
                people.push_back(segment.person);
        if (people.empty() && !operation.assigned.isNull())
            people.push_back(operation.assigned);
        row.who = row.open ? namesOf(people, book) : QString();
        const int minutes = minutesUntil(operation, now);
        const int usual = minutesOf(car, operation).usual;
        row.minutesWords =
            minutes == 0 ? say("usually %1").arg(minutesWords(usual))
                         : say("%1 of usually %2").arg(minutesWords(minutes), minutesWords(usual));
        row.whyWords = whyWords(car, operation, rules);
        row.notYetWords = operation.isOpen() ? whyNotYet(car, operation, rules, now) : QString();
        row.situationWords = situationWords(operation, book.times(), now);
        for (const Signature& signature : operation.signatures)
            if (!signature.voided)
                row.signedWords =
                    say("%1: %2, %3")
                        .arg(sentence(words(signature.meaning)), book.nameOf(signature.by),
                             book.times().dayAndClock(signature.at, now));
        rows.push_back(row);
    }
    // Open before closed, then by place in the order of a walk-round, safety first at each place.
    const auto rank = [](const OperationRow& row) {
        const auto& places = allPlaces();
        const auto at = std::ranges::find(places, PlaceId{row.placeId}, &PlaceInfo::id);
        return std::tuple(!row.open, at - places.begin(), !row.safety);
    };
    std::ranges::stable_sort(rows, {}, rank);
    return rows;
}

std::vector<FindingRow> findingRows(const CarState& car, const SiteBook& book, Moment now)
{
    const HouseRules& rules = book.rules();
    std::vector<FindingRow> rows;
    for (const auto& [id, finding] : car.findings) {
        const FindingVersion& first = finding.versions.front();
        const FindingVersion& last = finding.versions.back();
        FindingRow row;
        row.findingId = id.value;
        row.placeId = last.data.place.text;
        row.words = sentence(findingWords(last.data, rules));
        row.quote = last.data.quote;
        row.byWords = QStringLiteral("%1, %2").arg(book.nameOf(first.by),
                                                   book.times().dayAndClock(first.at, now));
        row.stands = last.stands;
        row.corrected = finding.versions.size() > 1;
        if (row.corrected)
            row.correctedWords =
                say("corrected by %1, %2: %3; before: %4")
                    .arg(book.nameOf(last.by), book.times().dayAndClock(last.at, now), last.reason,
                         findingWords(first.data, rules));
        row.undecided = finding.undecided;
        row.disclosed = finding.disclosed;
        QStringList answers;
        for (const auto& [operationId, operation] : car.operations)
            if (operation.state != OperationState::Withdrawn &&
                std::ranges::find(operation.findings, id) != operation.findings.end())
                answers.append(operationTitle(operation.spec, operation.place, rules));
        if (finding.disclosed)
            answers.append(say("left and disclosed"));
        if (answers.isEmpty() && finding.undecided)
            answers.append(say("nobody has decided yet"));
        row.answerWords = answers.join(QStringLiteral(", "));
        for (const AttachedPhoto& photo : car.photos)
            if (photo.finding == id && car.removedPhoto(photo.photo) == nullptr)
                row.photoUrls.append(photoUrl(photo.photo, PhotoSize::Panel));
        for (const AttachedPhoto& proof : car.proofs)
            if (proof.finding == id && car.removedPhoto(proof.photo) == nullptr)
                row.photoUrls.append(photoUrl(proof.photo, PhotoSize::Panel));
        rows.push_back(row);
    }
    return rows;
}

PhotoRow photoRow(const AttachedPhoto& photo, int at, const SiteBook& book, Moment now)
{
    PhotoRow row;
    // The same picture may be attached to two operations: the place in the list makes it one row.
    row.photoKey = QStringLiteral("%1/%2").arg(at).arg(photo.photo.text);
    row.photoId = photo.photo.text;
    row.url = photoUrl(photo.photo, PhotoSize::Panel);
    row.fullUrl = photoUrl(photo.photo, PhotoSize::Full);
    row.moment = nameOf(photo.moment);
    row.momentWords = words(photo.moment);
    row.placeWords = photo.place.isEmpty() ? QString() : placeWords(photo.place, book.rules());
    row.byWords =
        QStringLiteral("%1, %2").arg(book.nameOf(photo.by), book.times().shortly(photo.at, now));
    row.operationId = photo.operation.value;
    row.findingId = photo.finding.value;
    return row;
}

void tellRemoval(PhotoRow& row, const CarState& car)
{
    if (const PhotoFate* fate = car.removedPhoto(PhotoId{row.photoId})) {
        row.goneWords = removedWords(*fate);
        row.url.clear();
        row.fullUrl.clear();
    }
}

std::vector<PhotoRow> photoRows(const CarState& car, const SiteBook& book, Moment now)
{
    std::vector<PhotoRow> rows;
    int at = 0;
    for (const AttachedPhoto& photo : car.photos)
        rows.push_back(photoRow(photo, ++at, book, now));
    for (const AttachedPhoto& proof : car.proofs) {
        rows.push_back(photoRow(proof, ++at, book, now));
        rows.back().photoKey.prepend(QStringLiteral("proof/"));
        rows.back().momentWords = say("shows a correction");
    }
    for (PhotoRow& row : rows)
        tellRemoval(row, car);
    std::ranges::reverse(rows);
    return rows;
}

std::vector<HoldRow> holdRows(const CarState& car, const SiteBook& book, Moment now)
{
    std::vector<HoldRow> rows;
    const bool inPrep = car.exists() && !car.released && !car.left;
    if (inPrep)
        for (const Hold& hold : holds(car, book.rules(), now)) {
            HoldRow row;
            row.kind = nameOf(hold.kind);
            row.holdId = QStringLiteral("%1/%2/%3/%4")
                             .arg(row.kind)
                             .arg(hold.operation.value)
                             .arg(hold.place.text)
                             .arg(hold.finding.value);
            row.words = hold.words;
            row.safety = hold.safety;
            row.operationId = hold.operation.value;
            row.findingId = hold.finding.value;
            row.placeId = hold.place.text;
            row.opensKind = hold.opens;
            switch (hold.kind) {
            case HoldKind::NotAppraised:
                row.wayWords = say("Finish the appraisal");
                break;
            case HoldKind::UndecidedFinding:
            case HoldKind::SafetyPlaceNotSeen:
            case HoldKind::TooOld:
                row.wayWords = hold.operation.isNull() ? say("Open an operation") : say("Open it");
                break;
            case HoldKind::SafetyOperation:
            case HoldKind::OpenOperation:
            case HoldKind::Isolated:
                row.wayWords = say("Open it");
                break;
            case HoldKind::SpokenNotReviewed:
                row.wayWords = say("Review what was said");
                break;
            case HoldKind::Curing:
                break;
            }
            rows.push_back(row);
        }
    return rows;
}

std::vector<HistoryRow> historyRows(const std::vector<CarEnvelope>& envelopes, const CarState& car,
                                    const SiteBook& book, Moment now)
{
    std::vector<HistoryRow> rows;
    CarFacts facts;
    for (const CarEnvelope& envelope : envelopes) {
        HistoryWords told = historyWords(envelope.event, car, book);
        if (const auto* arrived = std::get_if<CarArrived>(&envelope.event))
            facts = arrived->facts;
        else if (const auto* corrected = std::get_if<FactsCorrected>(&envelope.event)) {
            told.detail = dotted(changeWords(facts, corrected->facts) << corrected->reason);
            facts = corrected->facts;
        }
        HistoryRow row;
        row.seq = envelope.seq;
        row.dayWords = sentence(book.times().day(book.times().dateOf(envelope.at), now));
        row.timeWords = book.times().clock(envelope.at);
        row.who = envelope.by.isNull() ? say("the house") : book.nameOf(envelope.by);
        row.what = told.what;
        row.detail = told.detail;
        row.operationId = told.operation.value;
        rows.push_back(row);
    }
    std::ranges::reverse(rows);
    return rows;
}

std::vector<ChoiceRow> kindChoices(const Catalogue& catalogue, const PlaceId& place)
{
    const PlaceInfo* info = placeInfo(place);
    std::vector<ChoiceRow> kinds;
    for (const OperationSpec& spec : catalogue.operations)
        if (info == nullptr || spec.isFor(info->kind))
            kinds.push_back({spec.id, sentence(spec.title), sentence(words(spec.skill)), false});
    std::ranges::stable_sort(kinds, {}, &ChoiceRow::group);
    return kinds;
}

} // namespace ramplight
