// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "outlines/carpainter.h"

#include <QPainter>
#include <QTransform>

#include <algorithm>
#include <cmath>

namespace ramplight {

namespace {

// Below this scale (painter units per outline unit) small parts would be a blot.
constexpr double detailScale = 1.0;

/// Dots on a staggered grid over the region: a texture that also reads in greyscale.
void paintStipple(QPainter& painter, const CarStroke& stroke)
{
    const double dot = stroke.dot;
    const double step = dot * stippleStep;
    const double down = dot * stippleRow;
    const QRectF box = stroke.path.boundingRect();
    painter.save();
    painter.setClipPath(stroke.path);
    painter.setPen(Qt::NoPen);
    painter.setBrush(stroke.line);
    // The grid is that of the drawing, not of the region, so that neighbours run on.
    const auto firstRow = static_cast<int>(std::floor(box.top() / down));
    const auto lastRow = static_cast<int>(std::floor((box.bottom() + step) / down));
    const auto firstColumn = static_cast<int>(std::floor(box.left() / step));
    const auto lastColumn = static_cast<int>(std::floor(box.right() / step)) + 1;
    for (int row = firstRow; row <= lastRow; ++row) {
        const double shift = row % 2 == 0 ? 0.0 : step / 2;
        for (int in = firstColumn; in <= lastColumn; ++in)
            painter.drawEllipse(QPointF(in * step + shift, row * down), dot, dot);
    }
    painter.restore();
}

/// Seams lie within the body; wheels, mirrors and what stands below have edges of their own.
bool isWithinBody(const CarRegion& region)
{
    return !region.extra && region.part != CarPart::Silhouette && region.part != CarPart::Wheel &&
           region.part != CarPart::Tyre && !region.place.startsWith(QLatin1String("mirror-")) &&
           region.place != QLatin1String("exhaust");
}

void strokeInside(QPainter& painter, const CarStroke& stroke)
{
    painter.save();
    painter.setClipPath(stroke.path);
    painter.strokePath(stroke.path, QPen(stroke.line, stroke.width * 2, Qt::SolidLine, Qt::FlatCap,
                                         Qt::MiterJoin));
    painter.restore();
}

} // namespace

QTransform carTransform(const CarShape& shape, const QRectF& target, bool extras)
{
    const QRectF frame = extras ? shape.extraFrame : shape.frame;
    const double scale = std::min(target.width() / frame.width(), target.height() / frame.height());
    QTransform to;
    to.translate(target.center().x(), target.center().y());
    to.scale(scale, scale);
    to.translate(-frame.center().x(), -frame.center().y());
    return to;
}

std::vector<CarStroke> carStrokes(const CarShape& shape, const QHash<QString, OutlineMark>& marks,
                                  const CarLook& look, const QRectF& target, bool extras)
{
    const QTransform to = carTransform(shape, target, extras);
    const bool details = to.m11() >= detailScale;
    const double dot = std::max(0.9, look.lineWidth * 0.62);
    QPainterPath body;
    std::vector<CarStroke> strokes;
    std::vector<CarStroke> above;
    // Paths are mapped and the painter is not, so that the line keeps its weight at every scale.
    for (const CarRegion& region : shape.regions) {
        if (region.extra && !extras)
            continue;
        const OutlineMark mark = marks.value(region.place, OutlineMark::Plain);
        if (region.detail && !details && mark == OutlineMark::Plain)
            continue;
        const QPainterPath path = to.map(region.path);
        CarStroke stroke{path, {}, isWithinBody(region) ? look.seam : look.line, look.lineWidth};
        if (region.part == CarPart::Silhouette)
            body = path;
        if (region.part == CarPart::Line) {
            stroke.opacity = region.detail ? 0.45 : 1.0;
            strokes.push_back(std::move(stroke));
            continue;
        }
        const bool tinted = region.part == CarPart::Glass || region.part == CarPart::Bed;
        stroke.fill = mark == OutlineMark::Filled ? look.filled : tinted ? look.glass : look.body;
        strokes.push_back(std::move(stroke));
        if (mark == OutlineMark::Stippled)
            strokes.push_back({path, {}, look.stipple, 0, 1, false, dot});
        else if (mark == OutlineMark::Hollow)
            above.push_back({path, {}, look.hollow, look.lineWidth * 1.9, 1, true});
    }
    // The body's edge once more, over the seams that run into it.
    strokes.push_back({body, {}, look.line, look.lineWidth});
    // A closed place keeps its accent edge even where a neighbour was drawn later.
    strokes.insert(strokes.end(), above.begin(), above.end());
    return strokes;
}

void paintCar(QPainter& painter, const CarShape& shape, const QHash<QString, OutlineMark>& marks,
              const CarLook& look, const QRectF& target, bool extras)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    for (const CarStroke& stroke : carStrokes(shape, marks, look, target, extras)) {
        if (stroke.dot > 0) {
            paintStipple(painter, stroke);
            continue;
        }
        if (stroke.inside) {
            strokeInside(painter, stroke);
            continue;
        }
        painter.setPen(QPen(stroke.line, stroke.width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.setBrush(stroke.fill.isValid() ? QBrush(stroke.fill) : QBrush(Qt::NoBrush));
        painter.setOpacity(stroke.opacity);
        painter.drawPath(stroke.path);
        painter.setOpacity(1.0);
    }
    painter.restore();
}

} // namespace ramplight
