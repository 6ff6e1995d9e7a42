// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/outboxledger.h"

#include "log/log.h"

#include <algorithm>

namespace ramplight {

tl::expected<void, StoreError> OutboxLedger::append(const Append& append)
{
    if (!append.asked || !mayBeKept(*append.asked))
        return tl::unexpected(StoreError{StoreErrorKind::Unavailable,
                                         m_inDoubt ? perhapsDoneWords() : notKeptWords()});
    const auto waiting = m_outbox.kept();
    if (!waiting)
        return tl::unexpected(waiting.error());
    std::set<CommandId> notSent;
    for (const KeptRequest& one : *waiting)
        notSent.insert(idOf(one.asked));
    auto works = worksOf(*append.asked, behind(), notSent);
    if (!works)
        return tl::unexpected(works.error());
    for (KeptWork& work : *works)
        work.timers = m_timers.of(work.car, m_clock.steadyMs());
    KeptRequest request{0, *append.asked, m_clock.now(), std::move(*works)};
    // Tried again after it could neither be shown nor taken back: it is kept already.
    const auto before = std::ranges::find_if(*waiting, [&](const KeptRequest& one) {
        return one.waits() && idOf(one.asked) == idOf(request.asked);
    });
    if (before != waiting->end())
        request.number = before->number;
    // First what must not be lost; the copy is made again out of it.
    else if (auto kept = m_outbox.keep(request); !kept)
        return kept;
    auto appended = behind().append(append);
    if (appended)
        return appended;
    if (auto removed = m_outbox.remove(request.number); !removed) {
        log::error(QStringLiteral("outbox: %1 is kept and cannot be shown").arg(request.number));
        return tl::unexpected(StoreError{appended.error().kind, keptUnseenWords()});
    }
    return appended;
}

} // namespace ramplight
