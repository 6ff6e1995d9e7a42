// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QQuickItem>

#include <functional>
#include <future>

class QPainter;

namespace ramplight {

/// An item that shows one painted picture as an image node, on every backend of Qt Quick.
/// Equal pictures (same key, size and device pixel ratio) are painted once and shared, so that a
/// wall of cards costs little more than a wall of images.
/// Lives on the GUI thread; only updatePaintNode() runs on the render thread, while the GUI waits.
class Picture : public QQuickItem
{
    Q_OBJECT
    QML_ANONYMOUS

public:
    explicit Picture(QQuickItem* parent = nullptr);

    /// The outlines of a full wall, each with its own marks. With less, every card that scrolls
    /// into sight is drawn anew.
    static constexpr qsizetype mostKilobytesKept = qsizetype{48} * 1024;
    /// What the painted pictures take that are kept for when they are shown again.
    [[nodiscard]] static qsizetype kilobytesKept();

protected:
    /// Everything but the size that the picture depends on.
    [[nodiscard]] virtual QString pictureKey() const = 0;
    /// Paints the picture; the painter is in item coordinates.
    virtual void paint(QPainter& painter, const QSizeF& size) const = 0;
    using Painting = std::function<void(QPainter&, const QSizeF&)>;
    /// What paints the same with copies of its own, where that takes so long that it is better done
    /// on another core while the other items of the frame are laid out. None: paint() it is.
    [[nodiscard]] virtual Painting painting() const { return {}; }

    void pictureChanged();
    void componentComplete() override;
    void updatePolish() override;
    QSGNode* updatePaintNode(QSGNode* old, UpdatePaintNodeData* data) override;
    void geometryChange(const QRectF& now, const QRectF& before) override;
    void itemChange(ItemChange change, const ItemChangeData& data) override;

private:
    [[nodiscard]] std::shared_future<QImage> pictureOf(const QSize& pixels, double ratio) const;

    std::shared_future<QImage> m_image;
    bool m_imageChanged = false;
};

} // namespace ramplight
