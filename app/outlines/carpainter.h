// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "outlines/carshape.h"

#include <QColor>
#include <QHash>
#include <QString>

#include <vector>

class QPainter;

namespace ramplight {

/// How a place is marked on an outline. The numbers are what QML and the view models use.
enum class OutlineMark {
    Plain = 0,    ///< looked at and sound, or nothing to say
    Filled = 1,   ///< something is outstanding here
    Hollow = 2,   ///< something was here and is closed
    Stippled = 3, ///< nobody looked at it
};

/// The tones of a drawing, and its one line weight in the painter's units. Edges are drawn in
/// `line`, the seams within the body in the quieter `seam`.
struct CarLook
{
    QColor line;
    QColor seam;
    QColor body;
    QColor glass;
    QColor filled;
    QColor hollow;
    QColor stipple;
    double lineWidth = 1.0;
};

/// Where the outline comes to lie in `target`: whole, centred, front at the top.
[[nodiscard]] QTransform carTransform(const CarShape& shape, const QRectF& target, bool extras);

/// One thing that is drawn of an outline, in the units of the target.
struct CarStroke
{
    QPainterPath path;
    QColor fill = {}; ///< invalid: none
    QColor line = {}; ///< invalid: none
    double width = 0; ///< of the line
    double opacity = 1;
    bool inside = false; ///< the line keeps within the path, where it is `width` wide
    double dot = 0;      ///< above 0: dots of this radius in `line`, within the path, and no edge
};

/// Rows of dots are stippleRow apart, dots in a row stippleStep, every other row is shifted by half
/// of that; in radii of a dot.
constexpr double stippleStep = 3.6;
constexpr double stippleRow = stippleStep * 0.866;

/// What paintCar() draws, in its order; for writers of other kinds of drawing.
[[nodiscard]] std::vector<CarStroke> carStrokes(const CarShape& shape,
                                                const QHash<QString, OutlineMark>& marks,
                                                const CarLook& look, const QRectF& target,
                                                bool extras);

/// Paints the outline into `target`. For screens and for paper; any thread that owns the painter.
void paintCar(QPainter& painter, const CarShape& shape, const QHash<QString, OutlineMark>& marks,
              const CarLook& look, const QRectF& target, bool extras);

} // namespace ramplight
