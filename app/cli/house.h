// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/sitekeyfile.h"
#include "backup/backup.h"
#include "backup/houselock.h"
#include "backup/restore.h"
#include "domain/workshop.h"
#include "evidence/photokeeper.h"
#include "storage/remake.h"
#include "storage/store.h"
#include "storage/storesettings.h"

#include <QString>
#include <QTime>

#include <tl/expected.hpp>

#include <memory>
#include <optional>

// What one workshop consists of on this machine: a folder with database, key file, photos, drop
// folder, records and settings.
namespace ramplight {

/// Where things are; the folder is made on first use.
class HousePaths
{
public:
    explicit HousePaths(QString root)
        : m_root(std::move(root))
    {
    }

    /// $RAMPLIGHT_HOME, or ramplight in the user's data folder (XDG Base Directory).
    [[nodiscard]] static HousePaths standard();

    [[nodiscard]] const QString& root() const { return m_root; }
    [[nodiscard]] QString database() const { return m_root + QStringLiteral("/workshop.sqlite"); }
    [[nodiscard]] QString keys() const { return m_root + QStringLiteral("/site.keys"); }
    /// New keys on their way.
    [[nodiscard]] QString freshKeys() const { return keys() + QStringLiteral(".new"); }
    [[nodiscard]] QString photos() const { return m_root + QStringLiteral("/photos"); }
    [[nodiscard]] QString drop() const { return m_root + QStringLiteral("/drop"); }
    [[nodiscard]] QString records() const { return m_root + QStringLiteral("/records"); }
    /// Words of walk-rounds that were read.
    [[nodiscard]] QString transcripts() const { return m_root + QStringLiteral("/transcripts"); }
    /// What reviewers changed of what was understood, a line each.
    [[nodiscard]] QString corrections() const
    {
        return m_root + QStringLiteral("/corrections.jsonl");
    }
    /// What a kiosk knows and keeps while its server is away.
    [[nodiscard]] QString standby() const { return m_root + QStringLiteral("/standby"); }
    /// Photos among that.
    [[nodiscard]] QString keptPhotos() const { return standby() + QStringLiteral("/photos"); }
    /// What became of the last backup.
    [[nodiscard]] QString backupNote() const { return m_root + QStringLiteral("/backup.json"); }
    /// When the key file was last seen in two places.
    [[nodiscard]] QString keyCopyNote() const { return m_root + QStringLiteral("/keycopy.json"); }
    /// That it was brought back from a backup, and what of it is older than it was.
    [[nodiscard]] QString restoreNote() const { return m_root + QStringLiteral("/restored.json"); }
    /// Where the person at the wall is; gone after an orderly end.
    [[nodiscard]] QString place() const { return m_root + QStringLiteral("/place.json"); }
    [[nodiscard]] QString log() const { return m_root + QStringLiteral("/ramplight.log"); }
    [[nodiscard]] QString settings() const { return m_root + QStringLiteral("/settings.ini"); }
    /// Words of other languages, ramplight_de.qm; need not be there.
    [[nodiscard]] QString translations() const { return m_root + QStringLiteral("/translations"); }

    /// Makes the folder and its sub-folders, readable by this account only. Error: words.
    [[nodiscard]] tl::expected<void, QString> make() const;

private:
    QString m_root;
};

inline constexpr QLatin1StringView screenLanguageSetting{"screen/language"};

/// Settings of this kiosk, in settings.ini; every one has a default.
struct HouseSettings
{
    double diagonalInches = 24; ///< of the screen, as its maker states it
    bool lightTheme = false;
    bool lessMotion = false;
    bool sounds = true;
    QString screenLanguage; ///< of screens, records and commands; empty: English
    QString printer;        ///< CUPS queue; empty: records are saved only
    QString phoneAddress;   ///< where phones reach this kiosk (IPv4); empty: they do not
    quint16 phonePort = 8190;
    QString language = QStringLiteral("en"); ///< in which walk-rounds are spoken
    /// Where sticks are mounted: they and the drop folder are looked through for transcripts.
    QStringList sticks = {QStringLiteral("/media"), QStringLiteral("/run/media")};
    QString backupFolder;           ///< empty: no backups are made
    QTime backupAt = QTime(20, 30); ///< of each day, or as soon as the kiosk runs again
    /// A server's password comes from the environment ($RAMPLIGHT_STORE_PASSWORD), from the file
    /// that storage/passwordFile names, or from where libpq looks; never from settings.ini.
    StoreSettings store;
    bool photosInDatabase = false; ///< of a server; else in this machine's folder

