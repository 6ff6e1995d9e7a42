// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The desk's door: PINs, badges, and what is owed to the managers of those who guessed.
#include "access/heldmarks.h"
#include "access/lockalarms.h"
#include "access/signin.h"
#include "desk/workshopdesk.h"

#include <algorithm>
#include <memory>
#include <tuple>
#include <utility>

namespace ramplight {

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
        return f(signIn, store);
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
    return withSignIn([=, pins = m_pins](SignIn& signIn, Store& store) -> Result {
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
    return withSignIn([=](SignIn& signIn, Store&) { return signIn.standing(person, now); });
}

QFuture<tl::expected<void, AccessError>> WorkshopDesk::setPin(PersonId person, Secret pin)
{
    using Result = tl::expected<void, AccessError>;
    const auto typed = std::make_shared<Secret>(std::move(pin));
    return withSignIn([=](SignIn& signIn, Store& store) -> Result {
        if (store.isCopy())
            return tl::unexpected(AccessError::ServerAway);
        return signIn.setPin(person, *typed);
    });
}

QFuture<tl::expected<std::optional<PersonId>, AccessError>>
WorkshopDesk::personOfBadge(const QString& code)
{
    return withSignIn([code](SignIn& signIn, Store&) { return signIn.personOfBadge(code); });
}

QFuture<tl::expected<void, AccessError>> WorkshopDesk::setBadge(PersonId person,
                                                                const QString& code)
{
    using Result = tl::expected<void, AccessError>;
    return withSignIn([person, code](SignIn&, Store& store) -> Result {
        if (store.isCopy())
            return tl::unexpected(AccessError::ServerAway);
        return store.credentials().setBadge(person, code);
    });
}

} // namespace ramplight
