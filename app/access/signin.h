// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"
#include "access/pinhasher.h"
#include "access/pinpolicy.h"
#include "access/secret.h"
#include "access/signinguard.h"

#include <tl/expected.hpp>

#include <chrono>
#include <functional>
#include <optional>

namespace ramplight {

/// What came of a PIN.
struct SignInAnswer
{
    enum class Outcome {
        SignedIn, ///< the PIN is this person's
        Wrong,    ///< it is not; wait says how long until the next try
        Waiting,  ///< it was not looked at: wait says how long it will not be
        Locked,   ///< it was not looked at, or was the last wrong one: a manager must set a new PIN
    };
    Outcome outcome = Outcome::Wrong;
    std::chrono::milliseconds wait{0};
    int failuresInARow = 0;
    /// SignedIn: what was entered for this person before, where that is worth a word.
    std::optional<WrongPins> wrongBefore = {};

    friend bool operator==(const SignInAnswer&, const SignInAnswer&) = default;
};

[[nodiscard]] QString words(const SignInAnswer& answer);

/// Checks PINs and sets them. Who may set whose PIN is a matter of rights, which the domain
/// decides. Owns nothing that it is given by reference; the ports outlive it. Not for several
/// threads at once; calls block for a hash (see PinHasher) and for the ports.
class SignIn
{
public:
    SignIn(PinHasher hasher, CredentialStore& credentials, FailureBook& book, GuessAlarm& alarm,
           PinPolicy policy = {}, GuardRules rules = {});

    /// A person who does not exist costs the same time and gives the same answer as a wrong PIN. A
    /// failure is in the book before the answer is given, which is StoreAway where it could not be
    /// written: a HoldingBook counts it all the same. A name that is locked, a row that came
    /// to the longest delay and wrong PINs of many people raise the alarm, or raise it again if it
    /// is still owed.
    /// Errors: StoreAway, HashDamaged, HashingFailed; each means that nobody is signed in.
    [[nodiscard]] tl::expected<SignInAnswer, AccessError> tryPin(PersonId person, const Secret& pin,
                                                                 Moment now);
    /// What tryPin would say before looking at any PIN: Waiting, Locked, or Wrong with no wait when
    /// the pad may be shown. Errors: StoreAway.
    [[nodiscard]] tl::expected<SignInAnswer, AccessError> standing(PersonId person, Moment now);
    /// How the hash of a new PIN is kept.
    using Keep = std::function<tl::expected<void, AccessError>(const QByteArray& hash)>;
    /// A first PIN, a changed one, or a manager's reset: the failure book of the person is cleared,
    /// once the alarm of a lock in it was raised. keep: with what else is kept with it; without one
    /// it is kept alone.
    /// Errors: NobodyNamed, the Pin... ones, HashingFailed, StoreAway, those of keep.
    [[nodiscard]] tl::expected<void, AccessError> setPin(PersonId person, const Secret& pin,
                                                         const Keep& keep = {});
    /// Whose badge this is, by the payload of a badge scan. It names the person and signs nobody
    /// in. Errors: StoreAway.
    [[nodiscard]] tl::expected<std::optional<PersonId>, AccessError>
    personOfBadge(const QString& code);

private:
    tl::expected<GuardVerdict, AccessError> look(PersonId person, Moment now);
    tl::expected<SignInAnswer, AccessError> refuse(PersonId person, Moment now);
    tl::expected<SignInAnswer, AccessError> welcome(PersonId person, const Secret& pin,
                                                    const QByteArray& kept,
                                                    const GuardVerdict& verdict, Moment now);
    void lookAround(Moment now);

    PinHasher m_hasher;
    CredentialStore& m_credentials;
    FailureBook& m_book;
    GuessAlarm& m_alarm;
    PinPolicy m_policy;
    GuardRules m_rules;
};

} // namespace ramplight
