// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/operationwords.h"

#include "domain/say.h"
#include "domain/words.h"
#include "domain/worktotals.h"
#include "kiosk/carwords.h"
#include "kiosk/timewords.h"

#include <algorithm>
#include <set>

namespace ramplight {

namespace {

/// "25 min", "3 h", "2 days": the longer, the rounder.
QString spanWords(qint64 ms)
{
    constexpr qint64 minuteMs = 60'000;
    constexpr qint64 hour = 60;
    constexpr qint64 day = 24 * hour;
    const qint64 minutes = std::max<qint64>(1, (ms + minuteMs / 2) / minuteMs);
    if (minutes < 2 * hour)
        return minutesWords(static_cast<int>(minutes));
    if (minutes < day)
        return say("%1 h").arg((minutes + hour / 2) / hour);
    const qint64 days = (minutes + day / 2) / day;
    return days == 1 ? say("a day") : say("%1 days").arg(days);
}

} // namespace

bool hasReadCautions(const Operation& operation, PersonId person)
{
    return operation.spec->cautions.isEmpty() || operation.cautionsReadBy.contains(person);
}

bool isRunBy(const Operation& operation, PersonId person)
{
    return std::ranges::any_of(operation.segments, [person](const Segment& segment) {
        return segment.running() && segment.person == person;
    });
}

QStringList openingTitles(const Operation& operation, const CarFacts& facts,
                          const Catalogue& catalogue)
{
    QStringList titles;
    if (!operation.isOpen())
        return titles;
    for (const Trigger& trigger : operation.spec->triggers) {
        if (trigger.ifFact && !facts.is(*trigger.ifFact))
            continue;
        if (const OperationSpec* spec = catalogue.find(trigger.opens))
            titles.append(sentence(spec->title));
    }
    return titles;
}

QStringList signatureLines(const Operation& operation, const SiteBook& book, Moment now)
{
    QStringList lines;
    for (const Signature& signature : operation.signatures) {
        QString line = say("%1: %2, %3")
                           .arg(sentence(words(signature.meaning)), book.nameOf(signature.by),
                                book.times().dayAndClock(signature.at, now));
        if (!signature.note.isEmpty())
            line += QStringLiteral(" (%1)").arg(signature.note);
        if (signature.voided)
            line += say(", void: opened again");
        lines.append(line);
    }
    return lines;
}

QString cautionReaders(const Operation& operation, const std::vector<CarEnvelope>& envelopes,
                       const SiteBook& book, Moment now)
{
    QStringList readers;
    std::set<PersonId> told;
    for (auto it = envelopes.rbegin(); it != envelopes.rend(); ++it) {
        const auto* read = std::get_if<CautionsRead>(&it->event);
        if (read == nullptr || read->operation != operation.id ||
            !operation.cautionsReadBy.contains(it->by) || !told.insert(it->by).second)
            continue;
        readers.append(
            QStringLiteral("%1 %2").arg(book.nameOf(it->by), book.times().shortly(it->at, now)));
    }
    return readers.isEmpty() ? QString()
                             : say("read by %1").arg(readers.join(QStringLiteral(", ")));
}

QString besideWork(Moment file, const Operation& operation, Moment now)
{
    if (operation.segments.empty())
        return {};
    Moment begun = operation.segments.front().start;
    Moment ended;
    for (const Segment& segment : operation.segments) {
        const Moment end = segment.running() ? now : segment.end;
        if (file >= segment.start && file <= end)
            return say("while the work ran");
        begun = std::min(begun, segment.start);
        ended = std::max(ended, end);
    }
    if (file < begun)
        return say("%1 before the work began").arg(spanWords(begun.ms - file.ms));
    if (file < ended)
        return say("while the work rested");
    // A stick's clock or this kiosk's is wrong.
    if (file > now)
        return say("later than this kiosk's clock");
    return say("%1 after the work").arg(spanWords(file.ms - ended.ms));
}

std::vector<PersonId> forgottenBy(const Operation& operation, const CarState& car,
                                  const HouseRules& rules, Moment now)
{
    std::vector<PersonId> people;
    for (const Segment& segment : operation.segments)
        if (segment.running() && isOverlong(segment.start, now, minutesOf(car, operation), rules))
            people.push_back(segment.person);
    return people;
}

QString forgottenWords(const Operation& operation, const CarState& car, const SiteBook& book,
                       Moment now)
{
    const std::vector<PersonId> people = forgottenBy(operation, car, book.rules(), now);
    if (people.empty())
        return {};
    Moment since = now;
    for (const Segment& segment : operation.segments)
        if (segment.running())
            since = std::min(since, segment.start);
    return say("%1: the timer runs since %2, for %3; this usually takes %4. Still working?")
        .arg(namesOf(people, book), book.times().shortly(since, now),
             minutesWords(minutesBetween(since, now)),
             minutesWords(minutesOf(car, operation).usual));
}

QString peopleOn(const Operation& operation, const SiteBook& book)
{
    std::vector<PersonId> people;
    for (const Segment& segment : operation.segments)
        if (segment.running())
            people.push_back(segment.person);
    return namesOf(people, book);
}

} // namespace ramplight
