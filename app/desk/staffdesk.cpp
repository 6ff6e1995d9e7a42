// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The desk's door: PINs, badges, and what is owed to the managers of those who guessed.
#include "access/heldmarks.h"
#include "access/lockalarms.h"
#include "access/signin.h"
#include "desk/workshopdesk.h"
#include "domain/say.h"

#include <algorithm>
#include <memory>
#include <optional>
#include <tuple>
#include <utility>

namespace ramplight {

namespace {

using Outcome = tl::expected<SiteOutcome, Failure>;

/// Whose PIN or badge it is; null where the command is about neither.
PersonId whoOpens(const SiteCommand& command)
{
    if (const auto* change = std::get_if<site::ChangeAccess>(&command))
        return change->person;
    return std::holds_alternative<site::SetUp>(command) ? firstPerson : PersonId{};
}

/// What keeps a PIN or a badge from being changed before the rules are asked.
std::optional<Failure> whyNot(const SiteRequest& request, const PinsEntered& pins,
                              const Store& store)
{
    if (wantsPinAgain(request.command) && !pins.has(request.actor, request.id))
        return Refusal{RefusalId::PinNotFresh, {}};
    if (store.isCopy())
        return StoreError{StoreErrorKind::Unavailable, words(AccessError::ServerAway)};
    return std::nullopt;
}

} // namespace

template <class F>
auto WorkshopDesk::withSignIn(F f)
{
    const Secret* pepper = &m_pepper;
    using Asked = HoldingBook::Asked;
    return m_store.run([f = std::move(f), pepper, cost = m_cost, held = m_heldMarks,
                        asked = Asked::Once](Workshop& workshop, Store& store) mutable {
        HouseAlarm alarm(workshop);
        HoldingBook book(store.failures(), *held, std::exchange(asked, Asked::Again));
        SignIn signIn(PinHasher(pepper->clone(), cost), store.credentials(), book, alarm);
        return f(signIn, store, workshop);
    });
}

// Locks and guesses that a kiosk marked before it was killed, or while its server was away.
void WorkshopDesk::tellOwedAlarms()
{
    std::ignore = m_store.run([](Workshop& workshop, Store& store) {
        HouseAlarm alarm(workshop);
        if (!store.isCopy())
            std::ignore = tellGuesses(store.failures(), alarm);
    });
}

void PinsEntered::add(PersonId person, const CommandId& request)
{
    constexpr std::size_t most = 8; // a request that failed is sent again soon, or never
    if (request.text.isEmpty() || has(person, request))
        return;
    m_entered.emplace_back(person, request);
    if (m_entered.size() > most)
        m_entered.pop_front();
}

bool PinsEntered::has(PersonId person, const CommandId& request) const
{
    return std::ranges::find(m_entered, std::pair(person, request)) != m_entered.end();
}

QFuture<tl::expected<SignInAnswer, AccessError>> WorkshopDesk::tryPin(PersonId person, Secret pin,
                                                                      const CommandId& request)
{
    using Result = tl::expected<SignInAnswer, AccessError>;
    const auto typed = std::make_shared<Secret>(std::move(pin));
    const Moment now = m_clock.now();
    return withSignIn([=, pins = m_pins](SignIn& signIn, Store& store, Workshop&) -> Result {
        if (!store.staffIsSealed())
            return tl::unexpected(AccessError::CopyChanged);
        auto answer = signIn.tryPin(person, *typed, now);
        if (answer && answer->outcome == SignInAnswer::Outcome::SignedIn)
            pins->add(person, request);
        return answer;
    });
}

QFuture<tl::expected<SignInAnswer, AccessError>> WorkshopDesk::signInStanding(PersonId person)
{
    const Moment now = m_clock.now();
    return withSignIn(
        [=](SignIn& signIn, Store&, Workshop&) { return signIn.standing(person, now); });
}

QFuture<tl::expected<void, AccessError>> WorkshopDesk::setPin(PersonId person, Secret pin)
{
    using Result = tl::expected<void, AccessError>;
    const auto typed = std::make_shared<Secret>(std::move(pin));
    return withSignIn([=](SignIn& signIn, Store& store, Workshop&) -> Result {
        if (store.isCopy())
            return tl::unexpected(AccessError::ServerAway);
        return signIn.setPin(person, *typed);
    });
}

QFuture<tl::expected<std::optional<PersonId>, AccessError>>
WorkshopDesk::personOfBadge(const QString& code)
{
    return withSignIn(
        [code](SignIn& signIn, Store&, Workshop&) { return signIn.personOfBadge(code); });
}

Answer<SiteOutcome> WorkshopDesk::runWithPin(const SiteRequest& request, Secret pin)
{
    const auto typed = std::make_shared<Secret>(std::move(pin));
    return withSignIn(
        [=, pins = m_pins](SignIn& signIn, Store& store, Workshop& workshop) -> Outcome {
            if (const auto why = whyNot(request, *pins, store))
                return tl::unexpected<Failure>(*why);
            const PersonId person = whoOpens(request.command);
            std::optional<Outcome> outcome;
            const auto set = signIn.setPin(
                person, *typed, [&](const QByteArray& hash) -> tl::expected<void, AccessError> {
                    SiteRequest asked = request;
                    asked.access = {person, hash};
                    outcome = workshop.run(asked);
                    if (!*outcome)
                        return tl::unexpected(AccessError::StoreAway);
                    // A try whose answer was lost may have kept what was typed before.
                    const auto kept = store.credentials().pinHash(person);
                    return !kept || *kept != hash ? store.credentials().setPinHash(person, hash)
                                                  : tl::expected<void, AccessError>();
                });
            if (!set && (!outcome || *outcome))
                return tl::unexpected<Failure>(
                    StoreError{StoreErrorKind::Unavailable,
                               say("The PIN was not set: %1").arg(words(set.error()))});
            return *outcome;
        });
}

Answer<SiteOutcome> WorkshopDesk::runWithBadge(const SiteRequest& request, const QString& code)
{
    return m_store.run([=, pins = m_pins](Workshop& workshop, Store& store) -> Outcome {
        if (const auto why = whyNot(request, *pins, store))
            return tl::unexpected<Failure>(*why);
        SiteRequest asked = request;
        asked.access = {whoOpens(request.command), {}, code};
        return workshop.run(asked);
    });
}

} // namespace ramplight
