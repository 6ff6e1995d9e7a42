// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/backup.h"

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
};

/// Makes the workshop beside the house, checks it there from end to end with the site's keys, and
/// only then gives it the house's name; what was there is set aside under another name, never
/// removed. A kiosk's own settings stay. What the check found when the backup was made does not
/// keep it from being brought back; any other damage does. After an error the house is as it was.
[[nodiscard]] tl::expected<Restored, QString> restore(const RestoreRequest& request);

} // namespace ramplight
