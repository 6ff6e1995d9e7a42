// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"
#include "cli/commandline.h"
#include "cli/shipped.h"
#include "evidence/durablefile.h"
#include "evidence/photostore.h"
#include "storage/photooutbox.h"
#include "storage/privatefile.h"
#include "storage/sitekeycheck.h"
#include "storage/standby.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <QFile>
#include <QFileInfo>
#include <QSysInfo>

#include <algorithm>
#include <tuple>

namespace ramplight::cli {

namespace {

/// Where a workshop is that is not on a server, for whoever looks for it there.
QString placeOf(const HousePaths& paths)
{
    return QStringLiteral("the file %1 on the machine %2")
        .arg(QFileInfo(paths.database()).absoluteFilePath(), QSysInfo::machineHostName());
}

struct Moved
{
    SiteCopied copied;
    QStringList againstRules; ///< as it was before, and by the rules of this program not to be
};

/// Error: words that name the damage.
tl::expected<VerifyReport, QString> checked(SqlLedger& ledger)
{
    auto known = knownCatalogues();
    if (!known)
        return tl::unexpected(known.error());
    VerifyReport report = Verifier(ledger, {}, std::move(*known)).run();
    if (const LedgerFault* damage = report.damage())
        return tl::unexpected(QStringLiteral("The ledger is not whole: %1. The workshop stays "
                                             "where it is; run verify.")
                                  .arg(damage->told()));
    return report;
}

/// Copied and compared. Error: words; the house is as it was.
tl::expected<Moved, QString> copied(SqlLedger& from, SqlLedger& to)
{
    const auto done = copySite(from, to);
    if (!done)
        return tl::unexpected(done.error().words);
    const auto difference = differenceBetween(from, to);
    if (!difference)
        return tl::unexpected(difference.error().words);
    if (!difference->isEmpty())
        return tl::unexpected(QStringLiteral("What arrived is not the same: %1. The workshop stays "
                                             "where it is.")
                                  .arg(*difference));
    const auto report = checked(to);
    if (!report)
        return tl::unexpected(report.error());
    Moved moved{*done, {}};
    for (const LedgerFault& fault : report->faults)
        moved.againstRules.append(fault.told());
    return moved;
}

/// In a transaction of its own. Error: words.
template <class Mark>
tl::expected<void, QString> marked(SqlLedger& ledger, Mark mark)
{
    auto writing = Transaction::write(ledger.connection(), ledger.siteId());
    if (!writing)
        return tl::unexpected(storeError(writing.error()).words);
    if (auto done = mark(ledger.connection(), ledger.siteId()); !done)
        return tl::unexpected(storeError(done.error()).words);
    if (auto committed = writing->commit(); !committed)
        return tl::unexpected(storeError(committed.error()).words);
    return {};
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

/// The way of one workshop from where the settings say that it is to where it is wanted.
class Moving
{
public:
    Moving(Terminal& terminal, const HouseSettings& settings, HeadKeeper keeper)
        : m_terminal(terminal)
        , m_paths(terminal.paths)
        , m_settings(settings)
        , m_keeper(std::move(keeper))
    {
    }

    int toServer(const QString& server, const QString& passwordFile);
    int toFile();
    /// It was moved to the server, all of it, and only the server was not told: the settings name
    /// that, and on the server it is said to be in the file here.
    [[nodiscard]] bool isHalfThere() const;

private:
    [[nodiscard]] SiteMove move() const { return {m_terminal.clock.now(), placeOf(m_paths)}; }
    [[nodiscard]] tl::expected<std::unique_ptr<SqlLedger>, QString>
    opened(const StoreSettings& settings) const;
    [[nodiscard]] tl::expected<void, QString> markAsComing(SqlLedger& to) const;
    [[nodiscard]] tl::expected<Moved, QString> copiedHere(SqlLedger& from);
    [[nodiscard]] QString keepInFile(SqlLedger& from);
    [[nodiscard]] int finish(SqlLedger& from);
    [[nodiscard]] int say(const QString& words) const
    {
        return failed(m_terminal, words, Unavailable);
    }
    void tell(const Moved& moved) const;
    /// A file on its way here.
    [[nodiscard]] QString draft() const { return m_paths.database() + QStringLiteral(".moving"); }

    Terminal& m_terminal;
    const HousePaths& m_paths;
    const HouseSettings& m_settings;
    const HeadKeeper m_keeper;
    PhotosTaken m_photos;
};

tl::expected<std::unique_ptr<SqlLedger>, QString>
Moving::opened(const StoreSettings& settings) const
{
    auto ledger = SqlLedger::open(settings, m_keeper);
    if (!ledger)
        return tl::unexpected(ledger.error().words);
    if (auto fits = checkKeys((*ledger)->connection(), (*ledger)->siteId(), m_keeper); !fits)
        return tl::unexpected(fits.error().words);
    return std::move(*ledger);
}

void Moving::tell(const Moved& moved) const
{
    m_terminal.out << moved.copied.cars << " cars, " << moved.copied.entries
                   << " entries moved and compared entry by entry." << Qt::endl;
    sayAgainstRules(moved.againstRules, m_terminal);
}

/// Until all of it has arrived and was compared, the workshop is in its file, and whoever opens it
/// on the server is told so.
tl::expected<void, QString> Moving::markAsComing(SqlLedger& to) const
{
    const auto streams = streamsOf(to.connection(), to.siteId());
    const auto away = movedAway(to.connection(), to.siteId());
    if (!streams || !away)
        return tl::unexpected(storeError(streams ? away.error() : streams.error()).words);
    if (*away || !streams->isEmpty())
        return {};
    return marked(to, [this](Connection& connection, const SiteId& site) {
        return markMoved(connection, site, move());
    });
}

bool Moving::isHalfThere() const
{
    StoreSettings store = m_settings.store;
    store.mayBeMoved = true;
    const auto there = opened(store);
    const auto away =
        there ? movedAway((*there)->connection(), (*there)->siteId()) : tl::unexpected(SqlFault{});
    return away && *away && (*away)->to == placeOf(m_paths) && QFile::exists(m_paths.database());
}

int Moving::toServer(const QString& server, const QString& passwordFile)
{
    StoreSettings file;
    file.file = m_paths.database();
    auto from = opened(file);
    if (!from)
        return say(from.error());
    const SiteId site = (*from)->siteId();
    auto target = serverStore(server, passwordFile);
    if (!target)
        return failed(m_terminal, target.error(), BadUsage);
    target->site = site;
    target->mayBeMoved = true;
    // Nothing that is on the server can be taken back from there.
    if (const auto whole = checked(**from); !whole)
        return say(whole.error());
    auto to = opened(*target);
    if (!to)
        return say(to.error());
    if (const auto coming = markAsComing(**to); !coming)
        return say(coming.error());
    const auto done = copied(**from, **to);
    if (!done)
        return say(done.error());
    from->reset();
    if (const QString fault = keepStorage(m_paths, server, passwordFile, site); !fault.isEmpty()) {
        // They may name the server already, where it is not said to be yet.
        std::ignore = keepStorage(m_paths, {});
        return say(fault + QStringLiteral(" The workshop stays in its file."));
    }
    // Last, so that at no time both are written to.
    const auto here = marked(**to, [this](Connection& connection, const SiteId& of) {
        return unmarkMoved(connection, of, move());
    });
    if (!here)
        return say(QStringLiteral("All of it is on the server, compared entry by entry, but the "
                                  "server did not confirm that the workshop is there now: %1 "
                                  "Nothing is lost. Start the kiosk; where it says that the "
                                  "workshop was moved, run this again.")
                       .arg(here.error()));
    tell(*done);
    m_terminal.out << "The photos are still in " << m_paths.photos()
                   << ". For several kiosks set photos=database under [storage] in "
                   << m_paths.settings() << ", and take them over: ramplight photos take "
                   << m_paths.photos() << Qt::endl;
    // Nobody shall go on working in it by mistake.
    const QString aside =
        asideName(m_paths.database(), QStringLiteral("moved"), m_terminal.clock.now());
    if (QFile::rename(m_paths.database(), aside))
        m_terminal.out << "The file that it was in is now " << aside << "." << Qt::endl;
    else
        m_terminal.err << "The file that it was in is still " << m_paths.database()
                       << ": it could not be renamed. Move it away." << Qt::endl;
    return Ok;
}

tl::expected<Moved, QString> Moving::copiedHere(SqlLedger& from)
{
    removeDatabase(draft());
    StoreSettings target;
    target.site = from.siteId();
    target.file = draft();
    auto to = SqlLedger::open(target, m_keeper);
    if (!to)
        return tl::unexpected(to.error().words);
    auto done = copied(from, **to);
    if (done && m_settings.photosInDatabase) {
        PhotoStore folder(m_paths.photos());
        auto photos = takePhotos(*openPhotos(m_paths, m_settings), folder);
        if (!photos)
            return tl::unexpected(photos.error());
        m_photos = std::move(*photos);
    }
    if (!done)
        return done;
    // From here on it is there and nowhere else, so it has to be on the disk before.
    to->reset();
    if (!bringToDisk(draft()) || !QFile::rename(draft(), m_paths.database()) ||
        !bringToDisk(m_paths.root()))
        return tl::unexpected(QStringLiteral("%1 cannot be written. Nothing was changed; look at "
                                             "the disk.")
                                  .arg(m_paths.database()));
    target.file = m_paths.database();
    auto again = SqlLedger::open(target, m_keeper);
    if (!again)
        return tl::unexpected(again.error().words);
    const auto away = movedAway(from.connection(), from.siteId());
    if (!away)
        return tl::unexpected(storeError(away.error()).words);
    // It was marked before where a move was interrupted.
    if (!*away)
        if (const auto left = leaveFor(from, **again, move()); !left)
            return tl::unexpected(left.error().words);
    return done;
}

/// The settings; where they cannot be written, the server has the workshop as before. Words: why
/// not.
QString Moving::keepInFile(SqlLedger& from)
{
    const QString fault = keepStorage(m_paths, {});
    const auto now = fault.isEmpty() ? HouseSettings() : HouseSettings::read(m_paths);
    // They may name the file already, and only the disk has not said so.
    if (fault.isEmpty() || (now && now->store.kind == StoreKind::Sqlite))
        return fault;
    const auto back = marked(from, [this](Connection& connection, const SiteId& site) {
        return unmarkMoved(connection, site, move());
    });
    if (!back)
        return fault +
               QStringLiteral(" The workshop is in its file, and the server knows; run this "
                              "again.");
    removeDatabase(m_paths.database());
    return fault + QStringLiteral(" The workshop stays on the server.");
}

/// The site was marked as moved here, and the last steps are missing.
int Moving::finish(SqlLedger& from)
{
    StoreSettings there;
    there.site = from.siteId();
    there.file = m_paths.database();
    const auto file = opened(there);
    if (!file)
        return say(file.error());
    const auto difference = differenceBetween(from, **file);
    if (!difference)
        return say(difference.error().words);
    if (!difference->isEmpty())
        return say(QStringLiteral("What is in %1 is not what was moved there: %2. Nothing was "
                                  "changed; move that file away and run this again.")
                       .arg(there.file, *difference));
    if (const QString fault = keepStorage(m_paths, {}); !fault.isEmpty())
        return say(fault);
    m_terminal.out << "The workshop was moved to " << there.file
                   << " before; the settings name it now." << Qt::endl;
    return Ok;
}

int Moving::toFile()
{
    StoreSettings store = m_settings.store;
    store.mayBeMoved = true;
    auto from = opened(store);
    if (!from)
        return say(from.error());
    const auto away = movedAway((*from)->connection(), (*from)->siteId());
    if (!away)
        return say(storeError(away.error()).words);
    // To this file, by a move that was interrupted; or elsewhere.
    if (*away && (*away)->to != placeOf(m_paths))
        return say(storeError(checkIsHere((*from)->connection(), (*from)->siteId()).error()).words);
    if (const QString held = keptHere(m_paths, (*from)->siteId()); !held.isEmpty())
        return say(held);
    if (QFile::exists(m_paths.database()))
        return *away ? finish(**from)
                     : failed(m_terminal,
                              QStringLiteral("There is a database in %1 already. Nothing was "
                                             "changed; move it away first.")
                                  .arg(m_paths.database()),
                              BadUsage);
    const auto done = copiedHere(**from);
    if (!done) {
        removeDatabase(draft());
        removeDatabase(m_paths.database());
        return say(done.error());
    }
    for (const QString& fault : m_photos.faults)
        m_terminal.err << fault << Qt::endl;
    if (const QString fault = keepInFile(**from); !fault.isEmpty())
        return say(fault);
    tell(*done);
    if (m_settings.photosInDatabase)
        m_terminal.out << photosWords(m_photos.taken) << " brought into " << m_paths.photos() << "."
                       << Qt::endl;
    m_terminal.out << "Whoever opens it on the server is told that it was moved here." << Qt::endl;
    return Ok;
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
    const bool isInFile = settings->store.kind == StoreKind::Sqlite;
    if (toFile && isInFile)
        return failed(terminal, QStringLiteral("The workshop is in a file already."), BadUsage);
    if (!toFile && isInFile && !QFile::exists(paths.database()))
        return failed(terminal, QStringLiteral("There is no workshop in %1.").arg(paths.root()),
                      NoInput);
    const auto alone = HouseLock::alone(paths.root());
    if (!alone)
        return failed(terminal, alone.error(), Unavailable);
    auto keys = openKeys(paths, settings->store);
    if (!keys)
        return failed(terminal, keys.error(), NoInput);
    Moving moving(terminal, *settings,
                  headKeeper(paths, std::make_shared<const SiteKeys>(std::move(*keys))));
    if (!toFile && !isInFile && !moving.isHalfThere())
        return failed(terminal, QStringLiteral("The workshop is on a server already."), BadUsage);
    return toFile ? moving.toFile() : moving.toServer(server, passwordFile);
}

} // namespace ramplight::cli
