// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"
#include "domain/workshop.h"

// A lock in the failure book is an alarm that is owed, and so is a row that came to the longest
// delay, and a spread over many people. It is raised where it is marked, and, should the program
// end or the store refuse in between, at the next look at that name and at the next start.
namespace ramplight {

/// Tells in the site's stream of the ledger. Its thread.
class HouseAlarm : public GuessAlarm
{
public:
    /// The workshop outlives it.
    explicit HouseAlarm(Workshop& house)
        : m_house(house)
    {
    }

    /// The command has the name of what was marked, so that the ledger knows one that was told
    /// before. A number that is nobody's is told to nobody.
    [[nodiscard]] tl::expected<void, AccessError> raise(const PinGuesses& guesses) override;

private:
    Workshop& m_house;
};

/// Raises the alarms of the person's book; nothing where there are none.
[[nodiscard]] tl::expected<void, AccessError> tellGuesses(PersonId person, FailureBook& book,
                                                          GuessAlarm& alarm);
/// The same for everybody. One that cannot be told keeps nobody else's back.
[[nodiscard]] tl::expected<void, AccessError> tellGuesses(FailureBook& book, GuessAlarm& alarm);

} // namespace ramplight
