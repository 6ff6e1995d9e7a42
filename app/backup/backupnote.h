// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/moment.h"
#include "domain/sitebackup.h"

#include <QDateTime>
#include <QString>

#include <tl/expected.hpp>

// What became of the house's backups, kept in the house: the backups themselves are often away.
namespace ramplight {

struct BackupNote
{
    Moment triedAt;      ///< the last try began; it may have come to no end
    Moment goodAt;       ///< the last that was made; null: none yet
    QString path;        ///< of the last that was made
    QString words;       ///< why the last try came to nothing; empty: it did not
    Moment since = {};   ///< the first try while none was made
    QString faults = {}; ///< what the last that was made found wrong with the house; empty: nothing

    static constexpr auto fields =
        fieldList(field("triedAt", &BackupNote::triedAt), field("goodAt", &BackupNote::goodAt),
                  field("path", &BackupNote::path), field("words", &BackupNote::words),
                  field("since", &BackupNote::since), field("faults", &BackupNote::faults));
    friend bool operator==(const BackupNote&, const BackupNote&) = default;
};

enum class BackupHealth {
    NotSetUp, ///< no folder is named
    Waiting,  ///< named, and none was made yet
    Good,
    Faulty, ///< made in time, and something is wrong with the house itself
    Stale,  ///< none for too long
    Failed, ///< the last try came to nothing
};

[[nodiscard]] BackupHealth healthOf(const BackupNote& note, bool hasFolder, Moment now);

/// How long a try that came to nothing rests before the next.
constexpr int tryAgainAfterMinutes = 30;

/// Whether the day's backup is to be made now: its time has come since the last one. `now` is
/// in the zone in which `at` counts. A try that lies in the future was made under a wrong clock.
[[nodiscard]] bool isDue(const BackupNote& note, bool hasFolder, QTime at, const QDateTime& now);

/// A blank note where there is none, none that can be read, or one that is not what was written:
/// then a backup is due at once.
[[nodiscard]] BackupNote readNote(const QString& path);
/// Durable when it returns. Error: words.
[[nodiscard]] tl::expected<void, QString> keepNote(const QString& path, const BackupNote& note);

} // namespace ramplight
