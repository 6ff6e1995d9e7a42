// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photolikeness.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <vector>

namespace ramplight {
namespace {

constexpr int longSide = 128;
constexpr int mostPixels = 3;
constexpr int cell = 4;
constexpr double nothingAlike = 255;
// Beyond, other light has made another picture of it.
constexpr double mostContrast = 2;
constexpr double mostBrighter = 48;

/// Grey levels, row by row.
struct Plane
{
    int width = 0;
    int height = 0;
    std::vector<float> levels;

    [[nodiscard]] float at(int x, int y) const
    {
        return levels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                      static_cast<std::size_t>(x)];
    }
};

Plane planeOf(const QImage& grey)
{
    Plane plane{grey.width(), grey.height(), {}};
    plane.levels.reserve(static_cast<std::size_t>(grey.width()) *
                         static_cast<std::size_t>(grey.height()));
    for (int y = 0; y < grey.height(); ++y)
        plane.levels.insert(plane.levels.end(), grey.constScanLine(y),
                            grey.constScanLine(y) + grey.width());
    return plane;
}

struct Light
{
    double mean = 0;
    double deviation = 0;
};

Light lightOf(const Plane& plane)
{
    double sum = 0;
    double squares = 0;
    for (const float level : plane.levels) {
        sum += level;
        squares += double(level) * level;
    }
    const double count = double(plane.levels.size());
    const double mean = sum / count;
    return {mean, std::sqrt(std::max(0.0, squares / count - mean * mean))};
}

/// The one in the other's light.
void lit(Plane& plane, const Light& to)
{
    const Light from = lightOf(plane);
    const double gain = from.deviation > 0 ? std::clamp(to.deviation / from.deviation,
                                                        1 / mostContrast, mostContrast)
                                           : 1;
    for (float& level : plane.levels)
        level = static_cast<float>((level - from.mean) * gain + to.mean);
}

/// The least and the most of each pixel's neighbourhood.
struct Range
{
    Plane low;
    Plane high;
};

Range rangeOf(const Plane& plane)
{
    Range range{plane, plane};
    std::size_t at = 0;
    for (int y = 0; y < plane.height; ++y)
        for (int x = 0; x < plane.width; ++x, ++at)
            for (int ny = std::max(0, y - 1); ny <= std::min(plane.height - 1, y + 1); ++ny)
                for (int nx = std::max(0, x - 1); nx <= std::min(plane.width - 1, x + 1); ++nx) {
                    range.low.levels[at] = std::min(range.low.levels[at], plane.at(nx, ny));
                    range.high.levels[at] = std::max(range.high.levels[at], plane.at(nx, ny));
                }
    return range;
}

/// How far a level lies outside.
double outside(float level, const Range& range, int x, int y)
{
    return std::max({0.0F, range.low.at(x, y) - level, level - range.high.at(x, y)});
}

struct Shift
{
    int x = 0;
    int y = 0;
};

/// Mean difference where the two overlap.
double apart(const Plane& one, const Plane& other, Shift by)
{
    double sum = 0;
    int count = 0;
    for (int y = std::max(0, -by.y); y < std::min(one.height, other.height - by.y); ++y)
        for (int x = std::max(0, -by.x); x < std::min(one.width, other.width - by.x); ++x) {
            sum += std::abs(one.at(x, y) - other.at(x + by.x, y + by.y));
            ++count;
        }
    return count == 0 ? nothingAlike : sum / count;
}

Shift bestShift(const Plane& one, const Plane& other)
{
    Shift best;
    double least = std::numeric_limits<double>::max();
    for (int y = -mostPixels; y <= mostPixels; ++y)
        for (int x = -mostPixels; x <= mostPixels; ++x)
            if (const double here = apart(one, other, {x, y}); here < least) {
                least = here;
                best = {x, y};
            }
    return best;
}

/// The most that any cell holds of what only one of the two has.
double mostOfACell(const Plane& one, const Plane& other, Shift by)
{
    const Range ofOne = rangeOf(one);
    const Range ofOther = rangeOf(other);
    double most = 0;
    for (int top = 0; top + cell <= one.height; top += cell)
        for (int left = 0; left + cell <= one.width; left += cell) {
            double sum = 0;
            for (int y = top; y < top + cell; ++y)
                for (int x = left; x < left + cell; ++x) {
                    const int ox = x + by.x;
                    const int oy = y + by.y;
                    if (ox < 0 || oy < 0 || ox >= other.width || oy >= other.height)
                        continue;
                    sum += std::max(outside(one.at(x, y), ofOther, ox, oy),
                                    outside(other.at(ox, oy), ofOne, x, y));
                }
            most = std::max(most, sum / (cell * cell));
        }
    return most;
}

} // namespace

QImage smallGrey(const QImage& image)
{
    if (image.isNull())
        return {};
    // From any size in the same steps, so that a thumbnail's is that of the whole picture.
    const QImage once =
        image.scaled(longSide, longSide, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    return once.convertToFormat(QImage::Format_Grayscale8);
}

double unlikeness(const QImage& one, const QImage& other)
{
    if (one.isNull() || other.isNull() || std::abs(one.width() - other.width()) > 1 ||
        std::abs(one.height() - other.height()) > 1)
        return nothingAlike;
    const Plane first = planeOf(one);
    Plane second = planeOf(other);
    const Light light = lightOf(first);
    if (std::abs(lightOf(second).mean - light.mean) > mostBrighter)
        return nothingAlike;
    lit(second, light);
    return mostOfACell(first, second, bestShift(first, second));
}

} // namespace ramplight
