// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/workbench.h"

#include <functional>

// For every refusal that leaves a trace in the ledger, entries that it would have kept out.
namespace ramplight::test {

/// What somebody writes behind the program's back: to a car, or to the site.
struct Forged
{
    CarId car;
    PersonId by;
    std::vector<CarEvent> events;
    std::vector<SiteEvent> site = {};
};

struct RuleBreaker
{
    RefusalId id;      ///< what a command would have been answered
    const char* what;  ///< tells rows of one refusal apart
    const char* words; ///< part of what the check says
    std::function<Forged(Workbench&)> forge;
    const char* guard = nullptr; ///< index of the database that has to go first
};

/// The house: people, rights, bays, rules.
[[nodiscard]] std::vector<RuleBreaker> siteBreakers();
/// The car: arrival, findings, release, leaving.
[[nodiscard]] std::vector<RuleBreaker> carBreakers();
/// Work: who may, when, and what stands in its way.
[[nodiscard]] std::vector<RuleBreaker> workBreakers();
/// Proof of work: readings, figures, signatures.
[[nodiscard]] std::vector<RuleBreaker> proofBreakers();

/// Work of a kind in hand, as it should be.
OperationId startedBy(Workbench& b, const CarId& id, const char* kind, PersonId who);
/// Starts as if nothing stood in its way.
[[nodiscard]] CarEvent forgedStart(Workbench& bench, const CarId& car, OperationId operation,
                                   PersonId who);
/// Signs and closes as if everything were proved.
[[nodiscard]] std::vector<CarEvent> forgedClosing(Workbench& bench, const CarId& car,
                                                  OperationId operation, SignatureMeaning meaning);
/// A reading as it would be judged by these limits.
[[nodiscard]] ReadingTaken forgedReading(Workbench& bench, const CarId& car, OperationId operation,
                                         const char* key, ReadingValue value,
                                         ReadingOutcome outcome);

} // namespace ramplight::test
