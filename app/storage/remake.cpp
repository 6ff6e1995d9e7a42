// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/remake.h"

#include "domain/say.h"
#include "evidence/durablefile.h"
#include "evidence/exchange.h"
#include "log/log.h"
#include "storage/privatefile.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace ramplight {
namespace {

/// What SQLite finds wrong with one table and its indexes; empty: nothing.
QString wrongIn(Connection& connection, const char* check)
{
    auto rows = connection.run(check);
    if (!rows)
        return rows.error().text;
    while (rows->next())
        if (rows->text(0) != QLatin1StringView("ok"))
            return rows->text(0);
    return rows->brokeOff() ? QStringLiteral("it cannot be read to its end") : QString();
}

/// What is kept, table by table: an index that lacks a row hides it from whoever copies or checks.
QString wrongInWhatIsKept(Connection& connection)
{
    static constexpr std::array checks{
        "PRAGMA integrity_check('ledger')",      "PRAGMA integrity_check('command')",
        "PRAGMA integrity_check('site')",        "PRAGMA integrity_check('schema_version')",
        "PRAGMA integrity_check('person_name')", "PRAGMA integrity_check('credential')",
        "PRAGMA integrity_check('badge')",       "PRAGMA integrity_check('pin_failure')",
        "PRAGMA integrity_check('setting')",     "PRAGMA integrity_check('site_move')",
        "PRAGMA integrity_check('photo_bytes')",
    };
    for (const char* check : checks)
        if (const QString wrong = wrongIn(connection, check); !wrong.isEmpty())
            return wrong;
    return {};
}

StoreError moreIsHurt(const StoreSettings& file, const QString& what)
{
    return {StoreErrorKind::Damaged,
            say("%1: more is damaged than what can be made anew from the ledger (%2). It was left "
                "as it is; bring back a backup.")
                .arg(file.file, what)};
}

StoreError cannotWrite(const QString& path)
{
    return {StoreErrorKind::Unavailable,
            say("%1 cannot be written. Nothing was changed; look at the disk.").arg(path)};
}

constexpr std::array besideIt{"-wal", "-shm"};

bool hasLog(const QString& file)
{
    return QFileInfo(file + QLatin1StringView(besideIt.front())).size() > 0;
}

void renameBeside(const QString& from, const QString& to)
{
    for (const char* beside : besideIt)
        if (QFile::exists(from + QLatin1StringView(beside)))
            QFile::rename(from + QLatin1StringView(beside), to + QLatin1StringView(beside));
}

/// What was made anew and is whole; until then it has another name.
QString wholeOf(const QString& file)
{
    return file + QStringLiteral(".remade-whole");
}

QString asideOf(const QString& file, Moment now)
{
    return asideName(file, QStringLiteral("damaged"), now);
}

/// Whether the new one is in its place. The damaged one's log is of no other file: where the disk
/// would not let it be written back, it goes before the new one comes.
bool exchange(const QString& file, const QString& whole, const QString& aside)
{
    if (!hasLog(file)) {
        for (const char* beside : besideIt)
            QFile::remove(file + QLatin1StringView(beside));
        return putInPlaceOf(file, whole, aside);
    }
    if (!QFile::rename(file, aside))
        return false;
    renameBeside(file, aside);
    if (QFile::rename(whole, file))
        return true;
    QFile::rename(aside, file);
    renameBeside(aside, file);
    return false;
}

/// All that is kept, in a new file, looked at from end to end.
tl::expected<Remade, StoreError> copied(const StoreSettings& file, const QString& draft,
                                        const HeadKeeper& keeper, KnownCatalogues known)
{
    auto from = SqlLedger::open(file, keeper);
    if (!from)
        return tl::unexpected(from.error());
    Connection& connection = (*from)->connection();
    if (const QString wrong = wrongInWhatIsKept(connection); !wrong.isEmpty())
        return tl::unexpected(moreIsHurt(file, wrong));
    {
        auto photos = connection.run("SELECT count(*) FROM photo_bytes");
        if (!photos || !photos->next() || photos->number(0) > 0)
            return tl::unexpected(moreIsHurt(file, QStringLiteral("it has photos in it")));
    }
    if (auto made = makePrivateFile(draft); !made)
        return tl::unexpected(made.error());
    StoreSettings target;
    target.file = draft;
    target.site = (*from)->siteId();
    auto to = SqlLedger::open(target, keeper);
    if (!to)
        return tl::unexpected(to.error());
    const auto done = copySite(**from, **to);
    if (!done)
        return tl::unexpected(done.error());
    const auto difference = differenceBetween(**from, **to);
    if (!difference)
        return tl::unexpected(difference.error());
    if (!difference->isEmpty())
        return tl::unexpected(moreIsHurt(file, *difference));
    const VerifyReport report = Verifier(**to, {}, std::move(known)).run();
    if (const LedgerFault* damage = report.damage())
        return tl::unexpected(moreIsHurt(file, damage->told()));
    return Remade{done->cars, done->entries, {}};
}

} // namespace

Hurt hurtIn(const StoreSettings& file, const HeadKeeper& keeper)
{
    const auto ledger = SqlLedger::open(file, keeper);
    if (!ledger)
        return Hurt::More;
    Connection& connection = (*ledger)->connection();
    if (!wrongInWhatIsKept(connection).isEmpty())
        return Hurt::More;
    // What of the check of the whole file is left then lies in the read tables, or is free. A new
    // file has no guards but the program's.
    const VerifyReport report = Verifier(**ledger).run();
    if (std::ranges::any_of(report.faults, [](const LedgerFault& fault) {
            return fault.kind == FaultKind::Damage && fault.where != databaseFaults() &&
                   fault.where != schemaFaults();
        }))
        return Hurt::More;
    return report.damage() == nullptr ? Hurt::Nothing : Hurt::ReadTables;
}

tl::expected<Remade, StoreError> remakeFile(const StoreSettings& file, const HeadKeeper& keeper,
                                            KnownCatalogues known, Moment now)
{
    const QString draft = file.file + QStringLiteral(".remade");
    const QString whole = wholeOf(file.file);
    removeDatabase(draft);
    removeDatabase(whole);
    auto remade = copied(file, draft, keeper, std::move(known));
    const auto failed = [&](const StoreError& error) {
        removeDatabase(draft);
        removeDatabase(whole);
        return tl::unexpected(error);
    };
    if (!remade)
        return failed(remade.error());
    const QString folder = QFileInfo(file.file).absolutePath();
    remade->setAside = asideOf(file.file, now);
    if (!bringToDisk(draft) || !QFile::rename(draft, whole))
        return failed(cannotWrite(draft));
    if (!exchange(file.file, whole, remade->setAside))
        return failed(cannotWrite(file.file));
    if (!bringToDisk(folder))
        log::warn(QStringLiteral("%1: the disk did not confirm the file that was made anew")
                      .arg(file.file));
    return remade;
}

bool mayFinishRemake(const QString& file)
{
    return QFileInfo(file).size() <= 0 && QFileInfo(wholeOf(file)).size() > 0;
}

bool finishRemake(const QString& file, Moment now)
{
    if (!mayFinishRemake(file))
        return false;
    const QString whole = wholeOf(file);
    renameBeside(file, asideOf(file, now));
    QFile::remove(file);
    return QFile::rename(whole, file) && bringToDisk(QFileInfo(file).absolutePath());
}

} // namespace ramplight
