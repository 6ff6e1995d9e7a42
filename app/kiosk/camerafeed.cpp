// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/camerafeed.h"

#include <QQuickWindow>
#include <QSGImageNode>
#include <QVideoFrame>

namespace ramplight {

namespace {

// No standard figure: a camera that has shown nothing for this long is not going to.
constexpr int silenceMs = 4'000;

} // namespace

CameraFeed::CameraFeed(QQuickItem* parent)
    : QQuickItem(parent)
{
    setFlag(ItemHasContents);
    m_silence.setSingleShot(true);
    m_silence.setInterval(silenceMs);
    m_capture.setVideoSink(&m_sink);
    connect(&m_silence, &QTimer::timeout, this, &CameraFeed::onSilence);
    connect(&m_sink, &QVideoSink::videoFrameChanged, this, &CameraFeed::onFrame);
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
    m_fault.clear();
    if (available()) {
        m_camera = std::make_unique<QCamera>(QMediaDevices::defaultVideoInput());
        connect(m_camera.get(), &QCamera::errorOccurred, this,
                [this](QCamera::Error error, const QString& words) {
                    if (error == QCamera::NoError)
                        return;
                    m_fault = tr("The camera does not work: %1. Take the photo with another "
                                 "device and pick it from the folder.")
                                  .arg(words);
                    emit liveChanged();
                });
        m_capture.setCamera(m_camera.get());
        m_camera->start();
    }
    m_silence.start();
    emit liveChanged();
}

void CameraFeed::end()
{
    m_silence.stop();
    m_capture.setCamera(nullptr);
    m_camera.reset();
    m_frame = {};
    m_fault.clear();
    update();
    emit liveChanged();
}

void CameraFeed::onSilence()
{
    m_frame = {};
    m_fault =
        tr("The camera shows no picture. Look at its cable, or pick a photo from the folder.");
    update();
    emit liveChanged();
}

void CameraFeed::onFrame(const QVideoFrame& frame)
{
    if (!m_active || !frame.isValid())
        return;
    const bool wasLive = live();
    m_frame = frame.toImage();
    if (m_frame.isNull())
        return;
    m_silence.start();
    if (!wasLive || !m_fault.isEmpty()) {
        m_fault.clear();
        emit liveChanged();
    }
    update();
}

void CameraFeed::grab()
{
    if (live())
        emit grabbed(m_frame);
}

QSGNode* CameraFeed::updatePaintNode(QSGNode* old, UpdatePaintNodeData*)
{
    auto* node = static_cast<QSGImageNode*>(old);
    if (m_frame.isNull() || width() <= 0 || height() <= 0) {
        delete node;
        return nullptr;
    }
    if (node == nullptr) {
        node = window()->createImageNode();
        node->setFiltering(QSGTexture::Linear);
        node->setOwnsTexture(true);
    }
    node->setTexture(window()->createTextureFromImage(m_frame, QQuickWindow::TextureIsOpaque));
    // Whole, in the middle, its sides in proportion.
    const QSizeF fitted = QSizeF(m_frame.size()).scaled(size(), Qt::KeepAspectRatio);
    node->setRect(
        QRectF(QPointF((width() - fitted.width()) / 2, (height() - fitted.height()) / 2), fitted));
    return node;
}

} // namespace ramplight
