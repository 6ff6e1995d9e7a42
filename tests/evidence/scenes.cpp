// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "scenes.h"

#include "samples.h"

#include <QPainter>
#include <QPainterPath>
#include <QRadialGradient>
#include <QRandomGenerator>
#include <QTransform>

#include <algorithm>

namespace samples {
namespace {

double between(QRandomGenerator& random, double low, double high)
{
    return low + (high - low) * random.generateDouble();
}

void paintWheel(QPainter& painter, QRandomGenerator& random, bool repaired)
{
    painter.fillRect(QRectF(-2, -2, 4, 4), QColor(60, 62, 66));
    painter.setPen(Qt::NoPen);
    for (int i = 0; i < 40; ++i) {
        // One after the other: the order of what a call is given is each compiler's own.
        const int value = 50 + random.bounded(120);
        painter.setBrush(QColor::fromHsv(random.bounded(360), 30, value));
        const double down = between(random, 0.34, 0.44);
        painter.drawRect(QRectF(between(random, -0.5, 0.5), down, 0.05, 0.03));
    }
    painter.setBrush(QColor(28, 28, 30));
    painter.drawEllipse(QPointF(0, 0), 0.36, 0.36);
    painter.setBrush(QColor(170, 172, 176));
    painter.drawEllipse(QPointF(0, 0), 0.27, 0.27);
    const int spokes = 5 + random.bounded(4);
    const double first = random.bounded(360);
    painter.setBrush(QColor(50, 50, 54));
    for (int i = 0; i < spokes; ++i) {
        painter.save();
        painter.rotate(first + 360.0 * i / spokes);
        QPainterPath gap(QPointF(0.06, -0.01));
        gap.lineTo(0.25, -0.07);
        gap.lineTo(0.25, 0.05);
        gap.closeSubpath();
        painter.drawPath(gap);
        painter.restore();
    }
    if (repaired)
        return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(QColor(235, 235, 235), 0.012));
    painter.drawArc(QRectF(-0.26, -0.26, 0.52, 0.52), 16 * 20, 16 * 40);
}

void paintDoor(QPainter& painter, QRandomGenerator& random, bool repaired)
{
    const int value = 110 + random.bounded(90);
    const QColor paint = QColor::fromHsv(random.bounded(360), 110, value);
    QLinearGradient shade(0, -0.4, 0, 0.4);
    shade.setColorAt(0, paint.lighter(130));
    shade.setColorAt(0.5, paint);
    shade.setColorAt(1, paint.darker(160));
    painter.fillRect(QRectF(-2, -2, 4, 4), shade);
    const double seam = between(random, -0.3, 0.3);
    painter.setPen(QPen(QColor(20, 20, 20), 0.008));
    painter.drawLine(QPointF(seam, -2), QPointF(seam + between(random, 0, 0.05), 2));
    const double sill = between(random, -0.3, -0.2);
    painter.setPen(QPen(QColor(25, 25, 28), 0.02));
    painter.drawLine(QPointF(-2, sill), QPointF(2, sill + 0.03));
    const double crease = between(random, 0.05, 0.2);
    painter.setPen(QPen(paint.lighter(160), 0.012));
    painter.drawLine(QPointF(-2, crease), QPointF(2, crease - 0.02));
    painter.setPen(Qt::NoPen);
    painter.setBrush(paint.darker(140));
    painter.drawRoundedRect(QRectF(seam + 0.08, between(random, -0.12, -0.02), 0.14, 0.035), 0.01,
                            0.01);
    painter.fillRect(QRectF(-2, 0.30, 4, 1), QColor(40, 40, 42));
    if (repaired)
        return;
    painter.setPen(QPen(QColor(235, 235, 235), 0.006));
    for (int i = 0; i < 4; ++i)
        painter.drawLine(QPointF(-0.2, 0.02 * i), QPointF(0.12, 0.06 + 0.01 * i));
}

QTransform seenBy(const Shot& shot)
{
    return QTransform()
        .translate(shot.right, shot.down)
        .rotate(shot.degrees)
        .scale(shot.scale, shot.scale);
}

/// A camera's noise, and how much light it took.
void expose(QImage& image, const Shot& shot)
{
    QRandomGenerator noise(static_cast<quint32>(shot.grain));
    const auto exposed = [&](int value, int grain) {
        return std::clamp(static_cast<int>(value * shot.gain) + grain, 0, 255);
    };
    for (int y = 0; y < image.height(); ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x) {
            const int grain = noise.bounded(13) - 6;
            const QRgb pixel = line[x];
            line[x] = qRgb(exposed(qRed(pixel), grain), exposed(qGreen(pixel), grain),
                           exposed(qBlue(pixel), grain));
        }
    }
}

} // namespace

QImage photographed(Thing thing, int number, const Shot& shot)
{
    QImage image(shot.size, QImage::Format_RGB32);
    image.fill(Qt::gray);
    QRandomGenerator random(static_cast<quint32>(number));
    const double side = std::max(shot.size.width(), shot.size.height());
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setTransform(
        seenBy(shot) * QTransform::fromScale(side, side) *
        QTransform::fromTranslate(shot.size.width() / 2.0, shot.size.height() / 2.0));
    switch (thing) {
    case Thing::Wheel:
        paintWheel(painter, random, shot.repaired);
        break;
    case Thing::Door:
        paintDoor(painter, random, shot.repaired);
        break;
    case Thing::Paint:
        painter.drawImage(QRectF(-0.9, -0.675, 1.8, 1.35), panel({1600, 1200}, number));
        break;
    }
    painter.resetTransform();
    QRadialGradient lamp(shot.lamp * shot.size.width(), 0.2 * shot.size.height(), side / 2);
    lamp.setColorAt(0, QColor(255, 255, 255, 90));
    lamp.setColorAt(1, QColor(255, 255, 255, 0));
    painter.fillRect(image.rect(), lamp);
    painter.end();
    expose(image, shot);
    return image;
}

QPointF carried(QPointF point, const Shot& from, const Shot& to)
{
    return (seenBy(from).inverted() * seenBy(to)).map(point);
}

} // namespace samples
