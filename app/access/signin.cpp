// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/signin.h"

#include "access/lockalarms.h"
#include "log/log.h"

#include <QCoreApplication>

#include <tuple>
#include <utility>

namespace ramplight {
namespace {

using Outcome = SignInAnswer::Outcome;

QString waitWords(std::chrono::milliseconds wait)
{
    const auto seconds = std::chrono::ceil<std::chrono::seconds>(wait).count();
    return seconds < 90
               ? QCoreApplication::translate("ramplight", "%1 s").arg(seconds)
               : QCoreApplication::translate("ramplight", "%1 min").arg((seconds + 59) / 60);
}

SignInAnswer closed(const GuardVerdict& verdict)
{
    return {.outcome = verdict.locked ? Outcome::Locked : Outcome::Waiting,
            .wait = verdict.locked ? std::chrono::milliseconds{0} : verdict.wait,
            .failuresInARow = verdict.inARow};
}

bool isClosed(const GuardVerdict& verdict)
{
    return verdict.locked || verdict.wait.count() > 0;
}

} // namespace

QString words(const SignInAnswer& answer)
{
    switch (answer.outcome) {
    case Outcome::SignedIn:
        return QCoreApplication::translate("ramplight", "Signed in.");
    case Outcome::Wrong:
        if (answer.wait.count() == 0)
            return QCoreApplication::translate("ramplight", "That PIN is not right. Try again.");
        return QCoreApplication::translate("ramplight", "That PIN is not right. Try again in %1.")
            .arg(waitWords(answer.wait));
    case Outcome::Waiting:
        return QCoreApplication::translate("ramplight",
                                           "Too many wrong PINs in a row. Try again in %1.")
            .arg(waitWords(answer.wait));
    case Outcome::Locked:
        return QCoreApplication::translate(
            "ramplight", "Too many wrong PINs: this name is locked. A manager can set a new PIN.");
    }
    return {};
}

SignIn::SignIn(PinHasher hasher, CredentialStore& credentials, FailureBook& book, GuessAlarm& alarm,
               PinPolicy policy, GuardRules rules)
    : m_hasher(std::move(hasher))
    , m_credentials(credentials)
    , m_book(book)
    , m_alarm(alarm)
    , m_policy(policy)
    , m_rules(rules)
{
}

tl::expected<SignInAnswer, AccessError> SignIn::tryPin(PersonId person, const Secret& pin,
                                                       Moment now)
{
    const auto verdict = look(person, now);
    if (!verdict)
        return tl::unexpected(verdict.error());
    if (isClosed(*verdict))
        return closed(*verdict);

    const auto kept = m_credentials.pinHash(person);
    if (!kept)
        return tl::unexpected(kept.error());
    if (!*kept) {
        // Nobody to compare with: hash all the same, so that the time does not tell.
        if (const auto spent = m_hasher.hash(person, pin); !spent)
            return tl::unexpected(spent.error());
        return refuse(person, now);
    }
    if (const auto right = m_hasher.verify(person, pin, **kept); !right) {
        if (right.error() == AccessError::WrongPin)
            return refuse(person, now);
        log::error(QStringLiteral("kept PIN hash of person %1 cannot be used").arg(person.value));
        return tl::unexpected(right.error());
    }
    return welcome(person, pin, **kept, *verdict, now);
}

tl::expected<SignInAnswer, AccessError> SignIn::standing(PersonId person, Moment now)
{
    const auto verdict = look(person, now);
    if (!verdict)
        return tl::unexpected(verdict.error());
    if (isClosed(*verdict))
        return closed(*verdict);
    return SignInAnswer{.failuresInARow = verdict->inARow};
}

tl::expected<void, AccessError> SignIn::setPin(PersonId person, const Secret& pin, const Keep& keep)
{
    if (person.isNull())
        return tl::unexpected(AccessError::NobodyNamed);
    if (const auto good = checkNewPin(m_policy, pin); !good)
        return good;
    const auto kept = m_hasher.hash(person, pin);
    if (!kept)
        return tl::unexpected(kept.error());
    // With the lock goes what the alarm is owed for.
    if (const auto told = tellGuesses(person, m_book, m_alarm); !told)
        return told;
    if (const auto set = keep ? keep(*kept) : m_credentials.setPinHash(person, *kept); !set)
        return set;
    return m_book.clear(person);
}

tl::expected<std::optional<PersonId>, AccessError> SignIn::personOfBadge(const QString& code)
{
    return m_credentials.personOfBadge(code);
}

tl::expected<GuardVerdict, AccessError> SignIn::look(PersonId person, Moment now)
{
    const auto marks = m_book.marks(person);
    if (!marks)
        return tl::unexpected(marks.error());
    const GuardVerdict verdict = judgeSignIns(m_rules, *marks, now);
    if (verdict.locked && !verdict.lockMarked) {
        // Kept as a mark of its own, because the failures that led to it grow old.
        if (const auto added = m_book.add(person, {SignInMark::Kind::Lock, now}); !added)
            return tl::unexpected(added.error());
        log::warn(QStringLiteral("sign-in of person %1 locked after %2 failures")
                      .arg(person.value)
                      .arg(verdict.inWindow));
    } else if (verdict.atLongest && !verdict.rowMarked && !verdict.locked) {
        if (const auto added = m_book.add(person, {SignInMark::Kind::Row, now}); !added)
            return tl::unexpected(added.error());
    } else if (verdict.clockWentBack) {
        if (const auto added = m_book.add(person, {SignInMark::Kind::ClockBack, now}); !added)
            return tl::unexpected(added.error());
        log::warn(QStringLiteral("clock is behind the last failed sign-in of person %1")
                      .arg(person.value));
    }
    // Lock and delay hold whether or not they could be told; the next look tries again.
    if (verdict.locked || verdict.atLongest)
        std::ignore = tellGuesses(person, m_book, m_alarm);
    return verdict;
}

tl::expected<SignInAnswer, AccessError> SignIn::refuse(PersonId person, Moment now)
{
    if (const auto added = m_book.add(person, {SignInMark::Kind::WrongPin, now}); !added)
        return tl::unexpected(added.error());
    lookAround(now);
    const auto verdict = look(person, now);
    if (!verdict)
        return tl::unexpected(verdict.error());
    SignInAnswer answer{
        .outcome = Outcome::Wrong, .wait = verdict->wait, .failuresInARow = verdict->inARow};
    if (verdict->locked) {
        answer.outcome = Outcome::Locked;
        answer.wait = std::chrono::milliseconds{0};
    }
    return answer;
}

// Whoever tries one name after the other meets no delay: that is told, and keeps nobody out. What
// cannot be looked at now is looked at with the next wrong PIN.
void SignIn::lookAround(Moment now)
{
    const auto marks =
        m_book.marksSince({now.ms - std::chrono::milliseconds(m_rules.spreadWindow).count()});
    const auto nobodys = m_book.marks({});
    if (!marks || !nobodys)
        return;
    const bool isMarked = isSpreadMarked(m_rules, *nobodys, now);
    if (!isMarked && !spreadIn(m_rules, *marks, now))
        return;
    if (!isMarked && !m_book.add({}, {SignInMark::Kind::Spread, now}))
        return;
    std::ignore = tellGuesses({}, m_book, m_alarm);
}

tl::expected<SignInAnswer, AccessError> SignIn::welcome(PersonId person, const Secret& pin,
                                                        const QByteArray& kept,
                                                        const GuardVerdict& verdict, Moment now)
{
    // Where that cannot be written the row goes on, which gives a guesser nothing, and one slip
    // does not keep the right person out until the disk has room.
    if (verdict.inARow > 0)
        std::ignore = m_book.add(person, {SignInMark::Kind::Success, now});
    // The sign-in stands whether or not the stronger hash can be kept; the next one tries again.
    if (m_hasher.needsRehash(kept)) {
        const auto renewed = m_hasher.hash(person, pin).and_then([&](const QByteArray& hash) {
            return m_credentials.setPinHash(person, hash);
        });
        if (!renewed)
            log::warn(
                QStringLiteral("PIN hash of person %1 could not be renewed").arg(person.value));
    }
    return SignInAnswer{.outcome = Outcome::SignedIn,
                        .wrongBefore = toldAtSignIn(m_rules, verdict, now)};
}

} // namespace ramplight
