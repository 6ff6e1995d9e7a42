// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/readtables.h"

namespace ramplight {

bool writeCar(Writer& writer, const SiteId& site, const CarRow& row)
{
    // Mostly nothing changes that an index holds: then no index is written, which spares the disk
    // half of the pages.
    const int updated = writer.change(
        "UPDATE car SET seq = ?, rules_seq = ?, status = ?, promised = ?, arrived_at = ?,"
        " last_at = ?, card = ? WHERE site = ? AND car = ? AND stock_number = ?"
        " AND stock_key = ? AND registration_key = ? AND on_wall = ? AND gone = ? AND bay = ?"
        " AND released_at = ?",
        {row.seq, row.rulesSeq, row.status, row.promised, row.arrivedAt, row.lastAt, row.card,
         site.text, row.car, row.stockNumber, row.stockKey, row.registrationKey, row.onWall ? 1 : 0,
         row.gone ? 1 : 0, row.bay, row.releasedAt});
    if (!writer.good() || updated == 1)
        return writer.good();
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
    // Whoever stops began before: the row is there.
    if (row.endAt != 0 &&
        writer.change(
            "UPDATE work_segment SET end_at = ? WHERE site = ? AND car = ?"
            " AND segment = ? AND operation = ? AND person = ? AND start_at = ?",
            {row.endAt, site.text, car, row.segment, row.operation, row.person, row.startAt}) == 1)
        return writer.good();
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

bool erasePhoto(Writer& writer, const SiteId& site, const QString& car, const PhotoId& photo)
{
    return writer.run("DELETE FROM photo_use WHERE site = ? AND photo = ? AND car = ?",
                      {site.text, photo.text, car});
}

bool clearBay(Writer& writer, const SiteId& site, const QString& car)
{
    return writer.run("UPDATE car SET bay = 0 WHERE site = ? AND car = ?", {site.text, car});
}

bool clearCar(Writer& writer, const SiteId& site, const QString& car)
{
    return writer.run("DELETE FROM car WHERE site = ? AND car = ?", {site.text, car}) &&
           writer.run("DELETE FROM work_segment WHERE site = ? AND car = ?", {site.text, car}) &&
           writer.run("DELETE FROM photo_use WHERE site = ? AND car = ?", {site.text, car});
}

bool clearReadTables(Writer& writer, const SiteId& site)
{
    return writer.run("DELETE FROM car WHERE site = ?", {site.text}) &&
           writer.run("DELETE FROM work_segment WHERE site = ?", {site.text}) &&
           writer.run("DELETE FROM photo_use WHERE site = ?", {site.text});
}

namespace {

tl::expected<QStringList, SqlFault> namesOf(tl::expected<Rows, SqlFault> rows)
{
    if (!rows)
        return tl::unexpected(rows.error());
    QStringList names;
    while (rows->next())
        names.append(rows->text(0));
    return names;
}

} // namespace

tl::expected<QStringList, SqlFault> carsInReadTables(Connection& connection, const SiteId& site)
{
    return namesOf(connection.run("SELECT car FROM car WHERE site = ?"
                                  " UNION SELECT car FROM work_segment WHERE site = ?"
                                  " UNION SELECT car FROM photo_use WHERE site = ?",
                                  {site.text, site.text, site.text}));
}

tl::expected<QStringList, SqlFault> carsOnWall(Connection& connection, const SiteId& site)
{
    return namesOf(
        connection.run("SELECT car FROM car WHERE site = ? AND on_wall = 1", {site.text}));
}

tl::expected<QStringList, SqlFault> goneCarsWithPhotos(Connection& connection, const SiteId& site)
{
    return namesOf(connection.run("SELECT DISTINCT car.car FROM car JOIN photo_use"
                                  " ON photo_use.site = car.site AND photo_use.car = car.car"
                                  " WHERE car.site = ? AND car.on_wall = 0 ORDER BY car.car",
                                  {site.text}));
}

tl::expected<std::set<PhotoId>, SqlFault> keptPhotos(Connection& connection, const SiteId& site)
{
    const auto names =
        namesOf(connection.run("SELECT DISTINCT photo FROM photo_use WHERE site = ?", {site.text}));
    if (!names)
        return tl::unexpected(names.error());
    std::set<PhotoId> photos;
    for (const QString& name : *names)
        photos.insert(PhotoId{name});
    return photos;
}

tl::expected<CarRows, SqlFault> readCar(Connection& connection, const SiteId& site,
                                        const QString& car)
{
    CarRows found;
    {
        auto rows = connection.run(
            "SELECT car, seq, rules_seq, stock_number, stock_key, registration_key, status,"
            " on_wall, gone, bay, promised, arrived_at, last_at, released_at, card"
            " FROM car WHERE site = ? AND car = ?",
            {site.text, car});
        if (!rows)
            return tl::unexpected(rows.error());
        if (rows->next())
            found.car = {rows->text(0),    rows->number(1),     rows->number(2),
                         rows->text(3),    rows->text(4),       rows->text(5),
                         rows->text(6),    rows->whole(7) != 0, rows->whole(8) != 0,
                         rows->whole(9),   rows->text(10),      rows->number(11),
                         rows->number(12), rows->number(13),    rows->text(14)};
    }
    {
        auto rows = connection.run("SELECT segment, operation, person, start_at, end_at"
                                   " FROM work_segment WHERE site = ? AND car = ?"
                                   " ORDER BY end_at IS NULL, segment",
                                   {site.text, car});
        if (!rows)
            return tl::unexpected(rows.error());
        while (rows->next())
            found.segments.push_back({rows->whole(0), rows->whole(1), rows->whole(2),
                                      rows->number(3), rows->isNull(4) ? 0 : rows->number(4)});
    }
    auto rows =
        connection.run("SELECT photo FROM photo_use WHERE site = ? AND car = ?", {site.text, car});
    if (!rows)
        return tl::unexpected(rows.error());
    while (rows->next())
        found.photos.insert(PhotoId{rows->text(0)});
    return found;
}

} // namespace ramplight
