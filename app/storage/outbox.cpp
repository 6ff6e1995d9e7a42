// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/outbox.h"

#include "domain/say.h"
#include "log/log.h"
#include "storage/migrator.h"
#include "storage/privatefile.h"

#include <QUuid>

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

/// What the migration puts into rows of the time before the seals.
constexpr QLatin1StringView notSealedYet("unsealed");
/// Whose work it was may be away for long; what names people is not kept for ever.
constexpr int seenForMinutes = 365 * 24 * 60;
constexpr std::size_t mostSeen = 500;

tl::unexpected<StoreError> outboxFailed(const SqlFault& fault)
{
    log::error(QStringLiteral("outbox: %1").arg(fault.text));
    return tl::unexpected(storeError(fault));
}

/// While it is opened: a statement that the file does not understand means that its tables are no
/// longer those that were made.
tl::unexpected<StoreError> outboxDamaged(const SqlFault& fault)
{
    return outboxFailed(fault.kind == SqlFault::Kind::Other
                            ? SqlFault{SqlFault::Kind::Corrupt, fault.text}
                            : fault);
}

/// SQLite's own check, which changes nothing.
tl::expected<void, SqlFault> integrityOf(Connection& connection)
{
    auto rows = connection.run("PRAGMA integrity_check");
    if (!rows)
        return tl::unexpected(rows.error());
    while (rows->next())
        if (const QString words = rows->text(0); words != QLatin1StringView("ok"))
            return tl::unexpected(SqlFault{SqlFault::Kind::Corrupt, words});
    if (rows->brokeOff())
        return tl::unexpected(
            SqlFault{SqlFault::Kind::Corrupt, QStringLiteral("its check breaks off")});
    return {};
}

bool isNewer(Connection& connection, int newest)
{
    auto rows = connection.run("SELECT coalesce(max(version), 0) FROM schema_version");
    return rows && rows->next() && rows->whole(0) > newest;
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
    const auto migrations = migrationsIn(QStringLiteral(":/ramplight/migrations/outbox"));
    // A damaged file is not brought to another schema; that of a newer program is its own matter.
    if (const auto whole = integrityOf(**connection);
        !whole && (migrations.empty() || !isNewer(**connection, migrations.back().version)))
        return outboxDamaged(whole.error());
    if (const auto fault = migrationError(migrate(**connection, migrations)))
        return tl::unexpected(*fault);
    std::unique_ptr<Outbox> outbox(new Outbox(std::move(*connection), site));
    if (auto sealed = outbox->sealRowsFromBefore(); !sealed)
        return tl::unexpected(sealed.error());
    return outbox;
}

tl::expected<void, StoreError> Outbox::sealRowsFromBefore()
{
    auto rows = outboxRows(*m_connection);
    if (!rows)
        return outboxDamaged(rows.error());
    std::erase_if(*rows, [](const OutboxRow& row) { return row.seal != notSealedYet; });
    if (rows->empty())
        return {};
    auto transaction = Transaction::writeAside(*m_connection);
    if (!transaction)
        return outboxFailed(transaction.error());
    for (const OutboxRow& row : *rows)
        if (auto sealed = updateOutboxRow(*m_connection, row); !sealed)
            return outboxFailed(sealed.error());
    if (auto committed = transaction->commit(); !committed)
        return outboxFailed(committed.error());
    return {};
}

tl::expected<void, StoreError> Outbox::add(OutboxRow& row)
{
    auto transaction = Transaction::writeAside(*m_connection);
    if (!transaction)
        return outboxFailed(transaction.error());
    if (auto added = insertOutboxRow(*m_connection, row); !added)
        return outboxFailed(added.error());
    if (auto committed = transaction->commit(); !committed)
        return outboxFailed(committed.error());
    return {};
}

tl::expected<void, StoreError> Outbox::keep(KeptRequest& request)
{
    OutboxRow row;
    row.site = m_site.text;
    row.command = idOf(request.asked).text;
    row.at = request.at.ms;
    row.request = QString::fromUtf8(written(request.asked));
    row.works = QString::fromUtf8(written(request.works));
    if (auto added = add(row); !added)
        return added;
    request.number = row.number;
    return {};
}

tl::expected<void, StoreError> Outbox::tell(const KeptTrouble& trouble, Moment at)
{
    OutboxRow row;
    row.site = m_site.text;
    row.command = QUuid::createUuid().toString(QUuid::WithoutBraces);
    row.at = at.ms;
    row.request = QString::fromUtf8(written(trouble));
    row.works = QString::fromUtf8(written(std::vector<KeptWork>()));
    return add(row);
}

tl::expected<std::vector<KeptRequest>, StoreError> Outbox::kept()
{
    const auto rows = outboxRows(*m_connection);
    if (!rows)
        return outboxFailed(rows.error());
    std::vector<KeptRequest> all;
    for (const OutboxRow& row : *rows) {
        const bool isOurs = m_site.isEmpty() || row.site.isEmpty() || row.site == m_site.text;
        if ((isOurs && row.seenBy == 0) || !row.holds())
            all.push_back(keptRequestOf(row));
    }
    return all;
}

