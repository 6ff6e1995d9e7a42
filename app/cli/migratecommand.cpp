// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"
#include "cli/commandline.h"
#include "cli/shipped.h"
#include "evidence/photostore.h"
#include "storage/photooutbox.h"
#include "storage/sitekeycheck.h"
#include "storage/standby.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>

#include <algorithm>

namespace ramplight::cli {

namespace {

/// Where the workshop goes. Error: words.
tl::expected<StoreSettings, QString> targetOf(const QString& server, const QString& passwordFile,
                                              const HousePaths& paths, const SiteId& site)
{
    if (server.isEmpty()) {
        StoreSettings target;
        target.site = site;
        target.file = paths.database();
        if (QFile::exists(target.file))
            return tl::unexpected(QStringLiteral("There is a database in %1 already. Nothing was "
                                                 "changed; move it away first.")
                                      .arg(target.file));
        return target;
    }
    auto target = serverStore(server, passwordFile);
    if (target)
        target->site = site;
    return target;
}

struct Moved
{
    SiteCopied copied;
    QStringList againstRules; ///< as it was before, and by the rules of this program not to be
};

/// Copied and compared. Error: words; the house is as it was.
tl::expected<Moved, QString> copied(SqlLedger& from, const StoreSettings& target,
                                    const HeadKeeper& keeper)
{
    auto known = knownCatalogues();
    if (!known)
        return tl::unexpected(known.error());
    auto to = SqlLedger::open(target, keeper);
    if (!to)
        return tl::unexpected(to.error().words);
    const auto done = copySite(from, **to);
    if (!done)
        return tl::unexpected(done.error().words);
    const auto difference = differenceBetween(from, **to);
    if (!difference)
        return tl::unexpected(difference.error().words);
    if (!difference->isEmpty())
        return tl::unexpected(QStringLiteral("What arrived is not the same: %1. The workshop stays "
                                             "where it is.")
                                  .arg(*difference));
    const VerifyReport report = Verifier(**to, {}, std::move(*known)).run();
    if (const LedgerFault* damage = report.damage())
        return tl::unexpected(QStringLiteral("The ledger is not whole: %1. The workshop stays "
                                             "where it is; run verify.")
                                  .arg(damage->told()));
    Moved moved{*done, {}};
    for (const LedgerFault& fault : report.faults)
        moved.againstRules.append(fault.told());
    return moved;
}

/// What this kiosk still has for the server, in words; empty: nothing. Without the server nobody
/// would ever send it or see it.
QString keptHere(const HousePaths& paths, const SiteId& site)
{
    const auto kept = Standby::keptIn(paths.standby(), site);
    if (!kept)
        return QStringLiteral("Whether this kiosk still has work for the server cannot be read: %1 "
                              "Nothing was moved.")
            .arg(kept.error().words);
    const auto waiting = std::ranges::count_if(*kept, &KeptRequest::waits);
    const auto photos = PhotoOutbox(paths.keptPhotos()).waiting().size();
    if (waiting > 0 || photos > 0)
        return QStringLiteral(
                   "Kept here and not yet on the wall: %1 entries, %2 photos. Nothing "
                   "was moved: start the kiosk, wait until they are sent, and move then.")
            .arg(waiting)
            .arg(photos);
    if (!kept->empty())
        return QStringLiteral(
                   "This kiosk shows %1 things that the server refused or that were damaged "
                   "here, and nobody has read them yet. Nothing was moved: start the kiosk, "
                   "read what it shows of them, and move then.")
            .arg(kept->size());
    return {};
}

} // namespace

int migrateStore(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString server = takeOption(arguments, QStringLiteral("--to-server"));
    const QString named = takeOption(arguments, QStringLiteral("--password-file"));
    const QString passwordFile = named.isEmpty() ? named : QFileInfo(named).absoluteFilePath();
    const bool toFile = takeFlag(arguments, QStringLiteral("--to-file"));
    if (!arguments.isEmpty() || toFile != server.isEmpty())
        return usage(terminal, *find(QStringLiteral("migrate-store")));
    const HousePaths& paths = terminal.paths;
    const auto settings = HouseSettings::read(paths);
    if (!settings)
        return failed(terminal, settings.error(), Unavailable);
    if (toFile == (settings->store.kind == StoreKind::Sqlite))
        return failed(terminal,
                      toFile ? QStringLiteral("The workshop is in a file already.")
                             : QStringLiteral("The workshop is on a server already."),
                      BadUsage);
    if (!toFile && !QFile::exists(paths.database()))
        return failed(terminal, QStringLiteral("There is no workshop in %1.").arg(paths.root()),
                      NoInput);
    const auto alone = HouseLock::alone(paths.root());
    if (!alone)
        return failed(terminal, alone.error(), Unavailable);
    auto keys = openKeys(paths, settings->store);
    if (!keys)
        return failed(terminal, keys.error(), NoInput);
    const HeadKeeper keeper = headKeeper(paths, std::make_shared<const SiteKeys>(std::move(*keys)));
    auto from = SqlLedger::open(settings->store, keeper);
    if (!from)
        return failed(terminal, from.error().words, Unavailable);
    if (auto fits = checkKeys((*from)->connection(), (*from)->siteId(), keeper); !fits)
        return failed(terminal, fits.error().words, Unavailable);
    const SiteId site = (*from)->siteId();
    if (toFile)
        if (const QString held = keptHere(paths, site); !held.isEmpty())
            return failed(terminal, held, Unavailable);
    const auto target = targetOf(server, passwordFile, paths, site);
    if (!target)
        return failed(terminal, target.error(), BadUsage);
    const auto done = copied(**from, *target, keeper);
    from->reset();
    tl::expected<PhotosTaken, QString> photos;
    if (done && settings->photosInDatabase) {
        PhotoStore folder(paths.photos());
        photos = takePhotos(*openPhotos(paths, *settings), folder);
    }
    if (!done || !photos) {
        if (toFile)
            QFile::remove(paths.database());
        return failed(terminal, done ? photos.error() : done.error(), Unavailable);
    }
    for (const QString& fault : photos->faults)
        terminal.err << fault << Qt::endl;
    if (const QString fault = keepStorage(paths, server, passwordFile, toFile ? SiteId{} : site);
        !fault.isEmpty())
        return failed(terminal, fault, Unavailable);
    terminal.out << done->copied.cars << " cars, " << done->copied.entries
                 << " entries moved and compared entry by entry." << Qt::endl;
    sayAgainstRules(done->againstRules, terminal);
    if (settings->photosInDatabase)
        terminal.out << photosWords(photos->taken) << " brought into " << paths.photos() << "."
                     << Qt::endl;
    if (toFile)
        return Ok;
    terminal.out << "The photos are still in " << paths.photos()
                 << ". For several kiosks set photos=database under [storage] in "
                 << paths.settings() << ", and take them over: ramplight photos take "
                 << paths.photos() << Qt::endl;
    // Nobody shall go on working in it by mistake.
    const QString aside =
        paths.database() + QDateTime::fromMSecsSinceEpoch(terminal.clock.now().ms, Qt::UTC)
                               .toString(QStringLiteral("'.moved-'yyyyMMdd-HHmmss"));
    if (QFile::rename(paths.database(), aside))
        terminal.out << "The file that it was in is now " << aside << "." << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
