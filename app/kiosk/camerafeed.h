// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/frameitem.h"

#include <QCamera>
#include <QMediaCaptureSession>
#include <QMediaDevices>
#include <QTimer>

#include <memory>

namespace ramplight {

/// The camera's picture. GUI thread. Use: CameraFeed { active: sheet.visible;
/// onGrabbed: (frame) => operation.attachFrame(frame, "after") }
// With its namespace: qmltyperegistrar takes the name as it is written.
class CameraFeed : public ramplight::FrameItem
{
    Q_OBJECT
    QML_ELEMENT
    /// There is a camera on this machine.
    Q_PROPERTY(bool available READ available NOTIFY availableChanged FINAL)
    Q_PROPERTY(bool active READ active WRITE setActive NOTIFY activeChanged FINAL)
    /// Why no picture comes, in words; empty.
    Q_PROPERTY(QString fault READ fault NOTIFY faultChanged FINAL)

public:
    explicit CameraFeed(QQuickItem* parent = nullptr);
    ~CameraFeed() override;

    [[nodiscard]] bool available() const;
    [[nodiscard]] bool active() const { return m_active; }
    void setActive(bool active);
    [[nodiscard]] QString fault() const { return m_fault; }

signals:
    void availableChanged();
    void activeChanged();
    void faultChanged();

protected:
    [[nodiscard]] bool takesFrames() const override { return m_active; }
    void frameShown() override;

private:
    void onSilence();
    void begin();
    void end();
    void setFault(const QString& words);

    QMediaDevices m_devices;
    QMediaCaptureSession m_capture;
    std::unique_ptr<QCamera> m_camera;
    QTimer m_silence; // no frame for too long: say so
    QString m_fault;
    bool m_active = false;
};

} // namespace ramplight