tl::expected<std::vector<OutboxRow>, StoreError> Outbox::seenRows()
{
    auto rows = outboxRows(*m_connection);
    if (!rows)
        return outboxFailed(rows.error());
    std::erase_if(*rows, [this](const OutboxRow& row) {
        return row.seenBy == 0 || row.site != m_site.text || !row.holds();
    });
    std::ranges::stable_sort(*rows, [](const OutboxRow& a, const OutboxRow& b) {
        return std::pair(a.seenAt, a.number) > std::pair(b.seenAt, b.number);
    });
    return std::move(*rows);
}

tl::expected<std::vector<KeptRequest>, StoreError> Outbox::seen()
{
    const auto rows = seenRows();
    if (!rows)
        return tl::unexpected(rows.error());
    std::vector<KeptRequest> all;
    for (const OutboxRow& row : *rows)
        all.push_back(keptRequestOf(row));
    return all;
}

tl::expected<void, StoreError> Outbox::removeOldSeen(Moment now)
{
    const auto rows = seenRows();
    if (!rows)
        return tl::unexpected(rows.error());
    for (std::size_t at = 0; at < rows->size(); ++at)
        if (at >= mostSeen || Moment{rows->at(at).seenAt}.plusMinutes(seenForMinutes) < now)
            if (auto removed = remove(rows->at(at).number); !removed)
                return removed;
    return {};
}

tl::expected<void, StoreError> Outbox::change(qint64 number,
                                              const std::function<bool(OutboxRow& row)>& how)
{
    auto transaction = Transaction::writeAside(*m_connection);
    if (!transaction)
        return outboxFailed(transaction.error());
    std::optional<OutboxRow> row;
    {
        auto rows = m_connection->run(
            "SELECT number, site, command, at, request, works, refusal, refused_at, seen_by,"
            " seen_at, seal FROM kept WHERE number = ?",
            {number});
        if (!rows)
            return outboxFailed(rows.error());
        if (rows->next())
            row = outboxRowOf(*rows);
    }
    if (!row || !how(*row))
        return {};
    if (auto updated = updateOutboxRow(*m_connection, *row); !updated)
        return outboxFailed(updated.error());
    if (auto committed = transaction->commit(); !committed)
        return outboxFailed(committed.error());
    return {};
}

tl::expected<void, StoreError> Outbox::remove(qint64 number)
{
    if (auto done = m_connection->run("DELETE FROM kept WHERE number = ?", {number}); !done)
        return outboxFailed(done.error());
    return {};
}

tl::expected<void, StoreError> Outbox::refuse(qint64 number, const QString& words, Moment at)
{
    return change(number, [&](OutboxRow& row) {
        if (!row.holds())
            return false;
        row.refusal = words;
        row.refusedAt = at.ms;
        return true;
    });
}

tl::expected<void, StoreError> Outbox::note(qint64 number, PersonId seenBy, Moment at)
{
    auto noted = change(number, [&](OutboxRow& row) {
        const KeptRequest request = keptRequestOf(row);
        if (request.waits() || (row.holds() && row.seenBy != 0))
            return false;
        // It gets a seal again with this, and never looks as if it could still be sent.
        if (request.damaged && row.refusal.isEmpty())
            row.refusal = say("It was no longer what was written here, and was not sent.");
        row.seenBy = seenBy.value;
        row.seenAt = at.ms;
        return true;
    });
    return noted ? removeOldSeen(at) : noted;
}

tl::expected<int, StoreError> Outbox::takeOver(const std::vector<OutboxRow>& rows)
{
    auto transaction = Transaction::writeAside(*m_connection);
    if (!transaction)
        return outboxFailed(transaction.error());
    int left = 0;
    for (OutboxRow row : rows) {
        const auto taken = insertOutboxRow(*m_connection, row);
        // A row of a damaged file may break what holds for rows.
        if (!taken && taken.error().kind != SqlFault::Kind::Other)
            return outboxFailed(taken.error());
        if (!taken) {
            log::error(QStringLiteral("outbox: request %1 (%2) cannot be taken over: %3")
                           .arg(row.number)
                           .arg(row.command, taken.error().text));
            ++left;
        }
    }
    if (auto committed = transaction->commit(); !committed)
        return outboxFailed(committed.error());
    return left;
}

Moment Outbox::formerKnownAt()
{
    auto rows = m_connection->run("SELECT at FROM known WHERE site = ?", {m_site.text});
    return rows && rows->next() ? Moment{rows->number(0)} : Moment{};
}

void Outbox::forgetKnownAt()
{
    if (auto done = m_connection->run("DELETE FROM known WHERE site = ?", {m_site.text}); !done)
        log::warn(QStringLiteral("outbox: %1").arg(done.error().text));
}

} // namespace ramplight