    /// Error: words that name the setting.
    [[nodiscard]] static tl::expected<HouseSettings, QString> read(const HousePaths& paths);
};

/// Writes the screen's part of settings.ini; the rest of it stays. Words: why not; empty when it is
/// kept.
[[nodiscard]] QString keepScreen(const HousePaths& paths, const HouseSettings& settings);

/// The same for where phones reach the kiosk.
[[nodiscard]] QString keepPhone(const HousePaths& paths, const QString& address);

/// The same for the printer's queue; empty: none.
[[nodiscard]] QString keepPrinter(const HousePaths& paths, const QString& queue);

/// The same for where backups go; empty: none are made.
[[nodiscard]] QString keepBackupFolder(const HousePaths& paths, const QString& folder);

/// The same for where its ledger is: a server (libpq's keywords), or with an empty address the
/// file, and its photos in the folder. On a server the site is named: others may join it.
[[nodiscard]] QString keepStorage(const HousePaths& paths, const QString& server,
                                  const QString& passwordFile = {}, const SiteId& site = {});

/// From libpq's keywords and a password that is kept apart. Errors: words; a password among the
/// keywords is refused, because everybody can read arguments and settings.
[[nodiscard]] tl::expected<StoreSettings, QString> serverStore(const QString& server,
                                                               const QString& passwordFile);

/// What a backup of the workshop takes.
[[nodiscard]] BackupSource backupSource(const HousePaths& paths, const StoreSettings& store,
                                        const std::shared_ptr<const SiteKeys>& keys,
                                        const PhotoVault& photos);

/// The keys that a backup is to be brought back with. keyFile: empty for the one that is there,
/// which nobody else may read; a copy of it that lies elsewhere may be open, as on a stick. Error:
/// words.
[[nodiscard]] tl::expected<HeadKeeper, QString> restoringKeeper(const HousePaths& paths,
                                                                const QString& keyFile);

/// Brings a backup back into the workshop's folder; nobody may be at work in it. keyFile: empty for
/// the one that is there. isFoundDamaged: as in RestoreRequest. Error: words; the folder is as it
/// was.
[[nodiscard]] tl::expected<Restored, QString> restoreInto(const HousePaths& paths,
                                                          const Backup& backup,
                                                          const QString& keyFile, Moment now,
                                                          bool isFoundDamaged = false);

/// Makes the workshop's damaged file anew out of its ledger; nobody may be at work in it. Error:
/// words; the file is as it was.
[[nodiscard]] tl::expected<Remade, QString> remakeHouse(const HousePaths& paths,
                                                        const HouseSettings& settings, Moment now);

/// Where the settings say that photos are kept.
[[nodiscard]] std::unique_ptr<PhotoKeeper> openPhotos(const HousePaths& paths,
                                                      const HouseSettings& settings);

/// The same for a kiosk, which does not wait for its server for ever, and keeps what belongs there
/// until it is back.
[[nodiscard]] StoreSettings kioskStore(const HousePaths& paths, const HouseSettings& settings);
[[nodiscard]] std::unique_ptr<PhotoKeeper> openKioskPhotos(const HousePaths& paths,
                                                           const HouseSettings& settings);

/// The site's keys, made on first use: not when its database is there already, on this machine or
/// on a server, because new keys would not open what the others sealed, nor when it was set aside
/// and nothing is in its place. Finishes a renewal that was interrupted. Error: words. Blocks where
/// a server has to be asked.
[[nodiscard]] tl::expected<SiteKeys, QString> openKeys(const HousePaths& paths,
                                                       const StoreSettings& store);
/// The new keys in the place of the old ones. Error: words.
[[nodiscard]] tl::expected<void, QString> takeFreshKeys(const HousePaths& paths);
[[nodiscard]] HeadKeeper headKeeper(const HousePaths& paths, std::shared_ptr<const SiteKeys> keys);

class SystemClock : public Clock
{
public:
    [[nodiscard]] Moment now() const override;
    [[nodiscard]] qint64 steadyMs() const override; ///< goes on while the machine sleeps
};

/// A workshop opened for one command of the command line, on one thread.
class OpenHouse
{
public:
    /// clock outlives the house. mayMake: make the database when there is none.
    [[nodiscard]] static tl::expected<std::unique_ptr<OpenHouse>, QString>
    open(const HousePaths& paths, const Clock& clock, bool mayMake);

    [[nodiscard]] Store& store() { return *m_store; }
    [[nodiscard]] Workshop& workshop() { return *m_workshop; }
    [[nodiscard]] const Catalogue& catalogue() const { return m_catalogue; }
    [[nodiscard]] const SiteKeys& keys() const { return *m_keys; }
    [[nodiscard]] PhotoKeeper& photos() { return *m_photos; }
    [[nodiscard]] const HousePaths& paths() const { return m_paths; }
    /// What a backup of it takes; the house outlives it.
    [[nodiscard]] BackupSource backupSource() const;

private:
    explicit OpenHouse(const HousePaths& paths);

    HousePaths m_paths;
    std::optional<HouseLock> m_lock;
    StoreSettings m_storeSettings;
    Catalogue m_catalogue;
    std::shared_ptr<const SiteKeys> m_keys;
    std::unique_ptr<PhotoKeeper> m_photos;
    std::unique_ptr<Store> m_store;
    std::unique_ptr<Workshop> m_workshop;
};

} // namespace ramplight
