// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/requests.h"
#include "domain/workshop.h"

#include <QByteArray>

#include <tl/expected.hpp>

#include <optional>
#include <vector>

// What a kiosk keeps while the server that it shares with others is away, and how it is asked of
// the workshop once more when the server is back. Pure but for sendKept().
namespace ramplight {

/// A piece of work that a kept request names, as it was known where the request was made. Numbers
/// of operations are counted in the car's ledger: where that went on meanwhile, another piece of
/// work may have the number that was given here.
struct KeptWork
{
    CarId car;
    OperationId operation;
    QString stockNumber;
    QString title; ///< "Near side front wheel: refurbish, painted"
    QString kind;  ///< of the catalogue
    PlaceId place;
    static constexpr auto fields =
        fieldList(field("car", &KeptWork::car), field("operation", &KeptWork::operation),
                  field("stockNumber", &KeptWork::stockNumber), field("title", &KeptWork::title),
                  field("kind", &KeptWork::kind), field("place", &KeptWork::place));
    friend bool operator==(const KeptWork&, const KeptWork&) = default;
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

    [[nodiscard]] bool waits() const { return refusal.isEmpty(); }
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
    QString hindrance;             ///< in words: it answers and does not take what is kept here
};

[[nodiscard]] const CommandId& idOf(const WorkRequest& request);
[[nodiscard]] PersonId actorOf(const WorkRequest& request);
/// "Signed off; torque 110", "Started": what was done, without on what.
[[nodiscard]] QString deedWords(const WorkRequest& request);

/// Work, readings, notes, photos and signatures may wait; what decides about a whole car, about
/// people or about rules may not.
[[nodiscard]] bool mayBeKept(const WorkRequest& request);
/// Why the others may not, for a person.
[[nodiscard]] QString notKeptWords();
/// The same where the server went away in the middle of it, so that it may have been done.
[[nodiscard]] QString perhapsDoneWords();

/// Only what may be kept.
[[nodiscard]] QByteArray written(const WorkRequest& request);
/// Error: what is wrong with the text, in words.
[[nodiscard]] tl::expected<WorkRequest, QString> readWorkRequest(const QByteArray& text);
[[nodiscard]] QByteArray written(const std::vector<KeptWork>& works);
[[nodiscard]] tl::expected<std::vector<KeptWork>, QString> readKeptWorks(const QByteArray& text);

/// The pieces of work that it names, as the ledger knows them. Errors: the ledger's.
[[nodiscard]] tl::expected<std::vector<KeptWork>, StoreError> worksOf(const WorkRequest& request,
                                                                      Ledger& ledger);

/// Asks a ledger for what was kept, as of the moment at which it was made and with its own id: sent
/// twice it changes nothing. Nothing: it stands there now; words: refused for good. Error:
/// Unavailable or Conflict, it has to wait longer.
[[nodiscard]] tl::expected<std::optional<QString>, StoreError>
sendKept(const KeptRequest& kept, Ledger& ledger, const Catalogue& catalogue);

} // namespace ramplight
