// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photoquality.h"

#include <QCoreApplication>

#include <algorithm>
#include <span>

namespace ramplight {
namespace {

constexpr int measuredSide = 1024;

QImage grey(const QImage& image)
{
    const bool large = std::max(image.width(), image.height()) > measuredSide;
    const QImage small = large ? image.scaled(measuredSide, measuredSide, Qt::KeepAspectRatio,
                                              Qt::SmoothTransformation)
                               : image;
    return small.convertToFormat(QImage::Format_Grayscale8);
}

void countLight(const QImage& luma, const QualityRules& rules, PhotoQuality& quality)
{
    qint64 dark = 0;
    qint64 bright = 0;
    for (int y = 0; y < luma.height(); ++y) {
        const std::span line(luma.constScanLine(y), static_cast<std::size_t>(luma.width()));
        dark +=
            std::count_if(line.begin(), line.end(), [&](uchar v) { return v < rules.darkLuma; });
        bright +=
            std::count_if(line.begin(), line.end(), [&](uchar v) { return v > rules.brightLuma; });
    }
    const qint64 all = qint64{luma.width()} * luma.height();
    quality.darkPercent = static_cast<int>(100 * dark / all);
    quality.brightPercent = static_cast<int>(100 * bright / all);
}

double laplacianVariance(const QImage& luma)
{
    qint64 sum = 0;
    qint64 squares = 0;
    for (int y = 1; y + 1 < luma.height(); ++y) {
        const uchar* above = luma.constScanLine(y - 1);
        const uchar* line = luma.constScanLine(y);
        const uchar* below = luma.constScanLine(y + 1);
        for (int x = 1; x + 1 < luma.width(); ++x) {
            const int value = above[x] + below[x] + line[x - 1] + line[x + 1] - 4 * line[x];
            sum += value;
            squares += qint64{value} * value;
        }
    }
    const double count = double(std::max(0, luma.width() - 2)) * std::max(0, luma.height() - 2);
    if (count == 0)
        return 0;
    const double mean = double(sum) / count;
    return double(squares) / count - mean * mean;
}

} // namespace

PhotoQuality judgePhoto(const QImage& image, const QualityRules& rules)
{
    PhotoQuality quality;
    if (image.isNull())
        return quality;
    const QImage luma = grey(image);
    countLight(luma, rules, quality);
    quality.sharpness = laplacianVariance(luma);

    const bool dark = quality.darkPercent >= rules.darkPercent;
    const bool bright = quality.brightPercent >= rules.brightPercent;
    if (dark)
        quality.warnings.push_back(PhotoWarning::TooDark);
    if (bright)
        quality.warnings.push_back(PhotoWarning::TooBright);
    // Without light there are no edges to judge by.
    if (!dark && !bright && quality.sharpness < rules.sharpness)
        quality.warnings.push_back(PhotoWarning::Blurred);
    return quality;
}

QString words(PhotoWarning warning)
{
    const auto say = [](const char* text) {
        return QCoreApplication::translate("ramplight", text);
    };
    switch (warning) {
    case PhotoWarning::TooDark:
        return say("Very dark: would somebody else see what you saw?");
    case PhotoWarning::TooBright:
        return say("Very bright: would somebody else see what you saw?");
    case PhotoWarning::Blurred:
        return say("Perhaps out of focus.");
    case PhotoWarning::AlmostSame:
        return say("Almost the same picture as an earlier one of this work: is it the right one?");
    }
    return {};
}

} // namespace ramplight
