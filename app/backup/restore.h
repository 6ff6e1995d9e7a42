// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/backup.h"
#include "backup/restorenote.h"

// A workshop brought back from a backup. Errors are words for a person.
namespace ramplight {

/// How a workshop's folder is laid out, as names in it.
struct HouseNames
{
    QString database;
    QString keys;
    QString photos;
    QString transcripts;
    QString corrections;
    QString settings;
    QString restoreNote = {}; ///< see restorenote.h; empty: none is kept
    QString backupNote = {};  ///< goes: a backup of what came back is due at once
};

struct RestoreRequest
{
    Backup backup;
    QString house; ///< the workshop's folder; may be missing or hold a damaged workshop
    HouseNames names;
    QString keyFile;   ///< the site's; copied into the house
    HeadKeeper keeper; ///< with the keys of that file
    Moment now;
    KnownCatalogues known = {}; ///< what opened work is held against
    /// Somebody found the house damaged: what was done since is wanted also where nothing is found
    /// wrong with its file now.
    bool isFoundDamaged = false;
};

struct Restored
{
    QString setAside; ///< what was in the house before; empty when there was nothing
    qint64 entries = 0;
    int cars = 0;
    int photos = 0;
    bool pinsGone = false; ///< the keys were renewed since: everybody needs a new PIN
    /// What is as it was written, and by the rules of this program should not have been, unless the
    /// check said so already when the backup was made: an older program knew fewer rules.
    QStringList againstRules;
    /// What was wrong with the workshop already when the backup was made, as the check tells it.
    QStringList wasSo;
    Lacking lacking;       ///< what neither the backup nor the house had as it was written
    bool isSealed = false; ///< the site's seal says so, and of which day the backup is
    /// What was read out of the damaged file that was there, and what could not be.
    Salvaged since;
    /// All of that in words, and what else there is to say of a house that was there; blank: there
    /// was none.
    RestoreNote note;
};

/// Makes the workshop beside the house, checks it there from end to end with the site's keys, and
/// only then gives it the house's name; what was there is set aside under another name, never
/// removed. What else lies in the house, as a kiosk's own settings and words do, comes along. What
/// the check found when the backup was made does not keep it from being brought back where the
/// site's seal says that it found it. Nor do photos and words: where the backup does not have them
/// as they were written, the house's own are taken, and what is in neither is told. Any other
/// damage does. After an error the house is as it was.
///
/// Where the house's own file is damaged, what was done since the backup comes along as far as that
/// file has it whole (storage/salvage.h), with its photos and walk-rounds. A house that is whole
/// goes back to the backup: that is what was asked for.
[[nodiscard]] tl::expected<Restored, QString> restore(const RestoreRequest& request);

} // namespace ramplight
