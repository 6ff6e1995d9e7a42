// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/house.h"

#include "cli/brokenoff.h"
#include "cli/privacy.h"
#include "cli/settingsfile.h"
#include "cli/shipped.h"
#include "cli/translation.h"
#include "evidence/durablefile.h"
#include "evidence/photostore.h"
#include "evidence/standbyshelf.h"
#include "log/log.h"
#include "storage/sitekeycheck.h"
#include "storage/sqlphotoshelf.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSettings>
#include <QStandardPaths>
#include <QSysInfo>

#include <algorithm>
#include <cstdio>
#include <ctime>

namespace ramplight {

namespace {

/// Those below need rights that a kiosk should not have.
constexpr quint16 leastPort = 1024;

/// The file that was named, or the house's own.
QString restoringKeys(const HousePaths& paths, const QString& keyFile)
{
    return keyFile.isEmpty() ? paths.keys() : QFileInfo(keyFile).absoluteFilePath();
}

} // namespace

HousePaths HousePaths::standard()
{
    if (const QString home = qEnvironmentVariable("RAMPLIGHT_HOME"); !home.isEmpty())
        return HousePaths(QDir(home).absolutePath());
    return HousePaths(QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) +
                      QStringLiteral("/ramplight"));
}

tl::expected<void, QString> HousePaths::make() const
{
    for (const QString& folder : {m_root, photos(), drop(), records()}) {
        if (!QDir().mkpath(folder))
            return tl::unexpected(
                QStringLiteral("The folder %1 cannot be made. Nothing was changed.").arg(folder));
        QFile::setPermissions(folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    }
    return {};
}

tl::expected<StoreSettings, QString> serverStore(const QString& server, const QString& passwordFile)
{
    auto address = PostgresAddress::parse(server);
    if (!address)
        return tl::unexpected(address.error());
    if (!address->password.isEmpty())
        return tl::unexpected(
            QStringLiteral("The password does not belong here, where others can read it. Put it "
                           "into a file of mode 0600 and name that as passwordFile, or into the "
                           "environment as RAMPLIGHT_STORE_PASSWORD."));
    StoreSettings store;
    store.kind = StoreKind::PostgreSql;
    store.server = std::move(*address);
    store.server.password = qEnvironmentVariable("RAMPLIGHT_STORE_PASSWORD");
    if (store.server.password.isEmpty())
        store.server.passwordFile = passwordFile;
    return store;
}

tl::expected<HouseSettings, QString> HouseSettings::read(const HousePaths& paths)
{
    const QSettings file(paths.settings(), QSettings::IniFormat);
    if (file.status() != QSettings::NoError)
        return tl::unexpected(
            QStringLiteral("The settings in %1 cannot be read.").arg(paths.settings()));
    HouseSettings settings;
    bool isNumber = false;
    settings.diagonalInches =
        file.value(QStringLiteral("screen/diagonalInches"), 24).toDouble(&isNumber);
    if (!isNumber || settings.diagonalInches < 10 || settings.diagonalInches > 120)
        return tl::unexpected(QStringLiteral("screen/diagonalInches in %1: a number from 10 to 120 "
                                             "was expected.")
                                  .arg(paths.settings()));
    settings.lightTheme = file.value(QStringLiteral("screen/light"), false).toBool();
    settings.lessMotion = file.value(QStringLiteral("screen/lessMotion"), false).toBool();
    settings.sounds = file.value(QStringLiteral("screen/sounds"), true).toBool();
    settings.screenLanguage = file.value(screenLanguageSetting).toString();
    // A wall in English is better than none.
    if (!settings.screenLanguage.isEmpty())
        if (const auto words = translationOf(paths, settings.screenLanguage); !words)
            log::warn(QStringLiteral("screen/language in %1: %2 English is spoken instead.")
                          .arg(paths.settings(), words.error()));
    settings.printer = file.value(QStringLiteral("print/queue")).toString();
    settings.phoneAddress = file.value(QStringLiteral("phone/address")).toString();
    settings.phonePort =
        file.value(QStringLiteral("phone/port"), settings.phonePort).toString().toUShort(&isNumber);
    if (!isNumber || settings.phonePort < leastPort)
        return tl::unexpected(
            QStringLiteral("phone/port in %1: a number from %2 to 65535 was expected.")
                .arg(paths.settings())
                .arg(leastPort));
    settings.language = file.value(QStringLiteral("speech/language"), settings.language).toString();
    if (!hasLexicon(settings.language))
        return tl::unexpected(QStringLiteral("speech/language in %1: there is no lexicon for %2.")
                                  .arg(paths.settings(), settings.language));
    settings.sticks = file.value(QStringLiteral("speech/sticks"), settings.sticks).toStringList();
    settings.backupFolder = file.value(QStringLiteral("backup/folder")).toString();
    settings.backupAt = QTime::fromString(
        file.value(QStringLiteral("backup/at"), QStringLiteral("20:30")).toString(),
        QStringLiteral("HH:mm"));
    if (!settings.backupAt.isValid())
        return tl::unexpected(QStringLiteral("backup/at in %1: a time like 20:30 was expected.")
                                  .arg(paths.settings()));
    const QString photos =
        file.value(QStringLiteral("storage/photos"), QStringLiteral("folder")).toString();
    settings.photosInDatabase = photos == QLatin1String("database");
    if (!settings.photosInDatabase && photos != QLatin1String("folder"))
        return tl::unexpected(
            QStringLiteral("storage/photos in %1: folder or database was expected.")
                .arg(paths.settings()));
    // Else one wrong letter there would begin another workshop, in a file.
    const QStringList keys = file.allKeys();
    const bool namesServer = std::ranges::any_of(keys, [](const QString& key) {
        static const QStringList ofServers{QStringLiteral("kind"), QStringLiteral("server"),
                                           QStringLiteral("passwordFile"), QStringLiteral("site")};
        return ofServers.contains(key.section(QLatin1Char('/'), -1));
    });
    if (namesServer && !keys.contains(QStringLiteral("storage/kind")))
        return tl::unexpected(QStringLiteral("storage/kind is not in %1, and something beside it "
                                             "is: sqlite or postgresql was expected. Nothing was "
                                             "opened; look for a slip there.")
                                  .arg(paths.settings()));
    const QString storage =
        file.value(QStringLiteral("storage/kind"), QStringLiteral("sqlite")).toString();
    if (storage == QLatin1String("sqlite")) {
        // Else each backup of the file would hold every photo once more.
        if (settings.photosInDatabase)
            return tl::unexpected(
                QStringLiteral("storage/photos in %1: photos go into the database only where it "
                               "is on a server. Put folder there.")
                    .arg(paths.settings()));
        settings.store.kind = StoreKind::Sqlite;
        settings.store.file = paths.database();
        return settings;
    }
    if (storage != QLatin1String("postgresql"))
        return tl::unexpected(
            QStringLiteral("storage/kind in %1: sqlite or postgresql was expected.")
                .arg(paths.settings()));
    auto store = serverStore(file.value(QStringLiteral("storage/server")).toString(),
                             file.value(QStringLiteral("storage/passwordFile")).toString());
    if (!store)
        return tl::unexpected(
            QStringLiteral("storage/server in %1: %2").arg(paths.settings(), store.error()));
    settings.store = std::move(*store);
    settings.store.site = {file.value(QStringLiteral("storage/site")).toString()};
    settings.store.siteMustBeThere = !settings.store.site.isEmpty();
    return settings;
}

QString keepScreen(const HousePaths& paths, const HouseSettings& settings)
{
    return keepSettings(paths.settings(),
                        {{QStringLiteral("screen/diagonalInches"), settings.diagonalInches},
                         {QStringLiteral("screen/light"), settings.lightTheme},
                         {QStringLiteral("screen/lessMotion"), settings.lessMotion},
                         {QStringLiteral("screen/sounds"), settings.sounds}});
}

QString keepPhone(const HousePaths& paths, const QString& address)
{
    return keepSettings(paths.settings(), {{QStringLiteral("phone/address"), address}});
}

QString keepPrinter(const HousePaths& paths, const QString& queue)
{
    return keepSettings(paths.settings(), {{QStringLiteral("print/queue"), queue}});
}

QString keepBackupFolder(const HousePaths& paths, const QString& folder)
{
    return keepSettings(paths.settings(), {{QStringLiteral("backup/folder"), folder}});
}

QString keepStorage(const HousePaths& paths, const QString& server, const QString& passwordFile,
                    const SiteId& site)
{
    const bool isFile = server.isEmpty();
    const auto orGone = [](const QString& value) {
        return value.isEmpty() ? QVariant() : QVariant(value);
    };
    std::vector<SettingChange> changes{
        {QStringLiteral("storage/kind"),
         isFile ? QStringLiteral("sqlite") : QStringLiteral("postgresql")},
        {QStringLiteral("storage/server"), orGone(server)},
        {QStringLiteral("storage/site"), orGone(site.text)},
        {QStringLiteral("storage/passwordFile"), orGone(isFile ? QString() : passwordFile)}};
    if (isFile)
        changes.emplace_back(QStringLiteral("storage/photos"), QVariant());
    return keepSettings(paths.settings(), changes);
}

std::unique_ptr<PhotoKeeper> openPhotos(const HousePaths& paths, const HouseSettings& settings)
{
    if (settings.photosInDatabase)
        return std::make_unique<PhotoKeeper>(std::make_unique<SqlPhotoShelf>(settings.store));
    return std::make_unique<PhotoStore>(paths.photos());
}

StoreSettings kioskStore(const HousePaths& paths, const HouseSettings& settings)
{
    StoreSettings store = settings.store;
    store.patience = kioskPatience;
    store.standby = paths.standby();
    if (settings.photosInDatabase)
        store.keptPhotos = paths.keptPhotos();
    return store;
}

std::unique_ptr<PhotoKeeper> openKioskPhotos(const HousePaths& paths, const HouseSettings& settings)
{
    if (!settings.photosInDatabase)
        return openPhotos(paths, settings);
    return std::make_unique<PhotoKeeper>(std::make_unique<StandbyShelf>(
        std::make_unique<SqlPhotoShelf>(kioskStore(paths, settings)), paths.keptPhotos()));
}

tl::expected<SiteKeys, QString> openKeys(const HousePaths& paths, const StoreSettings& store)
{
    if (store.kind == StoreKind::Sqlite)
        if (const QString words = whatWasSetAside(paths); !words.isEmpty())
            return tl::unexpected(words);
    const SiteKeyFile file(paths.keys());
    if (QFileInfo::exists(paths.keys())) {
        auto keys = file.read();
        if (!keys)
            return tl::unexpected(QStringLiteral("%1 %2").arg(words(keys.error()), paths.keys()));
        auto fresh = SiteKeyFile(paths.freshKeys()).read();
        const bool isDatabase =
            store.kind == StoreKind::PostgreSql || QFileInfo::exists(paths.database());
        if (!fresh || !isDatabase)
            return std::move(*keys);
        // A renewal that was interrupted: the database says whether it came about.
        const auto fitOf = [&](SiteKeys of) {
            return keyFit(store,
                          headKeeper(paths, std::make_shared<const SiteKeys>(std::move(of))));
        };
        const auto old = fitOf(std::move(*keys));
        const auto renewed = fitOf(std::move(*fresh));
        if (old && renewed && *old == KeyFit::Other && *renewed == KeyFit::Fits)
            if (auto taken = takeFreshKeys(paths); !taken)
                return tl::unexpected(taken.error());
        auto now = file.read();
        if (!now)
            return tl::unexpected(QStringLiteral("%1 %2").arg(words(now.error()), paths.keys()));
        return std::move(*now);
    }
    if (store.kind == StoreKind::PostgreSql) {
        StoreSettings asked = store;
        asked.patience = kioskPatience;
        const auto there = isSiteThere(asked);
        if (!there)
            return tl::unexpected(
                QStringLiteral("The key file %1 is missing, and the workshop's server cannot be "
                               "asked whether the workshop has one already. Nothing was made. Copy "
                               "site.keys from a kiosk that works to that place (mode 0600), or "
                               "see to the server, and start again. %2")
                    .arg(paths.keys(), there.error().words));
        if (*there)
            return tl::unexpected(
                QStringLiteral("The key file %1 is missing. The workshop is on its server already, "
                               "and all its kiosks have one and the same key file: copy site.keys "
                               "from the folder of a kiosk that works to that place (mode 0600; "
                               "\"ramplight key copy\" there and \"ramplight key take\" here do it "
                               "with a stick) and start again. Nothing was changed, and no new "
                               "file was made: with another one no PIN could be checked.")
                    .arg(paths.keys()));
    }
    if (QFileInfo::exists(paths.database()))
        return tl::unexpected(
            QStringLiteral(
                "The key file %1 is missing, but there is a workshop here. Put back the copy "
                "that was kept apart; without it the workshop cannot be opened.")
                .arg(paths.keys()));
    auto keys = file.create();
    if (!keys)
        return tl::unexpected(words(keys.error()));
    return std::move(*keys);
}

tl::expected<void, QString> takeFreshKeys(const HousePaths& paths)
{
    if (std::rename(QFile::encodeName(paths.freshKeys()).constData(),
                    QFile::encodeName(paths.keys()).constData()) != 0 ||
        !bringToDisk(paths.root()))
        return tl::unexpected(words(AccessError::KeyFileNoWriting) + QLatin1Char(' ') +
                              paths.keys());
    return {};
}

HeadKeeper headKeeper(const HousePaths& paths, std::shared_ptr<const SiteKeys> keys)
{
    HeadKeeper keeper;
    keeper.keyId = keys->id();
    keeper.keyFile = paths.keys();
    for (const SiteKeys::Past& past : keys->past())
        keeper.past.push_back({past.id, [keys, id = past.id](const QByteArray& bytes) {
                                   return keys->pastDigest(id, bytes);
                               }});
    keeper.digest = [keys = std::move(keys)](const QByteArray& bytes) {
        return keys->keyedDigest(bytes);
    };
    return keeper;
}

BackupSource backupSource(const HousePaths& paths, const StoreSettings& store,
                          const std::shared_ptr<const SiteKeys>& keys, const PhotoVault& photos)
{
    return {store,
            headKeeper(paths, keys),
            photos,
            paths.transcripts(),
            paths.corrections(),
            QCoreApplication::applicationVersion(),
            knownCatalogues,
            QSysInfo::machineHostName()};
}

tl::expected<HeadKeeper, QString> restoringKeeper(const HousePaths& paths, const QString& keyFile)
{
    const SiteKeyFile file(restoringKeys(paths, keyFile));
    // A copy may come from a stick, whose file system knows no modes; in the house it has one.
    const bool isCopy = QFileInfo(file.path()) != QFileInfo(paths.keys());
    auto keys = isCopy ? file.readFromStick() : file.read();
    if (!keys)
        return tl::unexpected(words(keys.error()));
    return headKeeper(paths, std::make_shared<const SiteKeys>(std::move(*keys)));
}

tl::expected<Restored, QString> restoreInto(const HousePaths& paths, const Backup& backup,
                                            const QString& keyFile, Moment now, bool isFoundDamaged)
{
    auto keeper = restoringKeeper(paths, keyFile);
    if (!keeper)
        return tl::unexpected(keeper.error());
    auto known = knownCatalogues();
    if (!known)
        return tl::unexpected(known.error());
    const auto name = [root = QDir(paths.root())](const QString& path) {
        return root.relativeFilePath(path);
    };
    return restore({backup,
                    QDir(paths.root()).absolutePath(),
                    {name(paths.database()), name(paths.keys()), name(paths.photos()),
                     name(paths.transcripts()), name(paths.corrections()), name(paths.settings()),
                     name(paths.restoreNote()), name(paths.backupNote())},
                    restoringKeys(paths, keyFile),
                    std::move(*keeper),
                    now,
                    std::move(*known),
                    isFoundDamaged});
}

tl::expected<Remade, QString> remakeHouse(const HousePaths& paths, const HouseSettings& settings,
                                          Moment now)
{
    const auto alone = HouseLock::alone(paths.root());
    if (!alone)
        return tl::unexpected(alone.error());
    auto keys = openKeys(paths, settings.store);
    if (!keys)
        return tl::unexpected(keys.error());
    auto known = knownCatalogues();
    if (!known)
        return tl::unexpected(known.error());
    auto remade = remakeFile(settings.store,
                             headKeeper(paths, std::make_shared<const SiteKeys>(std::move(*keys))),
                             std::move(*known), now);
    if (!remade)
        return tl::unexpected(remade.error().words);
    return *remade;
}

BackupSource OpenHouse::backupSource() const
{
    return ramplight::backupSource(m_paths, m_storeSettings, m_keys, *m_photos);
}

Moment SystemClock::now() const
{
    return {QDateTime::currentMSecsSinceEpoch()};
}

qint64 SystemClock::steadyMs() const
{
    timespec now{};
    ::clock_gettime(CLOCK_BOOTTIME, &now);
    return qint64{now.tv_sec} * 1000 + now.tv_nsec / 1'000'000;
}

OpenHouse::OpenHouse(const HousePaths& paths)
    : m_paths(paths)
{
}

tl::expected<std::unique_ptr<OpenHouse>, QString> OpenHouse::open(const HousePaths& paths,
                                                                  const Clock& clock, bool mayMake)
{
    auto settings = HouseSettings::read(paths);
    if (!settings)
        return tl::unexpected(settings.error());
    if (!mayMake && settings->store.kind == StoreKind::Sqlite &&
        !QFileInfo::exists(paths.database()))
        return tl::unexpected(
            QStringLiteral("There is no workshop in %1. Set one up at the kiosk first.")
                .arg(paths.root()));
    if (auto made = paths.make(); !made)
        return tl::unexpected(made.error());
    if (auto closed = closeToOthers(paths); !closed)
        return tl::unexpected(closed.error());
    auto catalogue = shippedCatalogue();
    if (!catalogue)
        return tl::unexpected(catalogue.error());
    auto keys = openKeys(paths, settings->store);
    if (!keys)
        return tl::unexpected(keys.error());
    std::unique_ptr<OpenHouse> house(new OpenHouse(paths));
    auto lock = HouseLock::inCommon(paths.root());
    if (!lock)
        return tl::unexpected(lock.error());
    house->m_lock.emplace(std::move(*lock));
    house->m_storeSettings = settings->store;
    house->m_catalogue = std::move(*catalogue);
    house->m_keys = std::make_shared<const SiteKeys>(std::move(*keys));
    auto store = Store::open(settings->store, headKeeper(paths, house->m_keys));
    if (!store)
        return tl::unexpected(store.error().words);
    house->m_store = std::move(*store);
    house->m_photos = openPhotos(paths, *settings);
    house->m_workshop =
        std::make_unique<Workshop>(house->m_store->ledger(), clock, house->m_catalogue);
    return house;
}

} // namespace ramplight
