// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QObject>
#include <QtQmlIntegration>

#include <functional>
#include <memory>

class QVideoSink;

namespace ramplight {

/// What brings the frames that CameraFeed shows: this machine's camera, or a test's. GUI thread.
class Camera : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")

public:
    using QObject::QObject;

    /// One is connected now.
    [[nodiscard]] virtual bool isThere() const = 0;
    /// Frames go to the sink from here on, until stop(). The sink outlives that.
    virtual void start(QVideoSink* sink) = 0;
    virtual void stop() = 0;

    // ---- what it can do besides; asked while it runs
    [[nodiscard]] virtual bool hasLamp() const = 0;
    virtual void setLamp(bool on) = 0;
    [[nodiscard]] virtual bool hasExposure() const = 0;
    /// In EV: 1 is twice the light, 0 what the camera finds right.
    virtual void setExposure(double compensation) = 0;

signals:
    /// One was plugged in, or pulled out.
    void thereChanged();
    /// Why no frame will come, in the words of the camera's driver.
    void failed(const QString& words);
    /// It can do something else than before.
    void abilitiesChanged();
};

/// Empty: this machine's.
using CameraMaker = std::function<std::unique_ptr<Camera>()>;

/// The first camera of this machine, whichever that is when it is started. Nothing of the
/// multimedia library is touched before it is first asked for.
[[nodiscard]] std::unique_ptr<Camera> machineCamera();

} // namespace ramplight
