// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/outboxrow.h"

#include "log/log.h"
#include "storage/lengthprefixed.h"

#include <QCryptographicHash>

#include <utility>

namespace ramplight {

bool OutboxRow::holds() const
{
    return seal == sealOf(*this);
}

QString sealOf(const OutboxRow& row)
{
    LengthPrefixed fields("ramplight-kept-1");
    fields.add(row.number)
        .add(row.site)
        .add(row.command)
        .add(row.at)
        .add(row.request)
        .add(row.works)
        .add(row.refusal)
        .add(row.refusedAt)
        .add(row.seenBy)
        .add(row.seenAt);
    return QString::fromLatin1(
        QCryptographicHash::hash(fields.bytes(), QCryptographicHash::Sha256).toHex());
}

KeptRequest keptRequestOf(const OutboxRow& row)
{
    KeptRequest request;
    request.number = row.number;
    request.at = {row.at};
    request.refusal = row.refusal;
    request.refusedAt = {row.refusedAt};
    request.seenBy = {static_cast<int>(row.seenBy)};
    request.seenAt = {row.seenAt};
    request.damaged = !row.holds();
    const QByteArray text = row.request.toUtf8();
    request.trouble = readKeptTrouble(text);
    auto works = readKeptWorks(row.works.toUtf8());
    if (works)
        request.works = std::move(*works);
    if (request.trouble)
        return request;
    auto asked = readWorkRequest(text);
    if (asked)
        request.asked = std::move(*asked);
    if (!request.damaged && (!asked || !works)) {
        log::error(QStringLiteral("outbox: request %1 cannot be read: %2")
                       .arg(row.number)
                       .arg(asked ? works.error() : asked.error()));
        request.damaged = true;
    }
    return request;
}

OutboxRow outboxRowOf(const Rows& rows)
{
    return {rows.number(0), rows.text(1),   rows.text(2), rows.number(3),
            rows.text(4),   rows.text(5),   rows.text(6), rows.number(7),
            rows.number(8), rows.number(9), rows.text(10)};
}

tl::expected<std::vector<OutboxRow>, SqlFault> outboxRows(Connection& connection)
{
    auto rows = connection.run("SELECT number, site, command, at, request, works, refusal,"
                               " refused_at, seen_by, seen_at, seal FROM kept ORDER BY number");
    if (!rows)
        return tl::unexpected(rows.error());
    std::vector<OutboxRow> all;
    while (rows->next())
        all.push_back(outboxRowOf(*rows));
    if (rows->brokeOff())
        return tl::unexpected(SqlFault{SqlFault::Kind::Corrupt,
                                       QStringLiteral("the rows of the outbox end too early")});
    return all;
}

tl::expected<void, SqlFault> insertOutboxRow(Connection& connection, OutboxRow& row)
{
    const bool isNew = row.number == 0;
    auto added = connection.run(
        "INSERT INTO kept (number, site, command, at, request, works, refusal,"
        " refused_at, seen_by, seen_at, seal)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        {isNew ? QVariant() : QVariant(row.number), row.site, row.command, row.at, row.request,
         row.works, row.refusal, row.refusedAt, row.seenBy, row.seenAt, row.seal});
    if (!added)
        return tl::unexpected(added.error());
    if (!isNew)
        return {};
    {
        auto number = connection.run("SELECT number FROM kept WHERE site = ? AND command = ?",
                                     {row.site, row.command});
        if (!number)
            return tl::unexpected(number.error());
        if (number->next())
            row.number = number->number(0);
    }
    row.seal = sealOf(row);
    return updateOutboxRow(connection, row);
}

tl::expected<void, SqlFault> updateOutboxRow(Connection& connection, const OutboxRow& row)
{
    if (auto done = connection.run(
            "UPDATE kept SET refusal = ?, refused_at = ?, seen_by = ?,"
            " seen_at = ?, seal = ? WHERE number = ?",
            {row.refusal, row.refusedAt, row.seenBy, row.seenAt, sealOf(row), row.number});
        !done)
        return tl::unexpected(done.error());
    return {};
}

} // namespace ramplight
