// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/requests.h"
#include "domain/startedtimers.h"
#include "domain/workshop.h"

#include <QByteArray>

#include <tl/expected.hpp>

#include <array>
#include <optional>
#include <set>
#include <utility>
#include <vector>

// What a kiosk keeps while the server that it shares with others is away, and how it is asked of
// the workshop once more when the server is back. Pure but for sendKept().
namespace ramplight {

/// A piece of work, or a finding, that a kept request names, as it was known where the request was
/// made. Their numbers are counted in the car's ledger: where that went on meanwhile, another piece
/// of work or another finding may have the number that was given here.
struct KeptWork
{
    CarId car;
    OperationId operation; ///< null: of the car, or a finding
    QString stockNumber;
    QString title; ///< "Near side front wheel: refurbish, painted"
    QString kind;  ///< of the catalogue
    PlaceId place;
    FindingId finding = {};                ///< null: a piece of work
    Condition condition = Condition::Mark; ///< that was found at the place
    PersonId foundBy = {};                 ///< who recorded it
    /// The car's last entry of the server that was known there; 0: not noted.
    qint64 knownTo = 0;
    /// Of the car, as long as they had run: a clock that is set meanwhile changes no minutes.
    std::vector<SteadyTimer> timers = {};
    static constexpr auto fields =
        fieldList(field("car", &KeptWork::car), field("operation", &KeptWork::operation),
                  field("stockNumber", &KeptWork::stockNumber), field("title", &KeptWork::title),
                  field("kind", &KeptWork::kind), field("place", &KeptWork::place),
                  field("finding", &KeptWork::finding), field("condition", &KeptWork::condition),
                  field("foundBy", &KeptWork::foundBy), field("knownTo", &KeptWork::knownTo),
                  field("timers", &KeptWork::timers));
    friend bool operator==(const KeptWork&, const KeptWork&) = default;
};

enum class TroubleKind {
    FileDamaged, ///< the file of what is kept; another one was begun
    ServerOlder, ///< it lacks entries that this kiosk had taken over: a backup was brought back
};
template <>
struct Names<TroubleKind>
{
    static constexpr std::array table{
        std::pair{TroubleKind::FileDamaged, "file-damaged"},
        std::pair{TroubleKind::ServerOlder, "server-older"},
    };
};

/// What befell the files in which a kiosk keeps and knows things, for a person to read.
struct KeptTrouble
{
    /// Entries of one car, or without a car those about people and rules.
    struct Missing
    {
        CarId car;
        QString stockNumber;
        int entries = 0;
        Moment until; ///< when the last of them was made
        static constexpr auto fields =
            fieldList(field("car", &Missing::car), field("stockNumber", &Missing::stockNumber),
                      field("entries", &Missing::entries), field("until", &Missing::until));
        friend bool operator==(const Missing&, const Missing&) = default;
    };

    TroubleKind kind = TroubleKind::FileDamaged;
    QString file; ///< the damaged one, or one with the entries that are missing; empty: there is
                  ///< none
    // Of a damaged file:
    int readOut = 0;          ///< requests that were read out of it and wait as before
    int changed = 0;          ///< read out, but not what was written: each is shown by itself
    int lost = 0;             ///< requests that could not be read
    bool perhapsMore = false; ///< nobody can tell how many there were
    // Of an older server:
    std::vector<Missing> missing;

    [[nodiscard]] int entries() const; ///< that are missing
    [[nodiscard]] Moment until() const;
    static constexpr auto fields = fieldList(
        field("kind", &KeptTrouble::kind), field("file", &KeptTrouble::file),
        field("readOut", &KeptTrouble::readOut), field("changed", &KeptTrouble::changed),
        field("lost", &KeptTrouble::lost), field("perhapsMore", &KeptTrouble::perhapsMore),
        field("missing", &KeptTrouble::missing));
    friend bool operator==(const KeptTrouble&, const KeptTrouble&) = default;
};

struct KeptRequest
{
    qint64 number = 0; ///< counted in the order in which they were made; 0: not kept yet
    WorkRequest asked;
    Moment at; ///< when it was made
    std::vector<KeptWork> works;
    QString refusal = {};  ///< in words, once it was refused; empty: it waits for the server
    Moment refusedAt = {}; ///< when it was sent and refused
    PersonId seenBy = {};  ///< who took note of the refusal; null: nobody yet
    Moment seenAt = {};
    /// It is no longer what was written here: the rest is what can still be read of it, and it is
    /// never sent.
    bool damaged = false;
    /// It is no request at all, but something to be told.
    std::optional<KeptTrouble> trouble = {};

