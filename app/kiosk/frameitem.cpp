// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/frameitem.h"

#include "kiosk/videopixels.h"

#include <QQuickWindow>
#include <QSGImageNode>

namespace ramplight {

FrameItem::FrameItem(QQuickItem* parent)
    : QQuickItem(parent)
{
    setFlag(ItemHasContents);
    connect(&m_sink, &QVideoSink::videoFrameChanged, this, &FrameItem::onFrame);
}

qreal FrameItem::proportion() const
{
    if (!m_live)
        return 16.0 / 9.0;
    const QSizeF size = m_frame.size();
    return turnsOf(m_frame) % 2 == 0 ? size.width() / size.height() : size.height() / size.width();
}

int FrameItem::turnsOf(const QVideoFrame& frame) const
{
    const int own = frame.rotationAngle() / 90;
    return own != 0 ? own : m_turns;
}

void FrameItem::onFrame(const QVideoFrame& frame)
{
    if (!frame.isValid() || !takesFrames())
        return;
    // One point of it tells whether it can be read at all.
    if (!m_live && videoPixels(frame, {1, 1}).isNull()) {
        frameUnreadable();
        return;
    }
    m_frame = frame;
    polish();
    if (!m_live) {
        m_live = true;
        emit liveChanged();
    }
    frameShown();
}

void FrameItem::clearFrame()
{
    m_frame = {};
    polish();
    if (m_live) {
        m_live = false;
        emit liveChanged();
    }
}

void FrameItem::grab()
{
    if (const QImage whole = videoPixels(m_frame, {}, turnsOf(m_frame)); !whole.isNull())
        emit grabbed(whole);
}

void FrameItem::updatePolish()
{
    const qreal ratio = window() != nullptr ? window()->effectiveDevicePixelRatio() : 1.0;
    const QSize room = (size() * ratio).toSize();
    m_shown = room.isEmpty() ? QImage() : videoPixels(m_frame, room, turnsOf(m_frame));
    m_shownChanged = true;
    update();
}

QSGNode* FrameItem::updatePaintNode(QSGNode* old, UpdatePaintNodeData*)
{
    auto* node = static_cast<QSGImageNode*>(old);
    if (m_shown.isNull()) {
        delete node;
        return nullptr;
    }
    if (node == nullptr) {
        node = window()->createImageNode();
        node->setFiltering(QSGTexture::Linear);
        node->setOwnsTexture(true);
        m_shownChanged = true;
    }
    if (m_shownChanged) {
        node->setTexture(window()->createTextureFromImage(m_shown, QQuickWindow::TextureIsOpaque));
        m_shownChanged = false;
    }
    // Whole, in the middle, its sides in proportion.
    const QSizeF fitted = QSizeF(m_shown.size()).scaled(size(), Qt::KeepAspectRatio);
    node->setRect(
        QRectF(QPointF((width() - fitted.width()) / 2, (height() - fitted.height()) / 2), fitted));
    return node;
}

void FrameItem::geometryChange(const QRectF& now, const QRectF& before)
{
    QQuickItem::geometryChange(now, before);
    if (now.size() != before.size())
        polish();
}

} // namespace ramplight
