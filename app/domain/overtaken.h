// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/keptrequest.h"

#include <set>

// What was kept while the server was away is told it late. Internal to the domain.
namespace ramplight {

/// In words: somebody did later what this would undo, had it been told in time; empty: nobody did.
/// A timer of another morning is not stopped, a car that was moved on stays there, and what was
/// measured last stands; nobody signs what others did unseen. asked: the request
/// with the numbers that its work has there. ours: what the same outbox sent before it; the ledger
/// dates it no earlier than the car's last entry, but it is no later deed of anybody. Errors: the
/// ledger's.
[[nodiscard]] tl::expected<QString, StoreError> overtakenWords(const KeptRequest& kept,
                                                               const WorkRequest& asked,
                                                               Ledger& ledger,
                                                               const std::set<CommandId>& ours);

} // namespace ramplight
