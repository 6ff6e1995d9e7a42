// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "outlines/qrcode.h"

#include <QPainter>

#include <algorithm>
#include <cmath>
#include <memory>

#include <qrencode.h>

namespace ramplight {

namespace {

constexpr int quietModules = 4;

} // namespace

QrCode qrCode(const QString& text)
{
    const QByteArray bytes = text.toUtf8();
    if (bytes.isEmpty())
        return {};
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(
        QRcode_encodeData(static_cast<int>(bytes.size()),
                          reinterpret_cast<const unsigned char*>(bytes.constData()), 0,
                          QR_ECLEVEL_M),
        QRcode_free);
    if (!made)
        return {};
    QrCode code{made->width, QBitArray(made->width * made->width)};
    for (int i = 0; i < code.modules.size(); ++i)
        code.modules.setBit(i, (made->data[i] & 1U) != 0);
    return code;
}

void paintQrCode(QPainter& painter, const QrCode& code, const QRectF& place)
{
    if (code.side == 0)
        return;
    const int across = code.side + 2 * quietModules;
    const double shorter = std::min(place.width(), place.height());
    const double whole = std::floor(shorter / across);
    const double module = whole >= 1 ? whole : shorter / across;
    const double all = module * across;
    const QPointF corner(std::floor(place.center().x() - all / 2),
                         std::floor(place.center().y() - all / 2));
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.fillRect(QRectF(corner, QSizeF(all, all)), Qt::white);
    for (int y = 0; y < code.side; ++y)
        for (int x = 0; x < code.side; ++x)
            if (code.dark(x, y))
                painter.fillRect(QRectF(corner.x() + (x + quietModules) * module,
                                        corner.y() + (y + quietModules) * module, module, module),
                                 Qt::black);
    painter.restore();
}

} // namespace ramplight
