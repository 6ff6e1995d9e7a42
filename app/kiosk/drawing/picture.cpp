// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/picture.h"

#include <QPainter>
#include <QPixmapCache>
#include <QQuickWindow>
#include <QSGImageNode>

#include <cmath>

namespace ramplight {

Picture::Picture(QQuickItem* parent)
    : QQuickItem(parent)
{
    setFlag(ItemHasContents);
}

void Picture::pictureChanged()
{
    polish();
}

void Picture::updatePolish()
{
    const double ratio = window() ? window()->effectiveDevicePixelRatio() : 1.0;
    const QSize pixels(static_cast<int>(std::ceil(width() * ratio)),
                       static_cast<int>(std::ceil(height() * ratio)));
    if (pixels.isEmpty()) {
        m_image = QImage();
    } else {
        const QString key = QStringLiteral("ramplight/%1/%2x%3@%4")
                                .arg(pictureKey())
                                .arg(pixels.width())
                                .arg(pixels.height())
                                .arg(ratio);
        QPixmap pixmap;
        if (!QPixmapCache::find(key, &pixmap)) {
            QImage image(pixels, QImage::Format_ARGB32_Premultiplied);
            image.fill(Qt::transparent);
            image.setDevicePixelRatio(ratio);
            QPainter painter(&image);
            painter.setRenderHint(QPainter::Antialiasing);
            paint(painter, QSizeF(width(), height()));
            painter.end();
            pixmap = QPixmap::fromImage(image);
            QPixmapCache::insert(key, pixmap);
        }
        m_image = pixmap.toImage();
    }
    m_imageChanged = true;
    update();
}

QSGNode* Picture::updatePaintNode(QSGNode* old, UpdatePaintNodeData*)
{
    if (m_image.isNull()) {
        delete old;
        return nullptr;
    }
    auto* node = static_cast<QSGImageNode*>(old);
    if (!node) {
        node = window()->createImageNode();
        node->setOwnsTexture(true);
        node->setFiltering(QSGTexture::Linear);
        m_imageChanged = true;
    }
    if (m_imageChanged) {
        node->setTexture(window()->createTextureFromImage(m_image));
        m_imageChanged = false;
    }
    node->setRect(QRectF(QPointF(), QSizeF(m_image.size()) / m_image.devicePixelRatio()));
    return node;
}

void Picture::geometryChange(const QRectF& now, const QRectF& before)
{
    QQuickItem::geometryChange(now, before);
    if (now.size() != before.size())
        pictureChanged();
}

void Picture::itemChange(ItemChange change, const ItemChangeData& data)
{
    QQuickItem::itemChange(change, data);
    if (change == ItemDevicePixelRatioHasChanged || change == ItemSceneChange)
        pictureChanged();
}

} // namespace ramplight
