// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/edgedrawing.h"

#include <QPainter>
#include <QPainterPath>

#include <cmath>

namespace ramplight {

namespace {

/// A band whose left corners follow the card's.
QPainterPath bandOutline(const QSizeF& size, double radius)
{
    QPainterPath card;
    card.addRoundedRect(QRectF(0, 0, size.width() + 2 * radius, size.height()), radius, radius);
    QPainterPath strip;
    strip.addRect(QRectF(QPointF(), size));
    return card & strip;
}

/// How many of from, from + by, from + 2 by ... lie below end; none where nothing has a size.
int stepsBelow(double from, double end, double by)
{
    return by > 0 && from < end ? static_cast<int>(std::ceil((end - from) / by)) : 0;
}

void paintHatch(QPainter& painter, const QSizeF& size, const QColor& ground, const QColor& stripe)
{
    painter.fillRect(QRectF(QPointF(), size), ground);
    painter.setBrush(stripe);
    painter.setPen(Qt::NoPen);
    // Stripes and gaps of equal width at 45 degrees, rising to the right.
    const double step = std::min(size.width(), size.height()) * 1.5;
    const double reach = size.width();
    const int stripes = stepsBelow(-reach, size.height() + reach, step);
    for (int i = 0; i < stripes; ++i) {
        const double y = -reach + i * step;
        painter.drawPolygon(QPolygonF(
            {{0, y + reach}, {reach, y}, {reach, y + step / 2}, {0, y + reach + step / 2}}));
    }
}

} // namespace

EdgeDrawing::EdgeDrawing(QQuickItem* parent)
    : Picture(parent)
{
}

void EdgeDrawing::setBand(int band)
{
    if (m_band == band)
        return;
    m_band = band;
    emit bandChanged();
    pictureChanged();
}

void EdgeDrawing::setNumber(double& member, double value)
{
    if (qFuzzyCompare(member, value))
        return;
    member = value;
    emit lookChanged();
    pictureChanged();
}

void EdgeDrawing::setColour(QColor& member, const QColor& colour)
{
    if (member == colour)
        return;
    member = colour;
    emit lookChanged();
    pictureChanged();
}

QString EdgeDrawing::pictureKey() const
{
    QString key = QStringLiteral("edge/%1/%2/%3").arg(m_band).arg(m_radius).arg(m_lineWidth);
    for (const QColor& colour : {m_strong, m_faint, m_hazard, m_hazardInk})
        key += colour.name(QColor::HexArgb);
    return key;
}

void EdgeDrawing::paint(QPainter& painter, const QSizeF& size) const
{
    const double w = size.width();
    const double h = size.height();
    const double line = m_lineWidth;
    if (m_band != FoldedCorner)
        painter.setClipPath(bandOutline(size, m_radius));
    switch (m_band) {
    case Empty:
        painter.fillRect(QRectF(w - line, 0, line, h), m_faint);
        break;
    case InHand:
        painter.fillRect(QRectF(0, 0, w, h), m_strong);
        break;
    case Paused: {
        const double gap = w * 1.5;
        painter.fillRect(QRectF(0, 0, w, (h - gap) / 2), m_strong);
        painter.fillRect(QRectF(0, (h + gap) / 2, w, (h - gap) / 2), m_strong);
        painter.fillRect(QRectF(w - line, 0, line, h), m_strong);
        break;
    }
    case AwaitingCheck: {
        const double bar = std::round(w * 0.36);
        painter.fillRect(QRectF(0, 0, bar, h), m_strong);
        painter.fillRect(QRectF(w - bar, 0, bar, h), m_strong);
        break;
    }
    case Closed:
        painter.setPen(Qt::NoPen);
        painter.setBrush(m_faint);
        painter.drawPolygon(QPolygonF({{w - line * 2.2, 0}, {w, 0}, {w, h}}));
        break;
    case LeftAsIs: {
        painter.setPen(Qt::NoPen);
        painter.setBrush(m_faint);
        const double dot = line * 1.1;
        const int dots = stepsBelow(dot * 3, h - dot, dot * 4);
        for (int i = 0; i < dots; ++i)
            painter.drawEllipse(QPointF(w - dot, dot * (3 + i * 4)), dot, dot);
        break;
    }
    case Blocked: {
        const double block = w * 1.15;
        const double inset = std::round(w * 0.18);
        const int blocks = stepsBelow(block * 0.35, h, block * 1.75);
        for (int i = 0; i < blocks; ++i)
            painter.fillRect(
                QRectF(inset, std::round(block * (0.35 + i * 1.75)), w - inset, std::round(block)),
                m_strong);
        break;
    }
    case Held:
        paintHatch(painter, size, m_hazard, m_hazardInk);
        break;
    case None:
    default:
        break;
    case FoldedCorner: {
        // The corner is cut away to the ground and its paper lies folded inward.
        painter.setPen(Qt::NoPen);
        painter.setBrush(m_faint);
        painter.drawPolygon(QPolygonF({{w, 0}, {w, h}, {0, h}}));
        painter.setBrush(m_strong);
        QPainterPath fold(QPointF(w, 0));
        fold.lineTo(0, h);
        fold.lineTo(0, m_radius);
        fold.quadTo(0, 0, m_radius, 0);
        fold.closeSubpath();
        painter.drawPath(fold);
        break;
    }
    }
}

} // namespace ramplight
