// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/camerafeed.h"

#include "evidence/photoquality.h"
#include "kiosk/answer.h"
#include "kiosk/onpool.h"
#include "kiosk/videopixels.h"

#include <algorithm>

namespace ramplight {

namespace {

// A camera that has shown nothing for this long is not going to; what is said within five seconds
// is still believed to come from the touch.
constexpr int silenceMs = 4'000;
constexpr int mostExposure = 4; // steps; beyond, noise or white is all that comes
constexpr double evPerStep = 0.5;

struct Taken
{
    QImage image;
    QStringList warnings;
};

Taken lookAt(const QVideoFrame& frame, int turns)
{
    Taken taken{videoPixels(frame, {}, turns), {}};
    for (const PhotoWarning warning : judgePhoto(taken.image).warnings)
        taken.warnings.append(words(warning));
    return taken;
}

} // namespace

CameraFeed::CameraFeed(QQuickItem* parent)
    : FrameItem(parent)
{
    m_pool.setMaxThreadCount(1);
    m_silence.setSingleShot(true);
    m_silence.setInterval(silenceMs);
    connect(&m_silence, &QTimer::timeout, this, [this] {
        clearFrame();
        setFault(tr("The camera shows no picture. Look at its cable."));
    });
}

CameraFeed::~CameraFeed()
{
    // The sink goes with this item.
    if (m_active && m_camera)
        m_camera->stop();
    m_pool.waitForDone();
}

void CameraFeed::setCamera(Camera* camera)
{
    if (m_camera == camera)
        return;
    if (m_active)
        end();
    if (m_camera)
        m_camera->disconnect(this);
    m_camera = camera;
    if (camera != nullptr) {
        connect(camera, &Camera::thereChanged, this, &CameraFeed::onThere);
        connect(camera, &Camera::abilitiesChanged, this, &CameraFeed::toolsChanged);
        connect(camera, &Camera::failed, this, [this](const QString& words) {
            if (m_active)
                setFault(tr("The camera does not work: %1.").arg(words));
        });
    }
    m_there = false;
    if (m_active)
        begin();
    emit thereChanged();
}

bool CameraFeed::look()
{
    const bool there = m_camera && m_camera->isThere();
    if (!there && !m_active)
        setFault(tr("No camera is connected to this kiosk."));
    else if (!m_active)
        setFault({});
    if (m_there != there) {
        m_there = there;
        emit thereChanged();
    }
    return there;
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
    if (!look()) {
        setFault(tr("The camera is gone. Look at its cable."));
        return;
    }
    m_silence.start();
    m_camera->start(sink());
    m_lamp = false;
    m_exposure = 0;
    emit toolsChanged();
}

void CameraFeed::end()
{
    m_silence.stop();
    if (m_camera)
        m_camera->stop();
    clearFrame();
    release();
}

void CameraFeed::onThere()
{
    if (look()) {
        if (m_active && !live())
            begin();
    } else if (m_active) {
        m_silence.stop();
        m_camera->stop();
        // What was taken is there, whatever became of the camera.
        if (!m_held)
            clearFrame();
        setFault(tr("The camera is gone. Look at its cable."));
    }
}

void CameraFeed::frameShown()
{
    m_silence.start();
    setFault({});
}

void CameraFeed::frameUnreadable()
{
    setFault(tr("The camera's picture cannot be read."));
}

void CameraFeed::setFault(const QString& words)
{
    if (m_fault == words)
        return;
    m_fault = words;
    emit faultChanged();
}

// ---- a picture -------------------------------------------------------------------------------

void CameraFeed::take()
{
    if (!live() || m_held)
        return;
    m_silence.stop();
    m_held = true;
    m_wanted = false;
    const int turn = ++m_turn;
    const auto ready = [this, turn](const Taken& taken) {
        if (turn != m_turn)
            return;
        if (taken.image.isNull()) {
            takeAgain();
            frameUnreadable();
            return;
        }
        m_taken = taken.image;
        m_warnings = taken.warnings;
        emit heldChanged();
        if (m_wanted)
            handOut();
    };
    // Only what lies in memory may be read on another thread.
    if (frame().handleType() == QVideoFrame::NoHandle)
        whenReady(onPool(m_pool,
                         [frame = frame(), turns = frameTurns()] { return lookAt(frame, turns); }),
                  this, ready);
    else
        ready(lookAt(frame(), frameTurns()));
    emit heldChanged();
}

void CameraFeed::takeAgain()
{
    release();
    if (!m_active)
        return;
    if (m_fault.isEmpty())
        m_silence.start();
    else
        clearFrame();
}

void CameraFeed::keep()
{
    if (!m_held)
        return;
    m_wanted = true;
    if (!m_taken.isNull())
        handOut();
}

void CameraFeed::handOut()
{
    const QImage taken = m_taken;
    takeAgain();
    emit grabbed(taken);
}

void CameraFeed::release()
{
    if (!m_held)
        return;
    ++m_turn;
    m_held = false;
    m_wanted = false;
    m_taken = {};
    m_warnings.clear();
    emit heldChanged();
}

// ---- what the camera can do besides -----------------------------------------------------------

bool CameraFeed::hasLamp() const
{
    return m_active && m_camera && m_camera->hasLamp();
}

void CameraFeed::setLamp(bool on)
{
    if (!hasLamp() || m_lamp == on)
        return;
    m_lamp = on;
    m_camera->setLamp(on);
    emit toolsChanged();
}

bool CameraFeed::hasExposure() const
{
    return m_active && m_camera && m_camera->hasExposure();
}

void CameraFeed::setExposure(int steps)
{
    steps = std::clamp(steps, -mostExposure, mostExposure);
    if (!hasExposure() || m_exposure == steps)
        return;
    m_exposure = steps;
    m_camera->setExposure(steps * evPerStep);
    emit toolsChanged();
}

} // namespace ramplight
