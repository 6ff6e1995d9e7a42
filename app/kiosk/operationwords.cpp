// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/operationwords.h"

#include "domain/words.h"
#include "kiosk/carwords.h"

#include <QCoreApplication>

#include <algorithm>
#include <set>

namespace ramplight {

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
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

QString peopleOn(const Operation& operation, const SiteBook& book)
{
    std::vector<PersonId> people;
    for (const Segment& segment : operation.segments)
        if (segment.running())
            people.push_back(segment.person);
    return namesOf(people, book);
}

} // namespace ramplight
