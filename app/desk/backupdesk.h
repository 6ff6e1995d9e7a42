// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/backup.h"
#include "domain/ports.h"
#include "kiosk/backgroundpool.h"
#include "kiosk/backupport.h"

#include <QTime>

#include <functional>
#include <mutex>
#include <optional>

namespace ramplight {

struct BackupPlan
{
    QString folder;      ///< empty: none are made
    QTime at;            ///< of each day
    QString note;        ///< file, see backupnote.h
    QString keyCopyNote; ///< file, see keycopynote.h
    /// Where sticks are mounted.
    QStringList sticks;
    /// Keeps another folder for the next start. Words: why not; empty when it is kept.
    std::function<QString(const QString& folder)> keepFolder;
    /// Brings a backup back into the house. Error: words. Null: this house cannot be brought back
    /// from here.
    std::function<tl::expected<void, QString>(const Backup& backup)> bringBack{};
    /// Whether only what the ledger makes again is damaged in the house's file. Null: it is not
    /// known here.
    std::function<bool()> canRemake{};
    /// Makes that file anew. Error: words.
    std::function<tl::expected<void, QString>()> remake{};
    QString restoreNote{}; ///< file, see restorenote.h
    /// Nothing is kept in the house from here on: what would be is lost when the other takes its
    /// place. Words: what whoever asks is told.
    std::function<void(const QString& words)> closeHouse{};
    /// It did not come to that.
    std::function<void()> openHouse{};
};

/// The backups of a real workshop, made on a thread of their own that gives way to everything else.
/// GUI thread.
class BackupDesk : public BackupPort
{
public:
    /// The clock and the source's photos outlive it.
    BackupDesk(BackupSource source, BackupPlan plan, const Clock& clock);
    /// Waits for a backup that is being made.
    ~BackupDesk() override;

    [[nodiscard]] QFuture<BackupStatus> status(const QTimeZone& zone) override;
    [[nodiscard]] QFuture<BackupStatus> backUp() override;
    [[nodiscard]] QFuture<tl::expected<BackupStatus, QString>>
    setFolder(const QString& folder) override;
    [[nodiscard]] QFuture<QStringList> places() override;
    [[nodiscard]] bool canBringBack() const override { return m_plan.bringBack != nullptr; }
    [[nodiscard]] QFuture<std::optional<BackupOffer>> lastWhole() override;
    [[nodiscard]] QFuture<tl::expected<void, QString>> bringBack(const BackupOffer& offer) override;
    [[nodiscard]] QFuture<bool> canRemake() override;
    [[nodiscard]] QFuture<tl::expected<void, QString>> remake() override;

private:
    /// While the house is closed. Error: words.
    [[nodiscard]] tl::expected<void, QString>
    mended(const std::function<tl::expected<void, QString>()>& mend) const;
    /// Without a zone nothing is said to be due.
    [[nodiscard]] BackupStatus now(const std::optional<QTimeZone>& zone = {}) const;
    [[nodiscard]] QString folder() const;
    [[nodiscard]] tl::expected<BackupStatus, QString> take(const QString& folder);

    const BackupSource m_source;
    BackupPlan m_plan;
    const Clock& m_clock;
    mutable std::mutex m_guard; ///< of m_plan.folder and of what follows
    Moment m_namedAt;           ///< or the start, when it was named before
    QThreadPool m_looking;
    BackgroundPool m_making;
};

} // namespace ramplight
