// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/videopixels.h"

#include <QTransform>
#include <QVideoFrame>

#include <algorithm>
#include <cstring>
#include <optional>

namespace ramplight {

namespace {

/// Where the samples of a YUV frame lie. Steps in bytes; shifts: how much coarser colour is.
struct Samples
{
    const uchar* luma = nullptr;
    const uchar* blue = nullptr;
    const uchar* red = nullptr;
    int lumaStride = 0;
    int colourStride = 0;
    int lumaStep = 1;
    int colourStep = 1;
    int shiftX = 1;
    int shiftY = 1;
    int surplusBits = -1; ///< of a sample of two bytes, beyond eight; -1: one byte
};

/// The frame is mapped.
std::optional<Samples> samplesOf(const QVideoFrame& frame)
{
    Samples all{.luma = frame.bits(0), .lumaStride = frame.bytesPerLine(0)};
    const auto planes = [&](int blue, int red) {
        all.blue = frame.bits(blue);
        all.red = frame.bits(red);
        all.colourStride = frame.bytesPerLine(blue);
    };
    const auto pairs = [&](int blueAt, int redAt, int bytes) {
        all.blue = frame.bits(1) + blueAt;
        all.red = frame.bits(1) + redAt;
        all.colourStride = frame.bytesPerLine(1);
        all.colourStep = 2 * bytes;
        all.lumaStep = bytes;
    };
    const auto packed = [&](int lumaAt, int blueAt, int redAt) {
        all.blue = frame.bits(0) + blueAt;
        all.red = frame.bits(0) + redAt;
        all.luma += lumaAt;
        all.colourStride = all.lumaStride;
        all.lumaStep = 2;
        all.colourStep = 4;
        all.shiftY = 0;
    };
    switch (frame.pixelFormat()) {
    case QVideoFrameFormat::Format_YUV420P:
        planes(1, 2);
        return all;
    case QVideoFrameFormat::Format_YV12:
        planes(2, 1);
        return all;
    case QVideoFrameFormat::Format_YUV422P:
        planes(1, 2);
        all.shiftY = 0;
        return all;
    case QVideoFrameFormat::Format_YUV420P10:
        planes(1, 2);
        all.lumaStep = all.colourStep = 2;
        all.surplusBits = 2;
        return all;
    case QVideoFrameFormat::Format_NV12:
        pairs(0, 1, 1);
        return all;
    case QVideoFrameFormat::Format_NV21:
        pairs(1, 0, 1);
        return all;
    case QVideoFrameFormat::Format_P010: // its ten bits are the upper ones
    case QVideoFrameFormat::Format_P016:
        pairs(0, 2, 2);
        all.surplusBits = 8;
        return all;
    case QVideoFrameFormat::Format_YUYV:
        packed(0, 1, 3);
        return all;
    case QVideoFrameFormat::Format_UYVY:
        packed(1, 0, 2);
        return all;
    default:
        return {};
    }
}

int sampleAt(const uchar* at, int surplusBits)
{
    if (surplusBits < 0)
        return *at;
    quint16 wide = 0;
    std::memcpy(&wide, at, sizeof wide);
    return std::min(255, wide >> surplusBits);
}

/// From YUV to RGB, in 65536ths. Source: ITU-R BT.601, BT.709 and BT.2020 with their ranges.
struct Mixing
{
    int lumaFrom = 16;
    int luma = 0;
    int redOfRed = 0;
    int greenOfBlue = 0;
    int greenOfRed = 0;
    int blueOfBlue = 0;
};

Mixing mixing(double redShare, double blueShare, bool full)
{
    const double one = 65536;
    const double greenShare = 1 - redShare - blueShare;
    const double colour = one * (full ? 1.0 : 255.0 / 224.0);
    return {full ? 0 : 16,
            static_cast<int>(one * (full ? 1.0 : 255.0 / 219.0)),
            static_cast<int>(colour * 2 * (1 - redShare)),
            static_cast<int>(colour * 2 * (1 - blueShare) * blueShare / greenShare),
            static_cast<int>(colour * 2 * (1 - redShare) * redShare / greenShare),
            static_cast<int>(colour * 2 * (1 - blueShare))};
}

Mixing mixingOf(const QVideoFrameFormat& format)
{
    const bool full = format.colorRange() == QVideoFrameFormat::ColorRange_Full ||
                      format.colorSpace() == QVideoFrameFormat::ColorSpace_AdobeRgb;
    switch (format.colorSpace()) {
    case QVideoFrameFormat::ColorSpace_BT709:
        return mixing(0.2126, 0.0722, full);
    case QVideoFrameFormat::ColorSpace_BT2020:
        return mixing(0.2627, 0.0593, full);
    case QVideoFrameFormat::ColorSpace_Undefined:
        // What says nothing is, by habit, BT.709 from high definition on.
        if (format.frameHeight() >= 720)
            return mixing(0.2126, 0.0722, full);
        break;
    default:
        break;
    }
    return mixing(0.299, 0.114, full);
}

QRgb mixed(const Mixing& mix, int luma, int blue, int red)
{
    const auto byte = [](int wide) { return std::clamp((wide + 32768) >> 16, 0, 255); };
    const int light = (luma - mix.lumaFrom) * mix.luma;
    blue -= 128;
    red -= 128;
    return qRgb(byte(light + mix.redOfRed * red),
                byte(light - mix.greenOfBlue * blue - mix.greenOfRed * red),
                byte(light + mix.blueOfBlue * blue));
}

QImage pixelsOf(const Samples& samples, const Mixing& mix, QSize from, QSize size)
{
    QImage image(size, QImage::Format_RGB32);
    if (image.isNull())
        return image;
    const auto source = [](int at, int whole, int shown) {
        return static_cast<int>((2LL * at + 1) * whole / (2LL * shown));
    };
    for (int y = 0; y < size.height(); ++y) {
        const int fromY = source(y, from.height(), size.height());
        const uchar* luma = samples.luma + qsizetype{fromY} * samples.lumaStride;
        const qsizetype colourRow = qsizetype{fromY >> samples.shiftY} * samples.colourStride;
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < size.width(); ++x) {
            const int fromX = source(x, from.width(), size.width());
            const qsizetype colour =
                colourRow + qsizetype{fromX >> samples.shiftX} * samples.colourStep;
            line[x] = mixed(
                mix, sampleAt(luma + qsizetype{fromX} * samples.lumaStep, samples.surplusBits),
                sampleAt(samples.blue + colour, samples.surplusBits),
                sampleAt(samples.red + colour, samples.surplusBits));
        }
    }
    return image;
}

} // namespace

QImage videoPixels(const QVideoFrame& frame, QSize atMost, int quarterTurns)
{
    if (!frame.isValid() || frame.size().isEmpty())
        return {};
    const bool lying = quarterTurns % 2 != 0;
    QSize size = frame.size();
    if (!atMost.isEmpty())
        size =
            size.scaled(size.boundedTo(lying ? atMost.transposed() : atMost), Qt::KeepAspectRatio)
                .expandedTo({1, 1});
    QVideoFrame mapped = frame;
    if (!mapped.map(QVideoFrame::ReadOnly))
        return {};
    QImage image;
    if (const auto samples = samplesOf(mapped))
        image = pixelsOf(*samples, mixingOf(frame.surfaceFormat()), frame.size(), size);
    mapped.unmap();
    if (image.isNull()) {
        image = frame.toImage();
        if (image.isNull())
            return {};
        image = image.convertToFormat(QImage::Format_RGB32);
        if (image.size() != size)
            image = image.scaled(size, Qt::IgnoreAspectRatio, Qt::FastTransformation);
    }
    return quarterTurns % 4 == 0 ? image
                                 : image.transformed(QTransform().rotate(90.0 * quarterTurns));
}

} // namespace ramplight
