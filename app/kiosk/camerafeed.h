// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/camera.h"
#include "kiosk/frameitem.h"

#include <QPointer>
#include <QStringList>
#include <QThreadPool>
#include <QTimer>

namespace ramplight {

/// The camera's picture: take() holds it still and looks at it on a pool (warnings), takeAgain()
/// lets it go on, keep() hands it out with grabbed(). GUI thread. Use:
/// CameraFeed { camera: shell.camera; active: sheet.shown; onGrabbed: (frame) => ... }
// With its namespace: qmltyperegistrar takes the name as it is written.
class CameraFeed : public ramplight::FrameItem
{
    Q_OBJECT
    QML_ELEMENT
    /// The kiosk's; without one there is no camera.
    Q_PROPERTY(ramplight::Camera* camera READ camera WRITE setCamera NOTIFY thereChanged FINAL)
    Q_PROPERTY(bool active READ active WRITE setActive NOTIFY activeChanged FINAL)
    /// A camera is connected; false until somebody looks.
    Q_PROPERTY(bool there READ there NOTIFY thereChanged FINAL)
    /// Why no picture comes, in words; empty. Stays when it is made inactive, until the next try.
    Q_PROPERTY(QString fault READ fault NOTIFY faultChanged FINAL)
    /// A picture was taken and is held still.
    Q_PROPERTY(bool held READ held NOTIFY heldChanged FINAL)
    /// What may be wrong with the one that is held, in words.
    Q_PROPERTY(QStringList warnings READ warnings NOTIFY heldChanged FINAL)
    Q_PROPERTY(bool hasLamp READ hasLamp NOTIFY toolsChanged FINAL)
    Q_PROPERTY(bool lamp READ lamp WRITE setLamp NOTIFY toolsChanged FINAL)
    Q_PROPERTY(bool hasExposure READ hasExposure NOTIFY toolsChanged FINAL)
    /// Steps of half an EV from what the camera finds right; -4 (darker) to 4.
    Q_PROPERTY(int exposure READ exposure WRITE setExposure NOTIFY toolsChanged FINAL)

public:
    explicit CameraFeed(QQuickItem* parent = nullptr);
    ~CameraFeed() override;

    [[nodiscard]] Camera* camera() const { return m_camera; }
    void setCamera(Camera* camera);
    [[nodiscard]] bool active() const { return m_active; }
    void setActive(bool active);
    [[nodiscard]] bool there() const { return m_there; }
    [[nodiscard]] QString fault() const { return m_fault; }
    [[nodiscard]] bool held() const { return m_held; }
    [[nodiscard]] QStringList warnings() const { return m_warnings; }
    [[nodiscard]] bool hasLamp() const;
    [[nodiscard]] bool lamp() const { return m_lamp; }
    void setLamp(bool on);
    [[nodiscard]] bool hasExposure() const;
    [[nodiscard]] int exposure() const { return m_exposure; }
    void setExposure(int steps);
    /// How long it may show nothing before that is said.
    void setPatience(int milliseconds) { m_silence.setInterval(milliseconds); }

    /// Whether a camera is connected now; when there is none, `fault` says so.
    Q_INVOKABLE bool look();
    Q_INVOKABLE void take();
    Q_INVOKABLE void takeAgain();
    Q_INVOKABLE void keep();

signals:
    void activeChanged();
    void thereChanged();
    void faultChanged();
    void heldChanged();
    void toolsChanged();

protected:
    [[nodiscard]] bool takesFrames() const override { return m_active && !m_held; }
    void frameShown() override;
    void frameUnreadable() override;

private:
    void begin();
    void end();
    void onThere();
    void setFault(const QString& words);
    void release();
    void handOut();

    QPointer<Camera> m_camera;
    QTimer m_silence; ///< no frame for too long: say so
    QThreadPool m_pool;
    QString m_fault;
    QImage m_taken; ///< the held one, whole; null while it is still being read
    QStringList m_warnings;
    int m_turn = 0; ///< answers about an older one are dropped
    int m_exposure = 0;
    bool m_there = false;
    bool m_active = false;
    bool m_held = false;
    bool m_wanted = false; ///< hand it out as soon as it is read
    bool m_lamp = false;
};

} // namespace ramplight
