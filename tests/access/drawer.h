// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/lockalarms.h"
#include "access/signin.h"
#include "pins.h"

#include <algorithm>
#include <map>
#include <optional>
#include <vector>

namespace ramplight::test {

inline constexpr PersonId nobody{77};

/// What a database would keep; each call can be made to fail.
struct Drawer : CredentialStore, FailureBook, GuessAlarm
{
    std::map<PersonId, QByteArray> hashes;
    std::map<QString, PersonId> badges;
    std::map<PersonId, std::vector<SignInMark>> book;
    std::vector<PinGuesses> alarms;
    bool readingFails = false;
    bool writingFails = false;
    std::optional<PersonId> alarmFails; ///< of whose name

    tl::expected<std::optional<QByteArray>, AccessError> pinHash(PersonId person) override
    {
        if (readingFails)
            return tl::unexpected(AccessError::StoreAway);
        const auto found = hashes.find(person);
        return found == hashes.end() ? std::optional<QByteArray>() : found->second;
    }
    tl::expected<void, AccessError> setPinHash(PersonId person, const QByteArray& kept) override
    {
        if (writingFails)
            return tl::unexpected(AccessError::StoreAway);
        hashes[person] = kept;
        return {};
    }
    tl::expected<std::optional<PersonId>, AccessError> personOfBadge(const QString& code) override
    {
        if (readingFails)
            return tl::unexpected(AccessError::StoreAway);
        const auto found = badges.find(code);
        return found == badges.end() ? std::optional<PersonId>() : found->second;
    }
    tl::expected<void, AccessError> add(PersonId person, const SignInMark& mark) override
    {
        if (writingFails)
            return tl::unexpected(AccessError::StoreAway);
        book[person].push_back(mark);
        return {};
    }
    tl::expected<std::vector<SignInMark>, AccessError> marks(PersonId person) override
    {
        if (readingFails)
            return tl::unexpected(AccessError::StoreAway);
        return book[person];
    }
    tl::expected<std::map<PersonId, std::vector<SignInMark>>, AccessError>
    marksSince(Moment from) override
    {
        if (readingFails)
            return tl::unexpected(AccessError::StoreAway);
        auto since = book;
        for (auto& [person, marks] : since)
            std::erase_if(marks, [from](const SignInMark& mark) { return mark.at < from; });
        return since;
    }
    tl::expected<std::vector<PersonId>, AccessError> guessedAt() override
    {
        if (readingFails)
            return tl::unexpected(AccessError::StoreAway);
        std::vector<PersonId> people;
        for (const auto& [person, marks] : book)
            if (!guessesIn(person, marks).empty() || (person.isNull() && !marks.empty()))
                people.push_back(person);
        return people;
    }
    tl::expected<void, AccessError> raise(const PinGuesses& found) override
    {
        if (alarmFails == found.person)
            return tl::unexpected(AccessError::StoreAway);
        if (std::ranges::find(alarms, found) == alarms.end())
            alarms.push_back(found);
        return {};
    }
    tl::expected<void, AccessError> clear(PersonId person) override
    {
        if (writingFails)
            return tl::unexpected(AccessError::StoreAway);
        book.erase(person);
        return {};
    }

    [[nodiscard]] int count(PersonId person, SignInMark::Kind kind)
    {
        const auto& marks = book[person];
        return static_cast<int>(std::count_if(
            marks.begin(), marks.end(), [kind](const auto& mark) { return mark.kind == kind; }));
    }
};

inline SignIn over(Drawer& drawer, PinCost cost = cheap)
{
    return SignIn(PinHasher(Secret(QByteArray(32, 'p')), cost), drawer, drawer, drawer);
}

inline Moment after(std::chrono::milliseconds span)
{
    return {noon.ms + span.count()};
}

} // namespace ramplight::test
