// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/ports.h"
#include "domain/refusal.h"
#include "domain/requests.h"
#include "domain/sitecommands.h"
#include "domain/startedtimers.h"

#include <tl/expected.hpp>

#include <memory>
#include <optional>
#include <variant>
#include <vector>

// The one way in: a command is decided on the stream's state and appended, and decided again when
// another kiosk was quicker. Screens, command line, demo and tests all come through here.
// Owned and called by the thread that owns the ledger; blocks while the database works.
namespace ramplight {

struct SiteRequest
{
    CommandId id;
    PersonId actor;
    SiteCommand command;
    QString personName; ///< with SetUp, AddPerson, ChangePerson: kept in the staff book
    /// With SetUp and ChangeAccess: kept with what the ledger says of it, or neither is.
    std::optional<Append::PersonAccess> access = {};
};

/// Why nothing was changed: a rule of the workshop, or the store.
using Failure = std::variant<Refusal, StoreError>;
[[nodiscard]] QString words(const Failure& failure);

struct CarOutcome
{
    CarState car;
    std::vector<CarEvent> events; ///< empty when the request had been carried out before
};

struct SiteOutcome
{
    SiteState site;
    PersonId person; ///< added or changed, null otherwise
};

class Workshop
{
public:
    /// The first three outlive the workshop. timers: what workshops before it saw begin; null: none
    /// did.
    Workshop(Ledger& ledger, const Clock& clock, const Catalogue& catalogue,
             std::shared_ptr<StartedTimers> timers = nullptr);

    [[nodiscard]] tl::expected<CarOutcome, Failure> run(const CarRequest& request);
    [[nodiscard]] tl::expected<SiteOutcome, Failure> run(const SiteRequest& request);

    /// Two entries of one car: what is known of the second goes over to the first, and the second
    /// leaves, in one step.
    [[nodiscard]] tl::expected<CarOutcome, Failure>
    mergeDuplicate(const CommandId& id, PersonId actor, const CarId& keep, const CarId& second,
                   const QString& reason);
    /// Signs several wheels' operations of one kind off in one step. The signer's minutes on all of
    /// them are split evenly, in whole minutes whose sum is the same; whoever had the timer on one
    /// of them only worked on the others, too. Each is decided on its own; a refusal names its car
    /// and nothing is signed.
    [[nodiscard]] tl::expected<std::vector<CarOutcome>, Failure>
    signTogether(const TogetherRequest& request);
    /// Stops every running timer now, in the name of somebody who may manage. Nobody: the house
    /// itself, now or, with the end of a shift that is over, those that began before it, as of
    /// then, so that nobody works on overnight. Answers how many were stopped.
    [[nodiscard]] tl::expected<int, Failure> stopAllWork(const CommandId& id, PersonId by = {},
                                                         Moment shiftEnd = {});

    [[nodiscard]] Ledger& ledger() { return m_ledger; }
    [[nodiscard]] const Catalogue& catalogue() const { return m_catalogue; } ///< as shipped
    [[nodiscard]] Moment now() const { return m_clock.now(); }

private:
    struct Together;
    /// Once: what somebody else was quicker with is for the caller.
    [[nodiscard]] tl::expected<CarOutcome, Failure> carryOut(const CarRequest& request);
    /// car: as it was read, once for all that is decided by it. What is written together is decided
    /// at one reading of the clock: the cars' entries bear one time.
    [[nodiscard]] tl::expected<CarAppend, Failure>
    prepare(const CarRequest& request, CarState car, const SiteState& site, const CarState* other,
            Moment now, Moment notBefore, Together* together = nullptr);
    [[nodiscard]] tl::expected<CarContext, Failure>
    contextFor(const CarState& car, const CarCommand& command, const CarRequest& request,
               const SiteState& site, Moment now, Together* together);

    /// The catalogue of this house under the site's state, made again when the site went on.
    [[nodiscard]] const Catalogue& houseCatalogueFor(const SiteState& site);

    Ledger& m_ledger;
    const Clock& m_clock;
    const Catalogue& m_catalogue;
    Catalogue m_house;
    qint64 m_houseSeq = -1;
    std::shared_ptr<StartedTimers> m_timers;
};

} // namespace ramplight
