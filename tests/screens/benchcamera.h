// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/camera.h"

#include <QImage>
#include <QTimer>

namespace ramplight::test {

/// A camera that shows the picture that the bench puts before it, over and over, while it runs.
/// GUI thread.
class BenchCamera : public Camera
{
public:
    BenchCamera();

    [[nodiscard]] bool isThere() const override { return m_there; }
    void start(QVideoSink* sink) override;
    void stop() override;
    [[nodiscard]] bool hasLamp() const override { return able; }
    void setLamp(bool on) override { lamp = on; }
    [[nodiscard]] bool hasExposure() const override { return able; }
    void setExposure(double compensation) override { exposure = compensation; }

    /// Null: it is there, and nothing comes.
    void show(const QImage& picture) { m_picture = picture; }
    void plug(bool in);
    /// A frame now; false when nobody looks.
    bool frame();
    /// From here on no frame comes by itself.
    void byHand() { m_every.stop(); }
    [[nodiscard]] bool runs() const { return m_sink != nullptr; }

    bool able = false; ///< has a lamp and can be made brighter
    bool lamp = false;
    double exposure = 0;

private:
    QVideoSink* m_sink = nullptr;
    QImage m_picture;
    QTimer m_every;
    bool m_there = true;
};

/// A flat surface with fine lines, as large as a camera's picture.
[[nodiscard]] QImage panelPicture(const QColor& colour, QSize size = {1280, 720});

} // namespace ramplight::test
