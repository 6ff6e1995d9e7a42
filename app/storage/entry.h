// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/eventcodec.h"
#include "domain/ids.h"
#include "domain/moment.h"
#include "storage/storesettings.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <vector>

// A row of the ledger, its hash, and the sealed heads. Pure functions.
namespace ramplight {

/// Names of the streams of a site.
[[nodiscard]] QString siteStream();
[[nodiscard]] QString headsStream();
[[nodiscard]] QString carStream(const CarId& car);
/// Empty when it is no car's stream.
[[nodiscard]] CarId carOfStream(const QString& stream);

struct Entry
{
    qint64 position = 0; ///< given by the database
    QString stream;
    qint64 seq = 0;
    Moment at;
    PersonId actor;
    CommandId command;
    QString type;
    int version = 1;
    QByteArray body; ///< canonical JSON
    QString prevHash;
    QString hash;

    friend bool operator==(const Entry&, const Entry&) = default;
};

/// Lower-case hex SHA-256 over these fields, each as an 8-byte big-endian length and its UTF-8
/// bytes, numbers in decimal: "ramplight-entry-1", site, stream, seq, at (ms), actor, command,
/// type, version, body, prev_hash.
[[nodiscard]] QString hashOf(const SiteId& site, const Entry& entry);

/// Where a stream stands.
struct Head
{
    QString stream;
    qint64 seq = 0;
    QString hash; ///< empty before the first entry

    static constexpr auto fields = fieldList(field("stream", &Head::stream),
                                             field("seq", &Head::seq), field("hash", &Head::hash));
    friend bool operator==(const Head&, const Head&) = default;
};

/// Body of an entry of the heads stream: where the streams stand that one append wrote to.
struct Heads
{
    static constexpr const char* type = "heads";
    static constexpr int version = 1;
    std::vector<Head> heads;
    QString key;  ///< which key sealed it; empty without a key
    QString seal; ///< lower-case hex HMAC; empty without a key
    /// Names, PINs, badges and settings had a seal of their own by then (staffseal.h): where it is
    /// not there any more, somebody took it away.
    bool staffSealed = false;
    /// How often that seal had been made by then; 0: nobody counted yet. Where there are fewer
    /// now, somebody put back what was before.
    qint64 staffNumber = 0;

    static constexpr auto fields = fieldList(
        field("heads", &Heads::heads), field("key", &Heads::key), field("seal", &Heads::seal),
        field("staffSealed", &Heads::staffSealed), field("staffNumber", &Heads::staffNumber));
    friend bool operator==(const Heads&, const Heads&) = default;
};

/// What is sealed, length-prefixed as above: "ramplight-heads-1", site, number of the entry in the
/// heads stream, hash of the entry before it, and of each head stream, seq and hash; where the
/// staff was sealed "staff-sealed" behind them, and where that was counted "staff-number" and how
/// often. So the seals are a chain of their own that cannot be made again without the key.
[[nodiscard]] QByteArray sealedBytes(const SiteId& site, qint64 seq, const QString& prevHash,
                                     const Heads& heads);
/// The same heads under the keeper's key and seal; under none where it has no key.
[[nodiscard]] Heads sealHeads(const HeadKeeper& keeper, const SiteId& site, qint64 seq,
                              const QString& prevHash, Heads heads);

/// Error: what is wrong with the row, or that a newer program wrote it.
[[nodiscard]] tl::expected<CarEnvelope, EventFault> carEnvelopeOf(const Entry& entry);
[[nodiscard]] tl::expected<SiteEnvelope, EventFault> siteEnvelopeOf(const Entry& entry);
[[nodiscard]] tl::expected<Heads, EventFault> headsOf(const Entry& entry);
/// The same fault, of an entry of the site or of a car; blank: it can be read.
[[nodiscard]] EventFault faultOf(const Entry& entry);

} // namespace ramplight
