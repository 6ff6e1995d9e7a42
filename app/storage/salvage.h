// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"
#include "domain/spokenround.h"

#include <QString>

#include <tl/expected.hpp>

#include <set>
#include <vector>

// What was done in a house after its backup, read out of the file that the disk damaged.
namespace ramplight {

class SqlLedger;

/// Something was done about it since the backup that did not come along.
struct CarLeftBehind
{
    CarId car;
    QString stockNumber; ///< empty: it is not known
    bool isNew = false;  ///< the backup knows no such car

    friend bool operator==(const CarLeftBehind&, const CarLeftBehind&) = default;
};

struct Salvaged
{
    QString hindrance; ///< why nothing could come along at all, in words; empty: something could
    /// There may be more than what is named here that did not come along.
    bool perhapsMore = false;
    qint64 entries = 0;      ///< of the site and its cars that came along
    std::vector<CarId> cars; ///< that have some of them
    std::vector<CarLeftBehind> leftBehind;
    /// People, rights, bays or rules were changed since, and that did not come along.
    bool siteLeftBehind = false;
    /// Names, PINs, badges and settings are those of the damaged file.
    bool staffCame = false;
    std::set<PhotoId> photos;           ///< that entries name which came along
    std::set<PhotoId> removedPhotos;    ///< that such entries removed under the house's retention
    std::set<TranscriptId> transcripts; ///< of walk-rounds that came along
};

/// Adds to a ledger brought back from a backup what a damaged file has of the same site beyond it,
/// as far as that is proven whole, in the order in which it was written, and makes the read tables.
/// A stream is taken to its end or not at all: each of its entries since reads and follows the one
/// before, no other was there, and a head that the site's key sealed names the last. A command
/// comes whole or not at all; nothing comes that was decided on what did not. Heads in front of
/// which others are missing are sealed anew.
///
/// file: a copy of it with its log, which SQLite may write into. backup: seals with the key that
/// the site has now. Whatever is wrong with the file is an answer; errors are those of the backup's
/// side, which is of no use then. On the ledger's thread.
[[nodiscard]] tl::expected<Salvaged, StoreError> salvage(const QString& file, SqlLedger& backup);

} // namespace ramplight
