// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/lockalarms.h"

#include "access/signinguard.h"
#include "log/log.h"

namespace ramplight {

namespace {

using Kind = SignInMark::Kind;

QString nameOf(const PinGuesses& guesses)
{
    const QString name =
        QStringLiteral("pin-alarm/%1/%2").arg(guesses.person.value).arg(guesses.at.ms);
    return guesses.kind == Kind::Row ? name + QStringLiteral("/row") : name;
}

/// A spread's counts are those of its moment. A row that was ended since counts no longer, but
/// there were at least so many when it was marked.
tl::expected<std::vector<PinGuesses>, AccessError> spreadsIn(FailureBook& book)
{
    const GuardRules rules;
    const auto nobodys = book.marks({});
    if (!nobodys)
        return tl::unexpected(nobodys.error());
    std::vector<PinGuesses> all;
    for (const SignInMark& mark : *nobodys) {
        if (mark.kind != Kind::Spread)
            continue;
        auto marks =
            book.marksSince({mark.at.ms - std::chrono::milliseconds(rules.spreadWindow).count()});
        if (!marks)
            return tl::unexpected(marks.error());
        for (auto& [person, one] : *marks)
            std::erase_if(one, [&](const SignInMark& later) { return later.at > mark.at; });
        all.push_back(
            spreadIn(rules, *marks, mark.at)
                .value_or(PinGuesses{
                    {}, mark.at, rules.spreadFailures, Kind::Spread, rules.spreadPeople}));
    }
    return all;
}

tl::expected<std::vector<PinGuesses>, AccessError> owedIn(PersonId person, FailureBook& book)
{
    if (person.isNull())
        return spreadsIn(book);
    const auto marks = book.marks(person);
    if (!marks)
        return tl::unexpected(marks.error());
    return guessesIn(person, *marks);
}

} // namespace

tl::expected<void, AccessError> HouseAlarm::raise(const PinGuesses& guesses)
{
    const auto told =
        m_house.run(SiteRequest{CommandId{nameOf(guesses)},
                                {},
                                site::RaisePinAlarm{guesses.person, guesses.failures,
                                                    guesses.kind == Kind::Lock, guesses.people},
                                {}});
    if (told || std::holds_alternative<Refusal>(told.error()))
        return {};
    log::warn(QStringLiteral("the PIN alarm of person %1 is not in the ledger yet: %2")
                  .arg(guesses.person.value)
                  .arg(words(told.error())));
    return tl::unexpected(AccessError::StoreAway);
}

tl::expected<void, AccessError> tellGuesses(PersonId person, FailureBook& book, GuessAlarm& alarm)
{
    const auto owed = owedIn(person, book);
    if (!owed)
        return tl::unexpected(owed.error());
    tl::expected<void, AccessError> all;
    for (const PinGuesses& guesses : *owed)
        if (const auto told = alarm.raise(guesses); !told)
            all = told;
    return all;
}

tl::expected<void, AccessError> tellGuesses(FailureBook& book, GuessAlarm& alarm)
{
    const auto people = book.guessedAt();
    if (!people)
        return tl::unexpected(people.error());
    tl::expected<void, AccessError> all;
    for (const PersonId person : *people)
        if (const auto told = tellGuesses(person, book, alarm); !told)
            all = told;
    return all;
}

} // namespace ramplight