    [[nodiscard]] bool waits() const { return refusal.isEmpty() && !isToBeRead(); }
    /// Nothing that the server said, but what befell it here.
    [[nodiscard]] bool isToBeRead() const { return damaged || trouble; }
};

/// How a kiosk stands to the server that it shares with others.
struct ServerStanding
{
    bool shared = false; ///< there is one; the rest means something only then
    SiteId site;         ///< which of the sites on it is this kiosk's; empty: not known yet
    bool away = false;
    bool sending = false; ///< away until what is kept here has been sent; the server answers again
    Moment awaySince;
    Moment knownAt;                ///< while it is away: what is shown is what was known then
    std::vector<KeptRequest> kept; ///< in the order in which they were made; none that was seen
    QString hindrance;             ///< in words: why this kiosk cannot work with it
    bool moved = false; ///< the hindrance: the site was moved elsewhere, and nobody works here
    QString fault;      ///< in words: why this kiosk could not go on without it; empty: it could
};

[[nodiscard]] const CommandId& idOf(const WorkRequest& request);
[[nodiscard]] PersonId actorOf(const WorkRequest& request);
/// "Signed off; torque 110", "Started": what was done, without on what.
[[nodiscard]] QString deedWords(const WorkRequest& request);

/// Work, readings, findings, notes, photos and signatures may wait, a check that fails, what a
/// walk-round measures and its end, and where a car was moved to; what decides about a whole car,
/// corrects what stands in the ledger, or is about people or rules may not.
[[nodiscard]] bool mayBeKept(const WorkRequest& request);
/// Why the others may not, for a person.
[[nodiscard]] QString notKeptWords();
/// It is kept, and this kiosk cannot go on from it.
[[nodiscard]] QString keptUnseenWords();
/// Said where something is corrected, before anybody types.
[[nodiscard]] QString correctionWaitsWords();
/// As notKeptWords(), where the server went away in the middle of it, so that it may have been
/// done.
[[nodiscard]] QString perhapsDoneWords();

/// Only what may be kept.
[[nodiscard]] QByteArray written(const WorkRequest& request);
/// Error: what is wrong with the text, in words.
[[nodiscard]] tl::expected<WorkRequest, QString> readWorkRequest(const QByteArray& text);
[[nodiscard]] QByteArray written(const KeptTrouble& trouble);
/// Nothing: the text is that of a request.
[[nodiscard]] std::optional<KeptTrouble> readKeptTrouble(const QByteArray& text);
[[nodiscard]] QByteArray written(const std::vector<KeptWork>& works);
[[nodiscard]] tl::expected<std::vector<KeptWork>, QString> readKeptWorks(const QByteArray& text);

/// The pieces of work that it names, as the ledger knows them. kept: commands that stand in this
/// ledger and not yet at the server. Errors: the ledger's.
[[nodiscard]] tl::expected<std::vector<KeptWork>, StoreError>
worksOf(const WorkRequest& request, Ledger& ledger, const std::set<CommandId>& kept = {});

/// As what a piece of work, or a finding, is known again where it has another number.
[[nodiscard]] KeptWork knownAs(const Operation& work);
[[nodiscard]] KeptWork knownAs(const Finding& found);
/// The number that it has in this state of its car; null: it is not in it, or, for work, it cannot
/// be told which of several it is.
[[nodiscard]] OperationId operationIn(const CarState& car, const KeptWork& work);
[[nodiscard]] FindingId findingIn(const CarState& car, const KeptWork& found);

/// Up to where the server's entries of a car were known where it was made; 0: not noted.
[[nodiscard]] qint64 knownTo(const KeptRequest& kept, const CarId& car);

/// Asks a ledger for what was kept, as of the moment at which it was made and with its own id: sent
/// twice it changes nothing. ours: what the same outbox sent before it. Nothing: it stands there
/// now; words: refused for good. Error: Unavailable or Conflict, it has to wait longer.
[[nodiscard]] tl::expected<std::optional<QString>, StoreError>
sendKept(const KeptRequest& kept, Ledger& ledger, const Catalogue& catalogue,
         const std::set<CommandId>& ours = {});

} // namespace ramplight
