// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"

#include <QFuture>
#include <QString>
#include <QStringList>
#include <QTimeZone>

#include <tl/expected.hpp>

#include <optional>

namespace ramplight {

enum class BackupState {
    NotSetUp, ///< no folder is named
    Waiting,  ///< named, and none was made yet
    Good,
    Faulty, ///< made, and something is wrong with the workshop itself
    Stale,  ///< none for too long, or none at all
    Failed,
};

/// That the workshop was brought back from a backup.
struct BroughtBack
{
    Moment at;                 ///< null: it never was
    Moment madeAt;             ///< of the backup
    QStringList told;          ///< what came along since then, and what did not; in words
    QStringList cars;          ///< stock numbers of those that are not as they were
    bool isLeftBehind = false; ///< something did not come along
};

struct BackupStatus
{
    BackupState state = BackupState::NotSetUp;
    bool due = false; ///< the day's backup is to be made now
    QString folder;
    QString at;            ///< of each day, "20:30"
    Moment goodAt;         ///< of the last one that was made; null: none yet
    QString words;         ///< why the last try came to nothing
    QString faults;        ///< what the last one found wrong with the workshop
    bool sameDisk = false; ///< one broken disk would take workshop and backups
    Moment keyCopiedAt;    ///< when the key file in use was seen in two places; null: never
    BroughtBack broughtBack;
    Moment since = {}; ///< while none was made: the first try, or when the folder was named
};

/// A backup that can be brought back.
struct BackupOffer
{
    QString path;
    Moment madeAt;
    int cars = 0;
    QStringList faults = {}; ///< what the check found when it was made
    /// Photos, and walk-rounds' words, that neither it nor the house has whole: they would be gone.
    int photosLacking = 0;
    int walkRoundsLacking = 0;
};

/// The backups as the screens see them. Answers come from other threads; calls on the GUI thread.
class BackupPort
{
public:
    BackupPort() = default;
    BackupPort(const BackupPort&) = delete;
    BackupPort& operator=(const BackupPort&) = delete;
    virtual ~BackupPort() = default;

    /// The day's time counts in this zone.
    [[nodiscard]] virtual QFuture<BackupStatus> status(const QTimeZone& zone) = 0;
    /// Takes as long as it takes. What became of it is the new status.
    [[nodiscard]] virtual QFuture<BackupStatus> backUp() = 0;
    /// Kept for the next start, too; empty: no more backups. Error: words.
    [[nodiscard]] virtual QFuture<tl::expected<BackupStatus, QString>>
    setFolder(const QString& folder) = 0;
    /// Folders on the sticks and disks that are plugged in.
    [[nodiscard]] virtual QFuture<QStringList> places() = 0;
    /// Whether a backup can be brought back from here: not where the workshop is on a server.
    [[nodiscard]] virtual bool canBringBack() const = 0;
    /// The newest whose ledger is whole, read from end to end with what belongs to it.
    [[nodiscard]] virtual QFuture<std::optional<BackupOffer>> lastWhole() = 0;
    /// While the workshop cannot be opened; what was done since comes along as far as the damaged
    /// file has it whole. Error: words; everything is as it was.
    [[nodiscard]] virtual QFuture<tl::expected<void, QString>>
    bringBack(const BackupOffer& offer) = 0;
    /// Whether only what the ledger makes again is damaged. Takes as long as a check of the ledger.
    [[nodiscard]] virtual QFuture<bool> canRemake() = 0;
    /// Makes the workshop's file anew out of its ledger; nothing is lost by it. Error: words;
    /// everything is as it was.
    [[nodiscard]] virtual QFuture<tl::expected<void, QString>> remake() = 0;
};

} // namespace ramplight
