// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/readtables.h"

namespace ramplight {

bool writeCar(Writer& writer, const SiteId& site, const CarRow& row)
{
    return writer.run(
        "INSERT INTO car (site, car, seq, rules_seq, stock_number, stock_key, registration_key,"
        " status, on_wall, gone, bay, promised, arrived_at, last_at, released_at, card)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (site, car) DO UPDATE SET seq = excluded.seq,"
        " rules_seq = excluded.rules_seq, stock_number = excluded.stock_number,"
        " stock_key = excluded.stock_key, registration_key = excluded.registration_key,"
        " status = excluded.status, on_wall = excluded.on_wall, gone = excluded.gone,"
        " bay = excluded.bay, promised = excluded.promised, arrived_at = excluded.arrived_at,"
        " last_at = excluded.last_at, released_at = excluded.released_at, card = excluded.card",
        {site.text, row.car, row.seq, row.rulesSeq, row.stockNumber, row.stockKey,
         row.registrationKey, row.status, row.onWall ? 1 : 0, row.gone ? 1 : 0, row.bay,
         row.promised, row.arrivedAt, row.lastAt, row.releasedAt, row.card});
}

bool writeSegment(Writer& writer, const SiteId& site, const QString& car, const SegmentRow& row)
{
    return writer.run(
        "INSERT INTO work_segment (site, car, segment, operation, person, start_at, end_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (site, car, segment) DO UPDATE SET operation = excluded.operation,"
        " person = excluded.person, start_at = excluded.start_at, end_at = excluded.end_at",
        {site.text, car, row.segment, row.operation, row.person, row.startAt,
         row.endAt == 0 ? QVariant() : QVariant(row.endAt)});
}

bool writePhoto(Writer& writer, const SiteId& site, const QString& car, const PhotoId& photo)
{
    return writer.run("INSERT INTO photo_use (site, photo, car) VALUES (?, ?, ?)"
                      " ON CONFLICT (site, photo, car) DO NOTHING",
                      {site.text, photo.text, car});
}

bool clearBay(Writer& writer, const SiteId& site, const QString& car)
{
    return writer.run("UPDATE car SET bay = 0 WHERE site = ? AND car = ?", {site.text, car});
}

bool clearReadTables(Writer& writer, const SiteId& site)
{
    return writer.run("DELETE FROM car WHERE site = ?", {site.text}) &&
           writer.run("DELETE FROM work_segment WHERE site = ?", {site.text}) &&
           writer.run("DELETE FROM photo_use WHERE site = ?", {site.text});
}

tl::expected<std::map<QString, CarRows>, SqlFault> readTablesOf(Connection& connection,
                                                                const SiteId& site)
{
    std::map<QString, CarRows> cars;
    {
        auto rows = connection.run(
            "SELECT car, seq, rules_seq, stock_number, stock_key, registration_key, status,"
            " on_wall, gone, bay, promised, arrived_at, last_at, released_at, card"
            " FROM car WHERE site = ?",
            {site.text});
        if (!rows)
            return tl::unexpected(rows.error());
        while (rows->next()) {
            CarRow row;
            row.car = rows->text(0);
            row.seq = rows->number(1);
            row.rulesSeq = rows->number(2);
            row.stockNumber = rows->text(3);
            row.stockKey = rows->text(4);
            row.registrationKey = rows->text(5);
            row.status = rows->text(6);
            row.onWall = rows->whole(7) != 0;
            row.gone = rows->whole(8) != 0;
            row.bay = rows->whole(9);
            row.promised = rows->text(10);
            row.arrivedAt = rows->number(11);
            row.lastAt = rows->number(12);
            row.releasedAt = rows->number(13);
            row.card = rows->text(14);
            cars[row.car].car = row;
        }
    }
    {
        auto rows = connection.run("SELECT car, segment, operation, person, start_at, end_at"
                                   " FROM work_segment WHERE site = ?"
                                   " ORDER BY car, end_at IS NULL, segment",
                                   {site.text});
        if (!rows)
            return tl::unexpected(rows.error());
        while (rows->next())
            cars[rows->text(0)].segments.push_back({rows->whole(1), rows->whole(2), rows->whole(3),
                                                    rows->number(4),
                                                    rows->isNull(5) ? 0 : rows->number(5)});
    }
    auto rows = connection.run("SELECT car, photo FROM photo_use WHERE site = ?", {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    while (rows->next())
        cars[rows->text(0)].photos.insert(PhotoId{rows->text(1)});
    return cars;
}

tl::expected<QStringList, SqlFault> carsOnWall(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT car FROM car WHERE site = ? AND on_wall = 1", {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    QStringList cars;
    while (rows->next())
        cars.append(rows->text(0));
    return cars;
}

} // namespace ramplight
