// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accesserror.h"
#include "domain/ids.h"
#include "domain/moment.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

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
    };
    Kind kind = Kind::WrongPin;
    Moment at;

    friend bool operator==(const SignInMark&, const SignInMark&) = default;
};

/// A name that is locked, and how it came to that.
struct PinLock
{
    PersonId person;
    Moment at;        ///< person and moment name the lock
    int failures = 0; ///< wrong PINs in the book before it

    friend bool operator==(const PinLock&, const PinLock&) = default;
};

/// Kept across restarts, per person, including persons who do not exist.
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
    /// Everybody whose book has a Lock.
    [[nodiscard]] virtual tl::expected<std::vector<PersonId>, AccessError> locked() = 0;
    /// A manager's reset.
    [[nodiscard]] virtual tl::expected<void, AccessError> clear(PersonId person) = 0;
};

/// Where the managers are told that a name was locked.
class LockAlarm
{
public:
    LockAlarm() = default;
    LockAlarm(const LockAlarm&) = delete;
    LockAlarm& operator=(const LockAlarm&) = delete;
    virtual ~LockAlarm() = default;

    /// On the disk when it returns; told once, however often one lock is raised.
    [[nodiscard]] virtual tl::expected<void, AccessError> raise(const PinLock& lock) = 0;
};

} // namespace ramplight
