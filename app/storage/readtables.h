// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"
#include "storage/readrows.h"

#include <QStringList>

#include <set>

// Writing and reading back the rows of readrows.h. On the connection's thread, inside the caller's
// transaction.
namespace ramplight {

/// A car as the read tables have it.
struct CarRows
{
    CarRow car;
    std::vector<SegmentRow> segments; ///< in the order of segmentRowsOf()
    std::set<PhotoId> photos;

    friend bool operator==(const CarRows&, const CarRows&) = default;
};

bool writeCar(Writer& writer, const SiteId& site, const CarRow& row);
bool writeSegment(Writer& writer, const SiteId& site, const QString& car, const SegmentRow& row);
bool writePhoto(Writer& writer, const SiteId& site, const QString& car, const PhotoId& photo);
/// The car keeps the photo no longer.
bool erasePhoto(Writer& writer, const SiteId& site, const QString& car, const PhotoId& photo);
/// The car stands nowhere until it is written again: makes room for cars that change places.
bool clearBay(Writer& writer, const SiteId& site, const QString& car);
/// All rows of one car.
bool clearCar(Writer& writer, const SiteId& site, const QString& car);
/// All rows of all cars of the site.
bool clearReadTables(Writer& writer, const SiteId& site);

/// Every car that any read table knows.
[[nodiscard]] tl::expected<QStringList, SqlFault> carsInReadTables(Connection& connection,
                                                                   const SiteId& site);
/// Nothing of a car that is not there: a row without a car's id.
[[nodiscard]] tl::expected<CarRows, SqlFault> readCar(Connection& connection, const SiteId& site,
                                                      const QString& car);
/// Cars that are not on the wall and keep photos.
[[nodiscard]] tl::expected<QStringList, SqlFault> goneCarsWithPhotos(Connection& connection,
                                                                     const SiteId& site);
/// Every photo that a car of the site keeps.
[[nodiscard]] tl::expected<std::set<PhotoId>, SqlFault> keptPhotos(Connection& connection,
                                                                   const SiteId& site);
[[nodiscard]] tl::expected<QStringList, SqlFault> carsOnWall(Connection& connection,
                                                             const SiteId& site);

} // namespace ramplight
