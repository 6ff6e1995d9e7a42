// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/symboldrawing.h"

#include <QPainter>
#include <QPainterPath>

namespace ramplight {

namespace {

// All symbols are drawn on a field of 24 by 24.
constexpr double drawnField = 24.0;

QPainterPath triangle(double inset)
{
    // Equal sides, corners left to the round join of the pen.
    QPainterPath path(QPointF(12, 2.6 + inset * 2));
    path.lineTo(22.4 - inset * 1.73, 20.6 - inset);
    path.lineTo(1.6 + inset * 1.73, 20.6 - inset);
    path.closeSubpath();
    return path;
}

void paintCaution(QPainter& painter, const QColor& ink, const QColor& ground)
{
    painter.setPen(QPen(ground, 2.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(ground);
    painter.drawPath(triangle(0));
    painter.setPen(QPen(ink, 1.7, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(triangle(0.35));
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    QPainterPath stroke(QPointF(10.55, 8.6));
    stroke.quadTo(12, 7.2, 13.45, 8.6);
    stroke.lineTo(12.85, 14.2);
    stroke.lineTo(11.15, 14.2);
    stroke.closeSubpath();
    painter.drawPath(stroke);
    painter.drawEllipse(QPointF(12, 16.7), 1.35, 1.35);
}

QPainterPath lines(int symbol)
{
    QPainterPath path;
    switch (symbol) {
    case SymbolDrawing::Camera:
        path.moveTo(4.5, 7.5);
        path.lineTo(8, 7.5);
        path.lineTo(9.5, 5);
        path.lineTo(14.5, 5);
        path.lineTo(16, 7.5);
        path.lineTo(19.5, 7.5);
        path.quadTo(21.5, 7.5, 21.5, 9.5);
        path.lineTo(21.5, 17);
        path.quadTo(21.5, 19, 19.5, 19);
        path.lineTo(4.5, 19);
        path.quadTo(2.5, 19, 2.5, 17);
        path.lineTo(2.5, 9.5);
        path.quadTo(2.5, 7.5, 4.5, 7.5);
        path.addEllipse(QPointF(12, 13), 3.7, 3.7);
        break;
    case SymbolDrawing::Back:
        path.moveTo(20.5, 12);
        path.lineTo(4, 12);
        path.moveTo(10, 5.5);
        path.lineTo(3.5, 12);
        path.lineTo(10, 18.5);
        break;
    case SymbolDrawing::Person:
        path.addEllipse(QPointF(12, 8), 4, 4);
        path.moveTo(4, 21);
        path.cubicTo(4, 12.6, 20, 12.6, 20, 21);
        break;
    case SymbolDrawing::Search:
        path.addEllipse(QPointF(10.5, 10.5), 6.5, 6.5);
        path.moveTo(15.4, 15.4);
        path.lineTo(21, 21);
        break;
    case SymbolDrawing::Erase:
        path.moveTo(8.5, 5.5);
        path.lineTo(21.5, 5.5);
        path.lineTo(21.5, 18.5);
        path.lineTo(8.5, 18.5);
        path.lineTo(2.5, 12);
        path.closeSubpath();
        path.moveTo(11.8, 9.2);
        path.lineTo(17.4, 14.8);
        path.moveTo(17.4, 9.2);
        path.lineTo(11.8, 14.8);
        break;
    case SymbolDrawing::Shift:
        path.moveTo(12, 3.5);
        path.lineTo(20.5, 12.5);
        path.lineTo(16, 12.5);
        path.lineTo(16, 20);
        path.lineTo(8, 20);
        path.lineTo(8, 12.5);
        path.lineTo(3.5, 12.5);
        path.closeSubpath();
        break;
    case SymbolDrawing::Tick:
        path.moveTo(4, 12.8);
        path.lineTo(9.6, 18.4);
        path.lineTo(20, 6);
        break;
    case SymbolDrawing::Cross:
        path.moveTo(5.5, 5.5);
        path.lineTo(18.5, 18.5);
        path.moveTo(18.5, 5.5);
        path.lineTo(5.5, 18.5);
        break;
    case SymbolDrawing::HideKeys:
        path.moveTo(4, 7);
        path.lineTo(12, 15);
        path.lineTo(20, 7);
        path.moveTo(4, 20);
        path.lineTo(20, 20);
        break;
    case SymbolDrawing::RingMark:
        path.addEllipse(QPointF(12, 12), 8.2, 8.2);
        break;
    default:
        break;
    }
    return path;
}

void paintHatchMark(QPainter& painter, const QColor& ink, const QColor& ground)
{
    QPainterPath square;
    square.addRoundedRect(QRectF(1.5, 1.5, 21, 21), 2, 2);
    painter.setClipPath(square);
    painter.fillRect(QRectF(0, 0, drawnField, drawnField), ground);
    painter.setPen(QPen(ink, 6.4, Qt::SolidLine, Qt::FlatCap));
    for (const double shift : {-18.0, 0.0, 18.0})
        painter.drawLine(QPointF(-4 + shift, 28), QPointF(28 + shift, -4));
}

} // namespace

SymbolDrawing::SymbolDrawing(QQuickItem* parent)
    : Picture(parent)
{
}

void SymbolDrawing::setSymbol(int symbol)
{
    if (m_symbol == symbol)
        return;
    m_symbol = symbol;
    emit lookChanged();
    pictureChanged();
}

void SymbolDrawing::setColour(const QColor& colour)
{
    if (m_colour == colour)
        return;
    m_colour = colour;
    emit lookChanged();
    pictureChanged();
}

void SymbolDrawing::setGround(const QColor& colour)
{
    if (m_ground == colour)
        return;
    m_ground = colour;
    emit lookChanged();
    pictureChanged();
}

QString SymbolDrawing::pictureKey() const
{
    return QStringLiteral("symbol/%1/%2/%3")
        .arg(m_symbol)
        .arg(m_colour.name(QColor::HexArgb), m_ground.name(QColor::HexArgb));
}

void SymbolDrawing::paint(QPainter& painter, const QSizeF& size) const
{
    const double scale = std::min(size.width(), size.height()) / drawnField;
    painter.translate((size.width() - drawnField * scale) / 2,
                      (size.height() - drawnField * scale) / 2);
    painter.scale(scale, scale);
    if (m_symbol == Caution) {
        paintCaution(painter, m_colour, m_ground);
    } else if (m_symbol == HatchMark) {
        paintHatchMark(painter, m_colour, m_ground);
    } else {
        painter.strokePath(lines(m_symbol),
                           QPen(m_colour, 2.1, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    }
}

DashedFrame::DashedFrame(QQuickItem* parent)
    : Picture(parent)
{
}

void DashedFrame::setColour(const QColor& colour)
{
    if (m_colour == colour)
        return;
    m_colour = colour;
    emit lookChanged();
    pictureChanged();
}

void DashedFrame::setRadius(double radius)
{
    if (qFuzzyCompare(m_radius, radius))
        return;
    m_radius = radius;
    emit lookChanged();
    pictureChanged();
}

void DashedFrame::setLineWidth(double width)
{
    if (qFuzzyCompare(m_lineWidth, width))
        return;
    m_lineWidth = width;
    emit lookChanged();
    pictureChanged();
}

QString DashedFrame::pictureKey() const
{
    return QStringLiteral("frame/%1/%2/%3")
        .arg(m_colour.name(QColor::HexArgb))
        .arg(m_radius)
        .arg(m_lineWidth);
}

void DashedFrame::paint(QPainter& painter, const QSizeF& size) const
{
    QPen pen(m_colour, m_lineWidth, Qt::CustomDashLine, Qt::FlatCap);
    pen.setDashPattern({3.2, 2.4});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    const double half = m_lineWidth / 2;
    painter.drawRoundedRect(QRectF(QPointF(), size).adjusted(half, half, -half, -half), m_radius,
                            m_radius);
}

} // namespace ramplight
