// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/workbench.h"

#include <functional>

// For every refusal that leaves a trace in the ledger, and for every kind of event, entries that no
// command would have written.
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
    /// It changes people, rules or the catalogue for what comes behind it: in a house of its own.
    bool alone = false;
};

/// A kind of event that somebody without the right to it writes, or, where it needs none of its
/// own, that nothing causes.
struct KindBreaker
{
    const char* what; ///< the event's type
    std::size_t kind = 0;
    bool ofSite = false;
    const char* words;
    std::function<Forged(Workbench&)> forge;
};

template <class Events, class Event, std::size_t index = 0>
constexpr std::size_t kindIn()
{
    if constexpr (std::is_same_v<Event, typename Events::template Kind<index>>)
        return index;
    else
        return kindIn<Events, Event, index + 1>();
}

/// The house: people, rights, bays, rules.
[[nodiscard]] std::vector<RuleBreaker> siteBreakers();
/// The car: arrival, findings, release, leaving.
[[nodiscard]] std::vector<RuleBreaker> carBreakers();
/// What was seen of it, measured and read off it.
[[nodiscard]] std::vector<RuleBreaker> seenBreakers();
/// Why work is on the car, and what it asks for.
[[nodiscard]] std::vector<RuleBreaker> causeBreakers();
/// Work: who may, when, and what stands in its way.
[[nodiscard]] std::vector<RuleBreaker> workBreakers();
/// Proof of work: readings, figures, signatures.
[[nodiscard]] std::vector<RuleBreaker> proofBreakers();
/// Figures that were changed and corrected.
[[nodiscard]] std::vector<RuleBreaker> figureBreakers();
inline constexpr const char* notManaging = "without the right to manage";
/// One for each kind of event.
[[nodiscard]] std::vector<KindBreaker> kindBreakers();
/// Those of the house among them.
[[nodiscard]] std::vector<KindBreaker> siteKindBreakers();

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
/// Opened by hand, as the catalogue has it.
[[nodiscard]] OperationOpened forgedOpening(Workbench& bench, const CarId& car, const char* kind,
                                            const char* place);
/// A number for a car that nobody has.
[[nodiscard]] CarArrived forgedArrival(Workbench& bench);
[[nodiscard]] CarId newCar(Workbench& bench);
[[nodiscard]] FindingRecorded forgedFinding(Workbench& bench, const CarId& car, const char* place);
/// Somebody of the house who works here no more.
[[nodiscard]] PersonId leaver(Workbench& bench);
/// A car whose high voltage is being worked on, isolated by the mechanic.
[[nodiscard]] CarId isolatedCar(Workbench& bench);
[[nodiscard]] OutsideWork coveWorks();

} // namespace ramplight::test
