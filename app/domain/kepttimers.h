// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/keptrequest.h"

// The timers of what was kept while the server was away, beside those that run there.
namespace ramplight {

/// Why it cannot be sent yet, in words: who began this is at other work by now, at another kiosk,
/// and a person's timer runs once. Sent when that has ended, it goes in. Empty: it can be sent.
/// Errors: the ledger's.
[[nodiscard]] tl::expected<QString, StoreError> whyItWaits(const KeptRequest& kept, Ledger& ledger);
/// How long the timers had run where it was asked, of the stretches that the ledger has of them: it
/// dates their beginning no earlier than what others wrote of the car meanwhile. Errors: the
/// ledger's.
[[nodiscard]] tl::expected<std::shared_ptr<StartedTimers>, StoreError>
timersOf(const KeptRequest& kept, Ledger& ledger, qint64 steadyMs);

} // namespace ramplight
