// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcamera.h"

#include <QPainter>
#include <QVideoFrame>
#include <QVideoSink>

#include <cstring>

namespace ramplight::test {

BenchCamera::BenchCamera()
{
    m_every.setInterval(33);
    connect(&m_every, &QTimer::timeout, this, [this] { (void)frame(); });
}

void BenchCamera::start(QVideoSink* sink)
{
    m_sink = sink;
    m_every.start();
}

void BenchCamera::stop()
{
    m_sink = nullptr;
    m_every.stop();
}

void BenchCamera::plug(bool in)
{
    m_there = in;
    if (!in)
        stop();
    emit thereChanged();
}

bool BenchCamera::frame()
{
    if (m_sink == nullptr || m_picture.isNull())
        return false;
    const QImage rows = m_picture.convertToFormat(QImage::Format_RGB32);
    QVideoFrame frame(QVideoFrameFormat(rows.size(), QVideoFrameFormat::Format_BGRX8888));
    if (!frame.map(QVideoFrame::WriteOnly))
        return false;
    for (int y = 0; y < rows.height(); ++y)
        std::memcpy(frame.bits(0) + qsizetype{y} * frame.bytesPerLine(0), rows.constScanLine(y),
                    static_cast<std::size_t>(rows.width()) * sizeof(QRgb));
    frame.unmap();
    m_sink->setVideoFrame(frame);
    return true;
}

QImage panelPicture(const QColor& colour, QSize size)
{
    QImage image(size, QImage::Format_RGB32);
    image.fill(colour);
    // In a corner, so that the middle is the colour itself.
    QPainter painter(&image);
    painter.setPen(colour.lightness() > 127 ? Qt::black : Qt::white);
    for (int at = 0; at < size.width() / 3; at += 5)
        painter.drawLine(at, 0, 0, at);
    return image;
}

} // namespace ramplight::test
