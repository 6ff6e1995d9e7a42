// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/picture.h"

#include <QCache>
#include <QPainter>
#include <QQuickWindow>
#include <QSGImageNode>
#include <QThreadPool>

#include <cmath>
#include <memory>
#include <utility>

namespace ramplight {

namespace {

/// GUI thread. A picture may still be in the making.
QCache<QString, std::shared_future<QImage>>& keptPictures()
{
    static QCache<QString, std::shared_future<QImage>> pictures(Picture::mostKilobytesKept);
    return pictures;
}

/// For nothing but pictures: the frame waits for them.
QThreadPool& painters()
{
    static QThreadPool pool;
    return pool;
}

template <class Paint>
QImage painted(const QSize& pixels, double ratio, const QSizeF& size, const Paint& paint)
{
    QImage image(pixels, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    image.setDevicePixelRatio(ratio);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    paint(painter, size);
    return image;
}

} // namespace

Picture::Picture(QQuickItem* parent)
    : QQuickItem(parent)
{
    setFlag(ItemHasContents);
}

qsizetype Picture::kilobytesKept()
{
    return keptPictures().totalCost();
}

void Picture::pictureChanged()
{
    polish();
}

void Picture::componentComplete()
{
    QQuickItem::componentComplete();
    // The other cores paint while the rest of the frame is made.
    if (painting())
        updatePolish();
}

void Picture::updatePolish()
{
    const double ratio = window() ? window()->effectiveDevicePixelRatio() : 1.0;
    const QSize pixels(static_cast<int>(std::ceil(width() * ratio)),
                       static_cast<int>(std::ceil(height() * ratio)));
    m_image = pixels.isEmpty() ? std::shared_future<QImage>() : pictureOf(pixels, ratio);
    m_imageChanged = true;
    update();
}

std::shared_future<QImage> Picture::pictureOf(const QSize& pixels, double ratio) const
{
    const QString key = QStringLiteral("%1/%2x%3@%4")
                            .arg(pictureKey())
                            .arg(pixels.width())
                            .arg(pixels.height())
                            .arg(ratio);
    if (const auto* kept = keptPictures().object(key))
        return *kept;
    const QSizeF size(width(), height());
    std::shared_future<QImage> picture;
    if (Painting aside = painting()) {
        auto task = std::make_shared<std::packaged_task<QImage()>>(
            [pixels, ratio, size, aside = std::move(aside)] {
                return painted(pixels, ratio, size, aside);
            });
        picture = task->get_future().share();
        painters().start([task] { (*task)(); });
    } else {
        std::promise<QImage> made;
        made.set_value(painted(pixels, ratio, size, [this](QPainter& painter, const QSizeF& area) {
            paint(painter, area);
        }));
        picture = made.get_future().share();
    }
    keptPictures().insert(
        key, new std::shared_future<QImage>(picture),
        std::max<qsizetype>(1, qsizetype(pixels.width()) * pixels.height() / 256));
    return picture;
}

QSGNode* Picture::updatePaintNode(QSGNode* old, UpdatePaintNodeData*)
{
    if (!m_image.valid()) {
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
        node->setTexture(window()->createTextureFromImage(m_image.get()));
        m_imageChanged = false;
    }
    const QImage& image = m_image.get();
    node->setRect(QRectF(QPointF(), QSizeF(image.size()) / image.devicePixelRatio()));
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
