// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/outbox.h"

#include "log/log.h"
#include "storage/migrator.h"
#include "storage/privatefile.h"

namespace ramplight {

namespace {

tl::unexpected<StoreError> outboxFailed(const SqlFault& fault)
{
    log::error(QStringLiteral("outbox: %1").arg(fault.text));
    return tl::unexpected(storeError(fault));
}

} // namespace

Outbox::Outbox(std::unique_ptr<Connection> connection, SiteId site)
    : m_connection(std::move(connection))
    , m_site(std::move(site))
{
}

tl::expected<std::unique_ptr<Outbox>, StoreError> Outbox::open(const QString& file,
                                                               const SiteId& site)
{
    if (auto made = makePrivateFile(file); !made)
        return tl::unexpected(std::move(made.error()));
    StoreSettings settings;
    settings.file = file;
    auto connection = Connection::open(settings);
    if (!connection)
        return tl::unexpected(connection.error());
    const MigrationResult migrated =
        migrate(**connection, migrationsIn(QStringLiteral(":/ramplight/migrations/outbox")));
    if (const auto fault = migrationError(migrated))
        return tl::unexpected(*fault);
    return std::unique_ptr<Outbox>(new Outbox(std::move(*connection), site));
}

tl::expected<void, StoreError> Outbox::write(const char* sql, const QVariantList& values)
{
    if (auto done = m_connection->run(sql, values); !done)
        return outboxFailed(done.error());
    return {};
}

tl::expected<void, StoreError> Outbox::keep(KeptRequest& request)
{
    if (auto added = write(
            "INSERT INTO kept (site, command, at, request, works) VALUES (?, ?, ?, ?, ?)",
            {m_site.text, idOf(request.asked).text, request.at.ms,
             QString::fromUtf8(written(request.asked)), QString::fromUtf8(written(request.works))});
        !added)
        return added;
    auto rows = m_connection->run("SELECT number FROM kept WHERE site = ? AND command = ?",
                                  {m_site.text, idOf(request.asked).text});
    if (!rows)
        return outboxFailed(rows.error());
    if (rows->next())
        request.number = rows->number(0);
    return {};
}

tl::expected<std::vector<KeptRequest>, StoreError> Outbox::read(const char* sql,
                                                                const QVariantList& values)
{
    auto rows = m_connection->run(sql, values);
    if (!rows)
        return outboxFailed(rows.error());
    std::vector<KeptRequest> all;
    while (rows->next()) {
        auto asked = readWorkRequest(rows->text(2).toUtf8());
        auto works = readKeptWorks(rows->text(3).toUtf8());
        if (!asked || !works) {
            log::error(QStringLiteral("outbox: request %1 cannot be read: %2")
                           .arg(rows->number(0))
                           .arg(asked ? works.error() : asked.error()));
            return tl::unexpected(
                StoreError{StoreErrorKind::Damaged,
                           QStringLiteral("What was kept here while the server was away cannot be "
                                          "read. The file was left as it is; keep a copy of it.")});
        }
        all.push_back({rows->number(0),
                       std::move(*asked),
                       {rows->number(1)},
                       std::move(*works),
                       rows->text(4),
                       {rows->number(5)},
                       {rows->whole(6)},
                       {rows->number(7)}});
    }
    return all;
}

tl::expected<std::vector<KeptRequest>, StoreError> Outbox::kept()
{
    return read("SELECT number, at, request, works, refusal, refused_at, seen_by, seen_at"
                " FROM kept WHERE site = ? AND seen_by = 0 ORDER BY number",
                {m_site.text});
}

tl::expected<std::vector<KeptRequest>, StoreError> Outbox::seen(int limit)
{
    return read("SELECT number, at, request, works, refusal, refused_at, seen_by, seen_at"
                " FROM kept WHERE site = ? AND seen_by <> 0 ORDER BY seen_at DESC, number DESC"
                " LIMIT ?",
                {m_site.text, limit});
}

tl::expected<void, StoreError> Outbox::remove(qint64 number)
{
    return write("DELETE FROM kept WHERE number = ?", {number});
}

tl::expected<void, StoreError> Outbox::refuse(qint64 number, const QString& words, Moment at)
{
    return write("UPDATE kept SET refusal = ?, refused_at = ? WHERE number = ?",
                 {words, at.ms, number});
}

tl::expected<void, StoreError> Outbox::note(qint64 number, PersonId seenBy, Moment at)
{
    return write("UPDATE kept SET seen_by = ?, seen_at = ? WHERE number = ? AND refusal <> ''"
                 " AND seen_by = 0",
                 {seenBy.value, at.ms, number});
}

tl::expected<Moment, StoreError> Outbox::knownAt()
{
    auto rows = m_connection->run("SELECT at FROM known WHERE site = ?", {m_site.text});
    if (!rows)
        return outboxFailed(rows.error());
    return rows->next() ? Moment{rows->number(0)} : Moment{};
}

tl::expected<void, StoreError> Outbox::setKnownAt(Moment at)
{
    return write("INSERT INTO known (site, at) VALUES (?, ?) ON CONFLICT (site) DO UPDATE"
                 " SET at = excluded.at",
                 {m_site.text, at.ms});
}

} // namespace ramplight
