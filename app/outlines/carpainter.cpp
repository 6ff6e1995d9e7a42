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
void paintStipple(QPainter& painter, const QPainterPath& region, const CarLook& look)
{
    const double dot = std::max(0.9, look.lineWidth * 0.62);
    const double step = dot * 3.6;
    const QRectF box = region.boundingRect();
    painter.save();
    painter.setClipPath(region);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.stipple);
    // The grid is that of the drawing, not of the region, so that neighbours run on.
    auto row = static_cast<int>(std::floor(box.top() / (step * 0.866)));
    for (double y = row * step * 0.866; y <= box.bottom() + step; y += step * 0.866, ++row) {
        const double shift = row % 2 == 0 ? 0.0 : step / 2;
        for (double x = std::floor(box.left() / step) * step + shift; x <= box.right() + step;
             x += step)
            painter.drawEllipse(QPointF(x, y), dot, dot);
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

void strokeInside(QPainter& painter, const QPainterPath& region, const QColor& colour, double width)
{
    painter.save();
    painter.setClipPath(region);
    painter.strokePath(region, QPen(colour, width * 2, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
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

void paintCar(QPainter& painter, const CarShape& shape, const QHash<QString, OutlineMark>& marks,
              const CarLook& look, const QRectF& target, bool extras)
{
    const QTransform to = carTransform(shape, target, extras);
    const bool details = to.m11() >= detailScale;
    const QPen edge(look.line, look.lineWidth, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    const QPen seam(look.seam, look.lineWidth, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    QPainterPath body;
    // Paths are mapped and the painter is not, so that the line keeps its weight at every scale.
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    std::vector<std::pair<QPainterPath, OutlineMark>> above;
    for (const CarRegion& region : shape.regions) {
        if (region.extra && !extras)
            continue;
        const OutlineMark mark = marks.value(region.place, OutlineMark::Plain);
        if (region.detail && !details && mark == OutlineMark::Plain)
            continue;
        const QPainterPath path = to.map(region.path);
        painter.setPen(isWithinBody(region) ? seam : edge);
        if (region.part == CarPart::Silhouette)
            body = path;
        if (region.part == CarPart::Line) {
            painter.setBrush(Qt::NoBrush);
            painter.setOpacity(region.detail ? 0.45 : 1.0);
            painter.drawPath(path);
            painter.setOpacity(1.0);
            continue;
        }
        const bool tinted = region.part == CarPart::Glass || region.part == CarPart::Bed;
        painter.setBrush(mark == OutlineMark::Filled ? look.filled
                         : tinted                    ? look.glass
                                                     : look.body);
        painter.drawPath(path);
        if (mark == OutlineMark::Stippled)
            paintStipple(painter, path, look);
        else if (mark == OutlineMark::Hollow)
            above.emplace_back(path, mark);
    }
    // The body's edge once more, over the seams that run into it.
    painter.setBrush(Qt::NoBrush);
    painter.setPen(edge);
    painter.drawPath(body);
    // A closed place keeps its accent edge even where a neighbour was drawn later.
    for (const auto& [path, mark] : above)
        strokeInside(painter, path, look.hollow, look.lineWidth * 1.9);
    painter.restore();
}

} // namespace ramplight
