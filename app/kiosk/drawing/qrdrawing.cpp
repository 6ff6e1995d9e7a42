// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/qrdrawing.h"

#include "outlines/qrcode.h"

#include <QPainter>

namespace ramplight {

QrDrawing::QrDrawing(QQuickItem* parent)
    : Picture(parent)
{
}

void QrDrawing::setText(const QString& text)
{
    if (m_text == text)
        return;
    m_text = text;
    emit textChanged();
    pictureChanged();
}

QString QrDrawing::pictureKey() const
{
    return QStringLiteral("qr:") + m_text;
}

void QrDrawing::paint(QPainter& painter, const QSizeF& size) const
{
    paintQrCode(painter, qrCode(m_text), QRectF(QPointF(), size));
}

} // namespace ramplight
