// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"
#include "domain/workshop.h"

// A lock in the failure book is an alarm that is owed. It is raised where the lock is marked, and,
// should the program end or the store refuse in between, at the next look at that name and at the
// next start.
namespace ramplight {

/// Tells in the site's stream of the ledger. Its thread.
class HouseAlarm : public LockAlarm
{
public:
    /// The workshop outlives it.
    explicit HouseAlarm(Workshop& house)
        : m_house(house)
    {
    }

    /// The command has the lock's name, so that the ledger knows one that was told before. A number
    /// that is nobody's is told to nobody.
    [[nodiscard]] tl::expected<void, AccessError> raise(const PinLock& lock) override;

private:
    Workshop& m_house;
};

/// Raises the alarm of the person's lock; nothing where there is none.
[[nodiscard]] tl::expected<void, AccessError> tellLock(PersonId person, FailureBook& book,
                                                       LockAlarm& alarm);
/// The same for everybody. One that cannot be told keeps nobody else's back.
[[nodiscard]] tl::expected<void, AccessError> tellLocks(FailureBook& book, LockAlarm& alarm);

} // namespace ramplight
