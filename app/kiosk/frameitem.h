// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QQuickItem>
#include <QVideoFrame>
#include <QVideoSink>
#include <QtQmlIntegration>

namespace ramplight {

/// Frames of a camera or a recording as an image node, so that they are drawn on every backend of
/// Qt Quick; grab() hands out the frame that is seen. What brings the frames is a class of its own
/// (CameraFeed, MomentPlayer). GUI thread.
class FrameItem : public QQuickItem
{
    Q_OBJECT
    QML_ANONYMOUS
    /// There is a picture: grab() answers with grabbed().
    Q_PROPERTY(bool live READ live NOTIFY liveChanged FINAL)
    /// Width by height of the upright picture; 16 by 9 without one.
    Q_PROPERTY(qreal proportion READ proportion NOTIFY liveChanged FINAL)

public:
    explicit FrameItem(QQuickItem* parent = nullptr);

    [[nodiscard]] bool live() const { return m_live; }
    [[nodiscard]] qreal proportion() const;

    /// The frame that is seen, whole.
    Q_INVOKABLE void grab();
    /// A test feeds frames through it.
    [[nodiscard]] QVideoSink* sink() { return &m_sink; }

signals:
    void liveChanged();
    void grabbed(const QImage& frame);

protected:
    /// Whether a frame that comes is wanted now.
    [[nodiscard]] virtual bool takesFrames() const = 0;
    /// A frame came and can be shown.
    virtual void frameShown() {}
    /// A frame came that cannot be read.
    virtual void frameUnreadable() {}
    /// How far frames have to be turned to the right that do not say it themselves.
    void setQuarterTurns(int turns) { m_turns = turns; }
    void clearFrame();
    [[nodiscard]] const QVideoFrame& frame() const { return m_frame; }
    /// Of the frame that is seen, to the right, until it stands upright.
    [[nodiscard]] int frameTurns() const { return turnsOf(m_frame); }

    void updatePolish() override;
    QSGNode* updatePaintNode(QSGNode* old, UpdatePaintNodeData* data) override;
    void geometryChange(const QRectF& now, const QRectF& before) override;

private:
    void onFrame(const QVideoFrame& frame);
    [[nodiscard]] int turnsOf(const QVideoFrame& frame) const;

    QVideoSink m_sink;
    QVideoFrame m_frame;
    QImage m_shown; ///< as large as it is seen
    int m_turns = 0;
    bool m_live = false;
    bool m_shownChanged = false;
};

} // namespace ramplight
