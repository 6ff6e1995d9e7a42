// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QQuickItem>

class QPainter;

namespace ramplight {

/// An item that shows one painted picture as an image node, on every backend of Qt Quick.
/// Equal pictures (same key, size and device pixel ratio) are painted once and shared through
/// QPixmapCache, so that a wall of cards costs little more than a wall of images.
/// Lives on the GUI thread; only updatePaintNode() runs on the render thread, while the GUI waits.
class Picture : public QQuickItem
{
    Q_OBJECT
    QML_ANONYMOUS

public:
    explicit Picture(QQuickItem* parent = nullptr);

protected:
    /// Everything but the size that the picture depends on.
    [[nodiscard]] virtual QString pictureKey() const = 0;
    /// Paints the picture; the painter is in item coordinates.
    virtual void paint(QPainter& painter, const QSizeF& size) const = 0;

    void pictureChanged();
    void updatePolish() override;
    QSGNode* updatePaintNode(QSGNode* old, UpdatePaintNodeData* data) override;
    void geometryChange(const QRectF& now, const QRectF& before) override;
    void itemChange(ItemChange change, const ItemChangeData& data) override;

private:
    QImage m_image;
    bool m_imageChanged = false;
};

} // namespace ramplight
