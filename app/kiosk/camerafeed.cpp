// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/camerafeed.h"

namespace ramplight {

namespace {

// No standard figure: a camera that has shown nothing for this long is not going to.
constexpr int silenceMs = 4'000;

} // namespace

CameraFeed::CameraFeed(QQuickItem* parent)
    : FrameItem(parent)
{
    m_silence.setSingleShot(true);
    m_silence.setInterval(silenceMs);
    m_capture.setVideoSink(sink());
    connect(&m_silence, &QTimer::timeout, this, &CameraFeed::onSilence);
    connect(&m_devices, &QMediaDevices::videoInputsChanged, this, &CameraFeed::availableChanged);
}

CameraFeed::~CameraFeed() = default;

bool CameraFeed::available() const
{
    return !QMediaDevices::videoInputs().isEmpty();
}

void CameraFeed::setActive(bool active)
{
    if (m_active == active)
        return;
    m_active = active;
    if (active)
        begin();
    else
        end();
    emit activeChanged();
}

void CameraFeed::begin()
{
    setFault({});
    if (available()) {
        m_camera = std::make_unique<QCamera>(QMediaDevices::defaultVideoInput());
        connect(m_camera.get(), &QCamera::errorOccurred, this,
                [this](QCamera::Error error, const QString& words) {
                    if (error != QCamera::NoError)
                        setFault(tr("The camera does not work: %1. Take the photo with another "
                                    "device and pick it from the folder.")
                                     .arg(words));
                });
        m_capture.setCamera(m_camera.get());
        m_camera->start();
    }
    m_silence.start();
}

void CameraFeed::end()
{
    m_silence.stop();
    m_capture.setCamera(nullptr);
    m_camera.reset();
    clearFrame();
    setFault({});
}

void CameraFeed::onSilence()
{
    clearFrame();
    setFault(
        tr("The camera shows no picture. Look at its cable, or pick a photo from the folder."));
}

void CameraFeed::frameShown()
{
    m_silence.start();
    setFault({});
}

void CameraFeed::setFault(const QString& words)
{
    if (m_fault == words)
        return;
    m_fault = words;
    emit faultChanged();
}

} // namespace ramplight
