// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/knowncatalogues.h"
#include "domain/ports.h"
#include "storage/storesettings.h"

#include <QString>

#include <tl/expected.hpp>

// A house's own file that the disk damaged. What the ledger makes (read tables, indexes, free
// pages) can be made again out of it, and nothing is lost; a backup would lose what was done since.
namespace ramplight {

/// What of the file is not as it was written.
enum class Hurt {
    Nothing,
    ReadTables, ///< nothing that is kept: the ledger reads whole, and so does what lies beside it
    More,       ///< something that only a backup has
};

/// Reads all of it on a connection of its own and changes nothing; takes as long as a check of the
/// ledger. Any thread. A file that cannot be looked through is hurt.
[[nodiscard]] Hurt hurtIn(const StoreSettings& file, const HeadKeeper& keeper);

struct Remade
{
    int cars = 0;
    qint64 entries = 0;
    QString setAside; ///< the damaged file
};

/// Makes the file anew out of its ledger: copies entry by entry into another one, checks that from
/// end to end, and exchanges the two; the damaged one is kept under another name. Nobody else has
/// the file open. Errors: Damaged (more is hurt than that; words say what), Unavailable; the file
/// is as it was. Any thread.
[[nodiscard]] tl::expected<Remade, StoreError>
remakeFile(const StoreSettings& file, const HeadKeeper& keeper, KnownCatalogues known, Moment now);

/// Where that broke off with the damaged file set aside and the new one not yet in its place:
/// brings it there. Whether it did. Nobody else may be in the house.
bool finishRemake(const QString& file, Moment now);
/// Whether it looks like that.
[[nodiscard]] bool mayFinishRemake(const QString& file);

} // namespace ramplight
