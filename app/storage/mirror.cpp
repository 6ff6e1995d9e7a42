// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/mirror.h"

#include "log/log.h"
#include "storage/entrytable.h"
#include "storage/lengthprefixed.h"
#include "storage/privatefile.h"
#include "storage/readtables.h"
#include "storage/storecopy.h"

#include <QCryptographicHash>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace ramplight {

namespace {

/// Of the mirror itself: what it does not understand means that its tables are no longer those that
/// were made.
StoreError ownError(const SqlFault& fault)
{
    log::warn(QStringLiteral("mirror: %1").arg(fault.text));
    return storeError(fault.kind == SqlFault::Kind::Other ? SqlFault{SqlFault::Kind::Corrupt, {}}
                                                          : fault);
}

} // namespace

tl::expected<bool, StoreError> lacksStaffSeal(const StoreSettings& copy)
{
    auto connection = Connection::open(copy);
    if (!connection)
        return tl::unexpected(connection.error());
    // Where there is no table yet, there is nothing to be sealed.
    auto rows = (*connection)
                    ->run("SELECT 1 WHERE EXISTS (SELECT 1 FROM ledger)"
                          " AND NOT EXISTS (SELECT 1 FROM setting WHERE name = 'staff-seal')");
    return rows && rows->next();
}

Mirror::Mirror(QString file, std::unique_ptr<Store> store)
    : m_file(std::move(file))
    , m_store(std::move(store))
{
}

tl::expected<std::unique_ptr<Mirror>, StoreError>
Mirror::open(const QString& file, const HeadKeeper& keeper, const SiteId& site)
{
    if (auto made = makePrivateFile(file); !made)
        return tl::unexpected(std::move(made.error()));
    StoreSettings settings;
    settings.file = file;
    settings.site = site;
    if (const auto lacks = lacksStaffSeal(settings); !lacks)
        return tl::unexpected(lacks.error());
    else if (*lacks)
        return tl::unexpected(storeError({SqlFault::Kind::Corrupt, {}}));
    auto store = Store::open(settings, keeper);
    if (!store)
        return tl::unexpected(store.error());
    // What a mirror has beside the tables of any store.
    for (const char* table :
         {"CREATE TABLE IF NOT EXISTS mirror_known (one INTEGER PRIMARY KEY CHECK (one = 1),"
          " at INTEGER NOT NULL, seal TEXT NOT NULL) STRICT",
          "CREATE TABLE IF NOT EXISTS mirror_head (stream TEXT NOT NULL PRIMARY KEY,"
          " seq INTEGER NOT NULL, hash TEXT NOT NULL) STRICT, WITHOUT ROWID"})
        if (auto made = (*store)->ledger().connection().plain(QString::fromLatin1(table)); !made)
            return tl::unexpected(ownError(made.error()));
    return std::unique_ptr<Mirror>(new Mirror(file, std::move(*store)));
}

tl::expected<void, StoreError> Mirror::check()
{
    auto rows = m_store->ledger().connection().run("PRAGMA integrity_check");
    if (!rows)
        return tl::unexpected(storeError(rows.error()));
    bool isWhole = rows->next() && rows->text(0) == QLatin1StringView("ok");
    while (rows->next())
        isWhole = false;
    if (isWhole && !rows->brokeOff())
        return {};
    return tl::unexpected(storeError({SqlFault::Kind::Corrupt, {}}));
}

tl::expected<void, StoreError> Mirror::checkHeads()
{
    Connection& connection = m_store->ledger().connection();
    std::vector<Head> noted;
    {
        auto rows = connection.run("SELECT stream, seq, hash FROM mirror_head ORDER BY stream");
        if (!rows)
            return tl::unexpected(ownError(rows.error()));
        while (rows->next())
            noted.push_back({rows->text(0), rows->number(1), rows->text(2)});
    }
    // A program of before noted none.
    if (noted.empty())
        return {};
    const auto streams = streamsOf(connection, siteId());
    if (!streams)
        return tl::unexpected(ownError(streams.error()));
    std::vector<Head> are;
    for (const QString& stream : *streams) {
        auto head = headOf(connection, siteId(), stream);
        if (!head)
            return tl::unexpected(ownError(head.error()));
        are.push_back(std::move(*head));
    }
    std::ranges::sort(are, {}, &Head::stream);
    std::ranges::sort(noted, {}, &Head::stream);
    if (are != noted)
        return tl::unexpected(ownError(
            {SqlFault::Kind::Corrupt, QStringLiteral("a stream does not end where it did")}));
    return {};
}

