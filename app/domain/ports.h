// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/cardecide.h"
#include "domain/carevents.h"
#include "domain/requests.h"
#include "domain/siteevents.h"

#include <tl/expected.hpp>

#include <optional>
#include <set>
#include <vector>

// What the rules' users need from outside. Implemented in app/storage (SQL) and, for the clock, in
// main.cpp; tests bring their own. One thread owns an implementation.
namespace ramplight {

class Clock
{
public:
    virtual ~Clock() = default;
    [[nodiscard]] virtual Moment now() const = 0;
    /// Milliseconds that go on evenly while the program runs, whatever the clock is set to; from
    /// what beginning is left open.
    [[nodiscard]] virtual qint64 steadyMs() const { return now().ms; }
};

enum class StoreErrorKind {
    Conflict,    ///< somebody else wrote to the stream first: reload and decide again
    Busy,        ///< the person already has a running timer, or the bay already a car
    Unavailable, ///< the database cannot be reached or written; nothing was kept there
    Damaged,     ///< what was read cannot be what was written
    TooNew,      ///< written by a newer program
    WrongKeys,   ///< the key file here is not that of the site
    PhotoGone,   ///< it names a photo that is kept nowhere any more
    NotTrusted,  ///< a server answers that may be another one, or without encryption
    Moved,       ///< the site was moved out of this database; nothing is written for it here
};

struct StoreError
{
    StoreErrorKind kind = StoreErrorKind::Unavailable;
    QString words; ///< for a person: what happened, what was kept, what to do
    /// Of Unavailable: a server answers and takes nobody now. To ask it again at once makes it
    /// worse.
    bool crowded = false;
    /// A server answers and says no, or is not asked, for a reason that does not go away by itself.
    /// So is every NotTrusted.
    bool isToBeSeenTo = false;
};

/// One car's new events, decided on its state at afterSeq.
struct CarAppend
{
    CarId car;
    qint64 afterSeq = 0;
    std::vector<CarEvent> events;
    CarState after; ///< the state with the events applied, for the read tables
};

struct SiteAppend
{
    qint64 afterSeq = 0;
    std::vector<SiteEvent> events;
};

/// What becomes durable together: all of it or nothing.
struct Append
{
    CommandId command;
    PersonId by;
    Moment at;
    std::vector<CarAppend> cars;
    std::optional<SiteAppend> site;
    /// Personal details that go with the site events and stay outside the ledger.
    struct PersonName
    {
        PersonId person;
        QString name;
    };
    std::vector<PersonName> names;
    /// What somebody opens the door with from then on, kept outside the ledger as well.
    struct PersonAccess
    {
        PersonId person;
        std::optional<QByteArray> pinHash = {}; ///< the wrong PINs before it are forgotten
        std::optional<QString> badge = {};      ///< its code; empty: none any more
    };
    std::optional<PersonAccess> access = {};
    /// Rights and rules are those of the site at this number; a ledger whose site has gone on
    /// answers Conflict, so that it is decided again. Unset: it does not hang on them.
    std::optional<qint64> siteSeq = {};
    /// What it was decided from, where that was asked of cars: a ledger that is not the house's own
    /// hands it on, to be decided again there.
    std::optional<WorkRequest> asked = {};
};

class Ledger
{
public:
    virtual ~Ledger() = default;

    /// The car as its stream makes it; a state with seq 0 when there is no such car.
    [[nodiscard]] virtual tl::expected<CarState, StoreError> car(const CarId& id) = 0;
    [[nodiscard]] virtual tl::expected<std::vector<CarEnvelope>, StoreError>
    history(const CarId& id) = 0;
    /// Of those that have not left; small letters are as good as the capitals that it is kept in.
    [[nodiscard]] virtual tl::expected<std::optional<CarId>, StoreError>
    carByStockNumber(const QString& stockNumber) = 0;
    /// A car and the site that it is in, as a command is decided on them.
    struct SiteAndCar
    {
        const SiteState* site = nullptr; ///< as of currentSite()
        CarState car;
    };
    [[nodiscard]] virtual tl::expected<SiteAndCar, StoreError> siteAndCar(const CarId& id)
    {
        const auto site = currentSite();
        if (!site)
            return tl::unexpected(site.error());
        return car(id).map([&](CarState&& car) { return SiteAndCar{*site, std::move(car)}; });
    }
    /// With people's names filled in. It stands until the ledger is asked for it again, by either.
    [[nodiscard]] virtual tl::expected<const SiteState*, StoreError> currentSite() = 0;
    [[nodiscard]] tl::expected<SiteState, StoreError> site()
    {
        return currentSite().map([](const SiteState* site) { return *site; });
    }
    [[nodiscard]] virtual tl::expected<std::vector<SiteEnvelope>, StoreError> siteHistory() = 0;
    /// True when this command was already carried out.
    [[nodiscard]] virtual tl::expected<bool, StoreError> isKnown(const CommandId& command) = 0;
    [[nodiscard]] virtual tl::expected<void, StoreError> append(const Append& append) = 0;

    // What spans the streams, for the context.
    [[nodiscard]] virtual tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) = 0;
    [[nodiscard]] virtual tl::expected<std::vector<RunningWork>, StoreError> allRunningWork() = 0;
    /// End of the person's latest finished work on any car; null when there is none.
    [[nodiscard]] virtual tl::expected<Moment, StoreError> busyUntil(PersonId person) = 0;
    /// Stock number of the car in the bay; empty when it is free.
    [[nodiscard]] virtual tl::expected<QString, StoreError> bayTakenBy(BayId bay) = 0;
    /// Who has set a PIN; nobody signs in as the others yet.
    [[nodiscard]] virtual tl::expected<std::set<PersonId>, StoreError> peopleWithPin() = 0;
    /// Start of the person's first work on any car after a moment; null when there is none.
    [[nodiscard]] virtual tl::expected<Moment, StoreError> nextWorkAfter(PersonId person,
                                                                         Moment after) = 0;
};

} // namespace ramplight
