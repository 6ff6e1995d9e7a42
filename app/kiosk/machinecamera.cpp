// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/camera.h"

#include <QCamera>
#include <QMediaCaptureSession>
#include <QMediaDevices>
#include <QVideoSink>

namespace ramplight {

namespace {

class MachineCamera : public Camera
{
public:
    [[nodiscard]] bool isThere() const override
    {
        if (!m_devices) {
            m_devices = std::make_unique<QMediaDevices>();
            connect(m_devices.get(), &QMediaDevices::videoInputsChanged, this,
                    &Camera::thereChanged);
        }
        return !QMediaDevices::videoInputs().isEmpty();
    }

    void start(QVideoSink* sink) override
    {
        stop();
        m_camera = std::make_unique<QCamera>(QMediaDevices::defaultVideoInput());
        connect(m_camera.get(), &QCamera::errorOccurred, this,
                [this](QCamera::Error error, const QString& words) {
                    if (error != QCamera::NoError)
                        emit failed(words);
                });
        connect(m_camera.get(), &QCamera::supportedFeaturesChanged, this,
                &Camera::abilitiesChanged);
        connect(m_camera.get(), &QCamera::activeChanged, this, &Camera::abilitiesChanged);
        m_session = std::make_unique<QMediaCaptureSession>();
        m_session->setVideoSink(sink);
        m_session->setCamera(m_camera.get());
        m_camera->start();
    }

    void stop() override
    {
        // The session first: it lets go of camera and sink.
        m_session.reset();
        m_camera.reset();
    }

    [[nodiscard]] bool hasLamp() const override
    {
        return m_camera && m_camera->isTorchModeSupported(QCamera::TorchOn);
    }

    void setLamp(bool on) override
    {
        if (m_camera)
            m_camera->setTorchMode(on ? QCamera::TorchOn : QCamera::TorchOff);
    }

    [[nodiscard]] bool hasExposure() const override
    {
        return m_camera &&
               m_camera->supportedFeatures().testFlag(QCamera::Feature::ExposureCompensation);
    }

    void setExposure(double compensation) override
    {
        if (m_camera)
            m_camera->setExposureCompensation(static_cast<float>(compensation));
    }

private:
    mutable std::unique_ptr<QMediaDevices> m_devices; ///< made when it is first asked for
    std::unique_ptr<QCamera> m_camera;
    std::unique_ptr<QMediaCaptureSession> m_session;
};

} // namespace

std::unique_ptr<Camera> machineCamera()
{
    return std::make_unique<MachineCamera>();
}

} // namespace ramplight