QString Mirror::sealOfKnown(qint64 at) const
{
    LengthPrefixed fields("ramplight-known-1");
    fields.add(siteId().text).add(at);
    return QString::fromLatin1(
        QCryptographicHash::hash(fields.bytes(), QCryptographicHash::Sha256).toHex());
}

Moment Mirror::knownAt()
{
    auto rows = m_store->ledger().connection().run("SELECT at, seal FROM mirror_known");
    if (!rows || !rows->next())
        return {};
    const qint64 at = rows->number(0);
    if (rows->text(1) == sealOfKnown(at))
        return {at};
    log::error(QStringLiteral("mirror: as of when it is whole is not what was written"));
    return {};
}

bool Mirror::setKnownAt(Moment at)
{
    const auto done = m_store->ledger().connection().run(
        "INSERT INTO mirror_known (one, at, seal) VALUES (1, ?, ?) ON CONFLICT (one) DO UPDATE"
        " SET at = excluded.at, seal = excluded.seal",
        {at.ms, sealOfKnown(at.ms)});
    if (!done)
        log::warn(QStringLiteral("mirror: %1").arg(done.error().text));
    return done.has_value();
}

tl::expected<Mirror::Taken, StoreError> Mirror::takeStream(SqlLedger& server, Writer& writer,
                                                           const QString& stream)
{
    const SiteId& site = siteId();
    const auto head = headOf(m_store->ledger().connection(), site, stream);
    if (!head)
        return tl::unexpected(ownError(head.error()));
    // And the last one that is here: the server still has to have it.
    auto entries = entriesAfter(server.connection(), site, stream, head->seq - 1);
    if (!entries)
        return tl::unexpected(storeError(entries.error()));
    // What is not whole by itself says nothing about this copy.
    const Taken damaged{0, true};
    if (head->seq > 0) {
        const bool isThere = !entries->empty() && entries->front().seq == head->seq;
        if (isThere && entries->front().hash != hashOf(site, entries->front()))
            return damaged;
        if (!isThere || entries->front().hash != head->hash)
            return tl::unexpected(
                ownError({SqlFault::Kind::ChainBroken,
                          QStringLiteral("entry %1 of %2 is not that of the server")
                              .arg(head->seq)
                              .arg(stream)}));
        entries->erase(entries->begin());
    }
    Head along = *head;
    if (!ramplight::follow(site, along, *entries))
        return damaged;
    for (const Entry& entry : *entries) {
        writer.run("INSERT INTO command (site, command, at, actor, entries)"
                   " SELECT ?, ?, ?, ?, 0 WHERE NOT EXISTS"
                   " (SELECT 1 FROM command WHERE site = ? AND command = ?)",
                   {site.text, entry.command.text, entry.at.ms, entry.actor.value, site.text,
                    entry.command.text});
        insertEntry(writer, site, entry);
    }
    if (along.seq > 0)
        writer.run("INSERT INTO mirror_head (stream, seq, hash) VALUES (?, ?, ?) ON CONFLICT"
                   " (stream) DO UPDATE SET seq = excluded.seq, hash = excluded.hash",
                   {stream, along.seq, along.hash});
    if (!writer.good())
        return tl::unexpected(ownError(writer.fault()));
    return Taken{along.seq, false};
}

tl::expected<void, StoreError> Mirror::takeSite(SqlLedger& server)
{
    {
        auto transaction = Transaction::write(m_store->ledger().connection(), siteId());
        if (!transaction)
            return tl::unexpected(storeError(transaction.error()));
        Writer writer(m_store->ledger().connection());
        const auto taken = takeStream(server, writer, siteStream());
        if (!taken)
            return tl::unexpected(taken.error());
        if (taken->isDamagedThere)
            return tl::unexpected(StoreError{
                StoreErrorKind::Unavailable,
                QStringLiteral("What the server has of the site is not what was written")});
        if (auto committed = transaction->commit(); !committed)
            return tl::unexpected(storeError(committed.error()));
    }
    return copyStaff(server.connection(), m_store->ledger());
}

