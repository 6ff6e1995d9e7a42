// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/carwords.h"

#include "domain/holds.h"
#include "domain/openings.h"
#include "domain/say.h"
#include "kiosk/kioskenums.h"

#include <algorithm>

namespace ramplight {

namespace {

QString titlesOf(const CarState& car, const std::vector<OperationId>& ids, const HouseRules& rules)
{
    QStringList titles;
    for (const OperationId id : ids)
        if (const Operation* operation = car.operation(id))
            titles.append(operationTitle(operation->spec, operation->place, rules));
    return titles.join(QStringLiteral(", "));
}

} // namespace

int bandOf(OperationState state)
{
    switch (state) {
    case OperationState::Waiting:
        return Wall::Waiting;
    case OperationState::InHand:
        return Wall::InHand;
    case OperationState::Paused:
        return Wall::Paused;
    case OperationState::AwaitingCheck:
        return Wall::AwaitingCheck;
    case OperationState::Closed:
        return Wall::Closed;
    case OperationState::LeftAsIs:
        return Wall::LeftAsIs;
    case OperationState::Blocked:
        return Wall::Blocked;
    case OperationState::Withdrawn:
        return Wall::NoBand;
    }
    return Wall::NoBand;
}

QVariantMap marksOf(const std::vector<MarkedPlace>& marks)
{
    QVariantMap map;
    for (const MarkedPlace& marked : marks) {
        int mark = Wall::Plain;
        switch (marked.mark) {
        case PlaceMark::Outstanding:
            mark = Wall::Outstanding;
            break;
        case PlaceMark::Closed:
            mark = Wall::Done;
            break;
        case PlaceMark::NotLookedAt:
            mark = Wall::NotLookedAt;
            break;
        }
        map.insert(marked.place.text, mark);
    }
    return map;
}

QString words(CarStatus status)
{
    switch (status) {
    case CarStatus::Arriving:
        return say("arriving");
    case CarStatus::InPrep:
        return say("in prep");
    case CarStatus::Held:
        return say("held by safety");
    case CarStatus::ReadyForRelease:
        return say("ready for release");
    case CarStatus::Released:
        return say("released");
    case CarStatus::Withdrawn:
        return say("withdrawn");
    }
    return {};
}

QString statusWords(const CarCard& card, Moment now)
{
    const CarStatus status = card.statusAt(now);
    return words(status == CarStatus::Held && !card.isHeldBySafety(now) ? CarStatus::InPrep
                                                                        : status);
}

QString sentence(QString words)
{
    if (!words.isEmpty())
        words[0] = words.at(0).toUpper();
    return words;
}

QString makeModelOf(const Identity& identity)
{
    return QStringLiteral("%1 %2").arg(identity.make, identity.model).trimmed();
}

bool answersTo(const Identity& identity, const QString& words)
{
    const auto folded = [](QString text) {
        return text.remove(QLatin1Char(' ')).remove(QLatin1Char('-')).toCaseFolded();
    };
    const QString wanted = folded(words);
    return wanted.isEmpty() || folded(identity.stockNumber).contains(wanted) ||
           folded(identity.registration).contains(wanted) ||
           folded(makeModelOf(identity)).contains(wanted) || folded(identity.vin).endsWith(wanted);
}

QString shapeColourOf(const Identity& identity)
{
    return dotted({words(identity.shape), identity.colour});
}

QString placeOf(BayId bay, const QString& parking, const SiteBook& book)
{
    return bay.isNull() ? parking : say("bay %1").arg(book.bayOf(bay));
}

QString namesOf(const std::vector<PersonId>& people, const SiteBook& book)
{
    QStringList names;
    for (const PersonId person : people)
        names.append(book.nameOf(person));
    return names.join(QStringLiteral(", "));
}

QStringList signedForWords(const CarState& car, const SiteBook& book)
{
    int safety = 0;
    const int left = thingsLeft(car);
    std::set<PersonId> hands;
    for (const auto& [id, operation] : car.operations) {
        if (!operation.spec->safety || operation.state != OperationState::Closed)
            continue;
        ++safety;
        hands.merge(operation.doers());
        for (const Signature& signature : operation.signatures)
            hands.insert(signature.by);
    }
    const auto found = std::ranges::count_if(
        car.findings, [](const auto& finding) { return finding.second.stands(); });
    QStringList lines;
    lines.append(safety == 1 ? say("One safety item is closed, with its readings.")
                             : say("%1 safety items are closed, with their readings.").arg(safety));
    if (!hands.empty())
        lines.append(say("Names under them: %1.")
                         .arg(namesOf(std::vector<PersonId>(hands.begin(), hands.end()), book)));
    lines.append(found == 0   ? say("Nothing was found.")
                 : found == 1 ? say("One finding has its answer.")
                              : say("%1 findings have their answers.").arg(found));
    lines.append(left == 0   ? say("Nothing is left as it is.")
                 : left == 1 ? say("One thing is left as it is; the buyer reads it in the record.")
                             : say("%1 things are left as they are; the buyer reads them in the "
                                   "record.")
                                   .arg(left));
    lines.append(car.photos.empty() ? say("There are no photos.")
                                    : say("%1 photos go with it.").arg(car.photos.size()));
    return lines;
}

bool isLate(QDate promised, Moment now, const SiteBook& book)
{
    return promised.isValid() && promised < book.times().dateOf(now);
}

QString dotted(const QStringList& parts)
{
    QStringList kept;
    std::ranges::copy_if(parts, std::back_inserter(kept),
                         [](const QString& part) { return !part.isEmpty(); });
    return kept.join(QStringLiteral(" · "));
}

QString whyWords(const CarState& car, const Operation& operation, const HouseRules& rules)
{
    const bool forNothing = operation.findings.empty() && operation.fromReadings.empty();
    if (forNothing && keepsCarApart(operation) &&
        (operation.origin == Origin::Reading || operation.origin == Origin::Finding))
        return say("what it was for was corrected, but it was begun");
    switch (operation.origin) {
    case Origin::Baseline:
        return say("every car gets it");
    case Origin::Fact:
        return say("because of what the car has");
    case Origin::ByHand:
        return operation.reason.isEmpty() ? say("opened by hand")
                                          : say("opened by hand: %1").arg(operation.reason);
    case Origin::Trigger: {
        const QString after = titlesOf(car, operation.restsOn, rules);
        return after.isEmpty() ? say("after other work") : say("after %1").arg(after);
    }
    case Origin::Reading:
        for (const auto& [id, other] : car.operations)
            for (const Reading& reading : other.readings)
                if (std::ranges::find(operation.fromReadings, reading.id) !=
                    operation.fromReadings.end()) {
                    const auto spec =
                        std::ranges::find(other.spec->readings, reading.key, &ReadingSpec::key);
                    if (spec != other.spec->readings.end())
                        return say("measured: %1 %2")
                            .arg(spec->title, readingWords(*spec, reading.value));
                }
        return say("because of a reading");
    case Origin::Finding:
        break;
    }
    QStringList found;
    for (const FindingId id : operation.findings)
        if (const Finding* finding = car.finding(id); finding != nullptr && finding->stands())
            found.append(findingWords(finding->data(), rules));
    return found.isEmpty() ? say("from the appraisal")
                           : say("from the appraisal: %1").arg(found.join(QStringLiteral("; ")));
}

QString situationWords(const Operation& operation, const TimeWords& times, Moment now)
{
    if (operation.state == OperationState::Blocked && operation.part) {
        QString words = say("waits for a part: %1").arg(operation.part->part);
        if (!operation.part->supplier.isEmpty())
            words += say(", ordered with %1").arg(operation.part->supplier);
        if (operation.part->due.isValid())
            words +=
                (times.isOver(operation.part->due, now) ? say(", was due %1") : say(", due %1"))
                    .arg(times.day(operation.part->due, now));
        return words;
    }
    if (operation.isAway()) {
        QString words = say("with %1").arg(operation.outside->firm);
        if (operation.outside->dueBack.isValid())
            words += (times.isOver(operation.outside->dueBack, now) ? say(", was due back %1")
                                                                    : say(", due back %1"))
                         .arg(times.day(operation.outside->dueBack, now));
        if (operation.outside->keys > 0)
            words += say(", keys given along: %1").arg(operation.outside->keys);
        if (!operation.outside->document.isEmpty())
            words += QStringLiteral(", %1").arg(operation.outside->document);
        return words;
    }
    if (operation.state == OperationState::LeftAsIs)
        return say("left as it is, for the buyer: %1").arg(operation.leftWords);
    if (operation.state == OperationState::Withdrawn)
        return say("not needed any more: %1").arg(operation.withdrawnWhy);
    if (operation.isOpen() && !operation.sentBackWhy.isEmpty())
        return say("sent back: %1").arg(operation.sentBackWhy);
    if (operation.state == OperationState::Closed && operation.waitUntil > now)
        return say("%1, %2 more")
            .arg(operation.spec->wait.reason,
                 minutesWords(std::max(1, minutesBetween(now, operation.waitUntil))));
    if (operation.outside && operation.outside->keysMissing() > 0)
        return say("keys still with %1: %2")
            .arg(operation.outside->firm)
            .arg(operation.outside->keysMissing());
    return {};
}

} // namespace ramplight
