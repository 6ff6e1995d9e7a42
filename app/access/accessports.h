// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accesserror.h"
#include "domain/ids.h"
#include "domain/moment.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <map>
#include <optional>
#include <vector>

// What sign-in needs kept. Implemented over the database by app/storage. Calls may block and come
// from whatever thread SignIn is used on; error of every call: StoreAway.
namespace ramplight {

/// Hashes and badges of the staff.
class CredentialStore
{
public:
    CredentialStore() = default;
    CredentialStore(const CredentialStore&) = delete;
    CredentialStore& operator=(const CredentialStore&) = delete;
    virtual ~CredentialStore() = default;

    /// Nothing when the person is unknown, deactivated or has no PIN yet.
    [[nodiscard]] virtual tl::expected<std::optional<QByteArray>, AccessError>
    pinHash(PersonId person) = 0;
    [[nodiscard]] virtual tl::expected<void, AccessError> setPinHash(PersonId person,
                                                                     const QByteArray& kept) = 0;
    /// Code without the badge prefix, in capitals. Nothing when no active person has this badge.
    [[nodiscard]] virtual tl::expected<std::optional<PersonId>, AccessError>
    personOfBadge(const QString& code) = 0;
};

/// One line of a person's failure book.
struct SignInMark
{
    enum class Kind {
        WrongPin,  ///< a wrong PIN was entered
        Success,   ///< a right one ended a row of failures
        ClockBack, ///< the clock was found behind the last mark; the delay began anew here
        Lock,      ///< too many failures: nobody signs in as this person until a manager resets
        Row,       ///< so many failures in a row that the delay is the longest
        Spread,    ///< wrong PINs of many people within minutes; in nobody's book
    };
    Kind kind = Kind::WrongPin;
    Moment at;

    friend bool operator==(const SignInMark&, const SignInMark&) = default;
};

/// Somebody guesses: what the managers are to be told of.
struct PinGuesses
{
    PersonId person; ///< whose PIN; null: those of several people
    Moment at;       ///< person, moment and kind name it
    int failures = 0;
    SignInMark::Kind kind = SignInMark::Kind::Lock; ///< Lock, Row or Spread
    int people = 1;

    friend bool operator==(const PinGuesses&, const PinGuesses&) = default;
};

/// Kept across restarts, per person, including persons who do not exist; and for nobody (a null
/// id), what is marked about several of them.
class FailureBook
{
public:
    FailureBook() = default;
    FailureBook(const FailureBook&) = delete;
    FailureBook& operator=(const FailureBook&) = delete;
    virtual ~FailureBook() = default;

    /// On the disk when it returns.
    [[nodiscard]] virtual tl::expected<void, AccessError> add(PersonId person,
                                                              const SignInMark& mark) = 0;
    /// In the order in which they were added, whatever their times say. Marks of more than a year
    /// ago may be left out, except Lock.
    [[nodiscard]] virtual tl::expected<std::vector<SignInMark>, AccessError>
    marks(PersonId person) = 0;
    /// The same of everybody, as far as a mark's time is not before that.
    [[nodiscard]] virtual tl::expected<std::map<PersonId, std::vector<SignInMark>>, AccessError>
    marksSince(Moment from) = 0;
    /// Everybody whose book has a mark that managers are told of, nobody's among them.
    [[nodiscard]] virtual tl::expected<std::vector<PersonId>, AccessError> guessedAt() = 0;
    /// A manager's reset.
    [[nodiscard]] virtual tl::expected<void, AccessError> clear(PersonId person) = 0;
};

/// Where the managers are told that somebody guesses.
class GuessAlarm
{
public:
    GuessAlarm() = default;
    GuessAlarm(const GuessAlarm&) = delete;
    GuessAlarm& operator=(const GuessAlarm&) = delete;
    virtual ~GuessAlarm() = default;

    /// On the disk when it returns; told once, however often the same is raised.
    [[nodiscard]] virtual tl::expected<void, AccessError> raise(const PinGuesses& guesses) = 0;
};

} // namespace ramplight
