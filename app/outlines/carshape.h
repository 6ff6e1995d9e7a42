// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QPainterPath>
#include <QRectF>
#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <vector>

namespace ramplight {

/// What a path of an outline stands for; decides how it is drawn.
enum class CarPart {
    Silhouette, ///< the body between the panels; never touched
    Panel,      ///< painted steel or plastic
    Glass,      ///< tinted a little
    Lamp,       ///< drawn like a panel
    Wheel,      ///< the rim, the inner strip
    Tyre,       ///< the rubber, the outer strip
    Bed,        ///< an open load bed
    Line,       ///< drawn, never touched
};

/// One path of an outline. `place` is a place id, empty for what is only drawn.
struct CarRegion
{
    QString place;
    CarPart part = CarPart::Panel;
    bool detail = false; ///< left out of small drawings unless marked
    bool extra = false;  ///< stands below the car: spare wheel, underside
    QPainterPath path;
    bool operator==(const CarRegion&) const = default;
};

/// A plan-view outline of one body shape, front at the top, one unit about a centimetre.
/// Later regions lie above earlier ones. A value; any thread.
struct CarShape
{
    QString name;
    QRectF frame;      ///< the car alone
    QRectF extraFrame; ///< the car and what stands below it
    std::vector<CarRegion> regions;

    [[nodiscard]] const CarRegion* find(QStringView place) const;
    [[nodiscard]] QStringList places() const;
};

enum class CarShapeError {
    NotFound, ///< no outline of that name is shipped
    BadXml,   ///< the file is not well-formed, or no SVG with a viewBox
    BadPath,  ///< a path holds a command that outlines do not use, or a number is missing
    BadClass, ///< a path has no class that says what it is
};

/// Names of the shapes that are shipped: hatch, saloon, estate, suv, coupe, convertible, mpv, van,
/// pickup.
[[nodiscard]] QStringList carShapeNames();

/// What a body's plan does not show, drawn the same way: wheels, cabin-right and cabin-left (the
/// side of the steering wheel), systems.
[[nodiscard]] QStringList carSchemeNames();

/// Reads the outline or scheme of that name from the program's own resources.
[[nodiscard]] tl::expected<CarShape, CarShapeError> carShape(const QString& name);

/// Reads an outline from SVG text: paths with an absolute M, L, C and Z only.
[[nodiscard]] tl::expected<CarShape, CarShapeError> readCarShape(const QByteArray& svg,
                                                                 const QString& name);

/// The same car with its sides laid open as if unrolled, so that doors, sills and wheels are as
/// wide as a finger. Neighbours keep their common edges. Shapes only, no schemes.
[[nodiscard]] CarShape laidOpen(const CarShape& shape);

/// The place at a point in outline units: the smallest region around it, else the nearest within
/// `reach` units, else empty. Where `among` is not empty, only these places count.
[[nodiscard]] QString placeAt(const CarShape& shape, QPointF point, double reach, bool extras,
                              const QStringList& among = {});

/// Where a finger has most room within a place.
struct FingerSpot
{
    QPointF middle;
    double width = 0; ///< of the widest circle around it within the place; 0: no such place
};

/// In outline units. The middle of the place itself where there is nearly as much room.
[[nodiscard]] FingerSpot spotFor(const CarShape& shape, QStringView place);

} // namespace ramplight
