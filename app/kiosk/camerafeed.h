// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QCamera>
#include <QImage>
#include <QMediaCaptureSession>
#include <QMediaDevices>
#include <QQuickItem>
#include <QTimer>
#include <QVideoSink>
#include <QtQmlIntegration>

#include <memory>

namespace ramplight {

/// The camera's picture as an image node, so that it draws on every backend of Qt Quick; grab()
/// hands out the frame that is seen. GUI thread. Use: CameraFeed { active: sheet.visible;
/// onGrabbed: (frame) => operation.attachFrame(frame, "after") }
class CameraFeed : public QQuickItem
{
    Q_OBJECT
    QML_ELEMENT
    /// There is a camera on this machine.
    Q_PROPERTY(bool available READ available NOTIFY availableChanged FINAL)
    Q_PROPERTY(bool active READ active WRITE setActive NOTIFY activeChanged FINAL)
    /// Frames come: the shutter can be touched.
    Q_PROPERTY(bool live READ live NOTIFY liveChanged FINAL)
    /// Why no picture comes, in words; empty.
    Q_PROPERTY(QString fault READ fault NOTIFY liveChanged FINAL)

public:
    explicit CameraFeed(QQuickItem* parent = nullptr);
    ~CameraFeed() override;

    [[nodiscard]] bool available() const;
    [[nodiscard]] bool active() const { return m_active; }
    void setActive(bool active);
    [[nodiscard]] bool live() const { return !m_frame.isNull(); }
    [[nodiscard]] QString fault() const { return m_fault; }

    Q_INVOKABLE void grab();
    /// A test feeds frames through it.
    [[nodiscard]] QVideoSink* sink() { return &m_sink; }

signals:
    void availableChanged();
    void activeChanged();
    void liveChanged();
    void grabbed(const QImage& frame);

protected:
    QSGNode* updatePaintNode(QSGNode* old, UpdatePaintNodeData* data) override;

private:
    void onFrame(const QVideoFrame& frame);
    void onSilence();
    void begin();
    void end();

    QMediaDevices m_devices;
    QMediaCaptureSession m_capture;
    QVideoSink m_sink;
    std::unique_ptr<QCamera> m_camera;
    QTimer m_silence; // no frame for too long: say so
    QImage m_frame;
    QString m_fault;
    bool m_active = false;
};

} // namespace ramplight
