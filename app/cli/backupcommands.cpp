// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backup.h"
#include "backup/backupnote.h"
#include "cli/commandline.h"

#include <QDir>

namespace ramplight::cli {

namespace {

QString timeOf(const Backup& backup)
{
    return backup.madeAt().toString(QStringLiteral("yyyy-MM-dd HH:mm"));
}

QString inWords(const Backup& backup)
{
    return QStringLiteral("%1 cars, %2 entries, %3 photos")
        .arg(backup.manifest.cars)
        .arg(backup.manifest.entries)
        .arg(backup.manifest.photos.size());
}

/// The folder that was named, or that of the settings.
tl::expected<QString, QString> folderOr(const QString& named, const HousePaths& paths)
{
    if (!named.isEmpty())
        return QDir(named).absolutePath();
    auto settings = HouseSettings::read(paths);
    if (!settings)
        return tl::unexpected(settings.error());
    if (settings->backupFolder.isEmpty())
        return tl::unexpected(
            QStringLiteral("No folder for backups is set. Name one with --to FOLDER, or set "
                           "backup/folder in %1.")
                .arg(paths.settings()));
    return settings->backupFolder;
}

int listBackups(const QString& folder, Terminal& terminal)
{
    const auto backups = backupsIn(folder);
    if (!backups)
        return failed(terminal, backups.error(), NoInput);
    for (const Backup& backup : *backups)
        terminal.out << backup.path << ": " << timeOf(backup) << ", " << inWords(backup)
                     << (backup.manifest.faults.isEmpty()
                             ? QString()
                             : QStringLiteral(", with %1 faults of the ledger")
                                   .arg(backup.manifest.faults.size()))
                     << Qt::endl;
    if (backups->empty())
        terminal.out << "There is no backup in " << folder << "." << Qt::endl;
    return Ok;
}

const QString noSeal =
    QStringLiteral("It carries no seal of the site, as older programs made backups: whether its "
                   "list and its day are the site's word cannot be told.");

/// A list that was changed since is a fault; what cannot be told of its seal, in words.
QString checkSeal(const Backup& backup, const HousePaths& paths, QStringList& faults)
{
    if (backup.manifest.seal.isEmpty())
        return noSeal;
    auto keys = SiteKeyFile(paths.keys()).read();
    if (!keys)
        return QStringLiteral("Its seal was not checked: %1").arg(words(keys.error()));
    const HeadKeeper keeper = headKeeper(paths, std::make_shared<const SiteKeys>(std::move(*keys)));
    if (keeper.ageOf(backup.manifest.keyId) < 0)
        return QStringLiteral("Its seal was not checked: the key file %1 is of another workshop.")
            .arg(paths.keys());
    if (sealOf(backup.manifest, keeper) == ManifestSeal::Wrong)
        faults.append(QStringLiteral("The list of what is in it was changed after it was made: "
                                     "the site's seal does not fit."));
    return {};
}

int checkBackup(const QString& path, Terminal& terminal)
{
    const auto backup = backupAt(QDir(path).absolutePath());
    if (!backup)
        return failed(terminal, backup.error(), NoInput);
    QStringList faults = faultsOf(*backup);
    const QString unsure = checkSeal(*backup, terminal.paths, faults);
    for (const QString& fault : faults)
        terminal.out << fault << Qt::endl;
    terminal.out << timeOf(*backup) << ", " << inWords(*backup) << ": "
                 << (faults.isEmpty() ? QStringLiteral("all is as it was written.")
                                      : QStringLiteral("%1 faults.").arg(faults.size()))
                 << Qt::endl;
    if (!unsure.isEmpty())
        terminal.out << unsure << Qt::endl;
    return faults.isEmpty() ? Ok : Different;
}

/// The newest of a folder that is whole and of these keys' workshop, or the backup itself.
tl::expected<Backup, QString> chosenBackup(const QString& path, const HeadKeeper& keeper)
{
    const QString absolute = QDir(path).absolutePath();
    if (auto backup = backupAt(absolute))
        return backup;
    return newestWhole(absolute, keeper);
}

} // namespace

int backup(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString to = takeOption(arguments, QStringLiteral("--to"));
    const QString verb = arguments.isEmpty() ? QString() : arguments.takeFirst();
    if (verb == QLatin1String("check") && arguments.size() == 1)
        return checkBackup(arguments.first(), terminal);
    if (!arguments.isEmpty() || (!verb.isEmpty() && verb != QLatin1String("list")))
        return usage(terminal, *find(QStringLiteral("backup")));
    const auto folder = folderOr(to, terminal.paths);
    if (!folder)
        return failed(terminal, folder.error(), BadUsage);
    if (verb == QLatin1String("list"))
        return listBackups(*folder, terminal);
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto settings = HouseSettings::read(terminal.paths);
    if (!settings)
        return failed(terminal, settings.error(), Unavailable);
    const BackupNote note = backUpAndNote(house->backupSource(), *folder,
                                          terminal.paths.backupNote(), terminal.clock.now());
    if (!note.words.isEmpty())
        return failed(terminal, note.words, Unavailable);
    const auto made = backupAt(note.path);
    if (!made)
        return failed(terminal, made.error(), Unavailable);
    terminal.out << made->path << ": " << inWords(*made) << ", checked." << Qt::endl
                 << "The site's key file is not in it. Keep a copy of " << terminal.paths.keys()
                 << " apart from the backups." << Qt::endl;
    if (made->manifest.faults.isEmpty())
        return Ok;
    terminal.err << "The backup was made, and something is wrong with the workshop itself:"
                 << Qt::endl;
    for (const QString& fault : made->manifest.faults)
        terminal.err << "    " << fault << Qt::endl;
    return Different;
}

int restoreHouse(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString keyFile = takeOption(arguments, QStringLiteral("--keys"));
    if (arguments.size() != 1)
        return usage(terminal, *find(QStringLiteral("restore")));
    const auto settings = HouseSettings::read(terminal.paths);
    if (!settings)
        return failed(terminal, settings.error(), Unavailable);
    if (settings->store.kind != StoreKind::Sqlite)
        return failed(
            terminal,
            QStringLiteral("This workshop's ledger is on a server. Nothing was changed. Bring the "
                           "backup back into a folder of its own, move it to an empty database "
                           "from there, and name that as storage/server in the settings of each "
                           "kiosk:\n"
                           "    ramplight --home FOLDER restore %1 --keys %2\n"
                           "    ramplight --home FOLDER migrate-store --to-server \"ADDRESS\"")
                .arg(arguments.first(), terminal.paths.keys()),
            Unavailable);
    // What is wrong with the keys is told once there is something to bring back.
    const auto keeper = restoringKeeper(terminal.paths, keyFile);
    const auto chosen = chosenBackup(arguments.first(), keeper.value_or(HeadKeeper()));
    if (!chosen)
        return failed(terminal, chosen.error(), NoInput);
    const auto restored = restoreInto(terminal.paths, *chosen, keyFile, terminal.clock.now());
    if (!restored)
        return failed(terminal, restored.error(), BadData);
    terminal.out << "The workshop of " << timeOf(*chosen) << " is back: " << restored->cars
                 << " cars, " << restored->entries << " entries, " << restored->photos
                 << " photos, checked." << Qt::endl;
    for (const QString& told : restored->note.told)
        terminal.out << told << Qt::endl;
    if (!restored->isSealed)
        terminal.out << noSeal << Qt::endl;
    if (!restored->wasSo.isEmpty())
        terminal.out << "The check had found this already when the backup was made:" << Qt::endl;
    for (const QString& told : restored->wasSo)
        terminal.out << "    " << told << Qt::endl;
    sayAgainstRules(restored->againstRules, terminal);
    if (restored->pinsGone)
        terminal.out << "The keys were renewed since: nobody has a PIN (ramplight staff pin NAME)."
                     << Qt::endl;
    if (!restored->setAside.isEmpty())
        terminal.out << "What was there before is in " << restored->setAside << "." << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
