// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/lockalarms.h"

#include "access/signinguard.h"
#include "log/log.h"

namespace ramplight {

tl::expected<void, AccessError> HouseAlarm::raise(const PinLock& lock)
{
    const CommandId id{QStringLiteral("pin-alarm/%1/%2").arg(lock.person.value).arg(lock.at.ms)};
    const auto told =
        m_house.run(SiteRequest{id, {}, site::RaisePinAlarm{lock.person, lock.failures}, {}});
    if (told || std::holds_alternative<Refusal>(told.error()))
        return {};
    log::warn(QStringLiteral("the PIN alarm of person %1 is not in the ledger yet: %2")
                  .arg(lock.person.value)
                  .arg(words(told.error())));
    return tl::unexpected(AccessError::StoreAway);
}

tl::expected<void, AccessError> tellLock(PersonId person, FailureBook& book, LockAlarm& alarm)
{
    const auto marks = book.marks(person);
    if (!marks)
        return tl::unexpected(marks.error());
    const auto lock = lockIn(person, *marks);
    return lock ? alarm.raise(*lock) : tl::expected<void, AccessError>();
}

tl::expected<void, AccessError> tellLocks(FailureBook& book, LockAlarm& alarm)
{
    const auto locked = book.locked();
    if (!locked)
        return tl::unexpected(locked.error());
    tl::expected<void, AccessError> all;
    for (const PersonId person : *locked)
        if (const auto told = tellLock(person, book, alarm); !told)
            all = told;
    return all;
}

} // namespace ramplight