tl::expected<void, StoreError> Mirror::takeCars(SqlLedger& server, const QStringList& cars)
{
    SqlLedger& here = m_store->ledger();
    auto reading = Transaction::read(server.connection());
    if (!reading)
        return tl::unexpected(storeError(reading.error()));
    auto writing = Transaction::write(here.connection(), siteId());
    if (!writing)
        return tl::unexpected(storeError(writing.error()));
    Writer writer(here.connection());
    QStringList there;
    for (const QString& car : cars) {
        const auto taken = takeStream(server, writer, carStream(CarId{car}));
        if (!taken)
            return tl::unexpected(taken.error());
        if (taken->isDamagedThere) {
            // The others go on; of this one stays what was known, and its bay is another's to take.
            if (!m_damagedThere.contains(car))
                log::error(QStringLiteral("mirror: what the server has of car %1 is not what was "
                                          "written")
                               .arg(car));
            m_damagedThere.insert(car);
            clearBay(writer, siteId(), car);
            continue;
        }
        m_damagedThere.remove(car);
        if (taken->last > 0)
            there.append(car);
        // First all rows go: cars change places, and people the work that they are on.
        clearCar(writer, siteId(), car);
    }
    const auto site = here.siteView();
    if (!site)
        return tl::unexpected(site.error());
    for (const QString& car : there)
        if (auto made = rebuildCar(here, writer, *site, CarId{car}); !made)
            return made;
    if (!writer.good())
        return tl::unexpected(ownError(writer.fault()));
    if (auto committed = writing->commit(); !committed)
        return tl::unexpected(storeError(committed.error()));
    return {};
}

tl::expected<void, SqlFault> Mirror::findMissing(SqlLedger& server, const QString& stream,
                                                 std::vector<Entry>& missing)
{
    const SiteId& site = siteId();
    auto here = entriesAfter(m_store->ledger().connection(), site, stream, 0);
    if (!here)
        return tl::unexpected(here.error());
    // What was damaged here says nothing of the server.
    std::erase_if(*here, [&](const Entry& entry) { return entry.hash != hashOf(site, entry); });
    if (here->empty())
        return {};
    // Each names the hash of the one before: with the last the server has all of them.
    const Entry& last = here->back();
    std::map<qint64, QString> there;
    for (const qint64 after : {last.seq - 1, qint64{0}}) {
        const auto entries = entriesAfter(server.connection(), site, stream, after);
        if (!entries)
            return tl::unexpected(entries.error());
        for (const Entry& entry : *entries)
            there[entry.seq] = entry.hash;
        if (const auto found = there.find(last.seq);
            found != there.end() && found->second == last.hash)
            return {};
    }
    for (Entry& entry : *here)
        if (const auto found = there.find(entry.seq);
            found == there.end() || found->second != entry.hash)
            missing.push_back(std::move(entry));
    return {};
}

tl::expected<std::vector<Entry>, StoreError> Mirror::missingOn(SqlLedger& server)
{
    const auto streams = streamsOf(m_store->ledger().connection(), siteId());
    if (!streams)
        return tl::unexpected(storeError(streams.error()));
    std::vector<Entry> missing;
    for (const QString& stream : *streams)
        if (auto found = findMissing(server, stream, missing); !found)
            return tl::unexpected(storeError(found.error()));
    std::ranges::stable_sort(missing, {}, &Entry::at);
    return missing;
}

tl::expected<QStringList, StoreError> Mirror::cars()
{
    Connection& connection = m_store->ledger().connection();
    auto cars = carsInReadTables(connection, siteId());
    if (!cars)
        return tl::unexpected(ownError(cars.error()));
    const auto streams = streamsOf(connection, siteId());
    if (!streams)
        return tl::unexpected(ownError(streams.error()));
    std::set<QString> all(cars->cbegin(), cars->cend());
    for (const QString& stream : *streams)
        if (const CarId car = carOfStream(stream); !car.isEmpty())
            all.insert(car.text);
    return QStringList(all.begin(), all.end());
}

} // namespace ramplight
