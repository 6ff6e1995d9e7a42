// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/contrastpyramid.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ramplight {
namespace {

/// Pixels each way over which light and contrast are evened out.
constexpr int window = 6;
/// Levels of 255 of contrast that count half: what a camera's grain has, so that a bare panel does
/// not become a picture of its grain.
constexpr double grain = 6;

struct Luma
{
    int width = 0;
    int height = 0;
    std::vector<float> value;

    [[nodiscard]] float at(int x, int y) const
    {
        return value[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                     static_cast<std::size_t>(x)];
    }
};

Luma lumaOf(const QImage& image)
{
    const bool large = std::max(image.width(), image.height()) > ContrastPyramid::finestSide;
    const QSize size = large ? image.size()
                                   .scaled(ContrastPyramid::finestSide, ContrastPyramid::finestSide,
                                           Qt::KeepAspectRatio)
                                   .expandedTo(QSize(1, 1))
                             : image.size();
    const QImage grey = image.scaled(size, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
                            .convertToFormat(QImage::Format_Grayscale8);
    Luma luma{grey.width(), grey.height(), {}};
    luma.value.reserve(static_cast<std::size_t>(grey.width()) *
                       static_cast<std::size_t>(grey.height()));
    for (int y = 0; y < grey.height(); ++y) {
        const uchar* line = grey.constScanLine(y);
        for (int x = 0; x < grey.width(); ++x)
            luma.value.push_back(float(line[x]));
    }
    return luma;
}

Luma halved(const Luma& luma)
{
    Luma half{luma.width / 2, luma.height / 2, {}};
    half.value.reserve(luma.value.size() / 4);
    for (int y = 0; y < half.height; ++y)
        for (int x = 0; x < half.width; ++x)
            half.value.push_back((luma.at(2 * x, 2 * y) + luma.at(2 * x + 1, 2 * y) +
                                  luma.at(2 * x, 2 * y + 1) + luma.at(2 * x + 1, 2 * y + 1)) /
                                 4);
    return half;
}

/// Sums of values and squares over all that lies above and left, to ask for rectangles.
class Sums
{
public:
    explicit Sums(const Luma& luma)
        : m_width(luma.width + 1)
        , m_sum(cells(luma))
        , m_squares(cells(luma))
    {
        for (int y = 0; y < luma.height; ++y)
            for (int x = 0; x < luma.width; ++x) {
                const double v = luma.at(x, y);
                const std::size_t at = index(x + 1, y + 1);
                m_sum[at] =
                    v + m_sum[index(x, y + 1)] + m_sum[index(x + 1, y)] - m_sum[index(x, y)];
                m_squares[at] = v * v + m_squares[index(x, y + 1)] + m_squares[index(x + 1, y)] -
                                m_squares[index(x, y)];
            }
    }

    /// Mean and standard deviation of the columns left to right - 1 and the rows top to bottom - 1.
    [[nodiscard]] std::pair<double, double> of(int left, int top, int right, int bottom) const
    {
        const auto inside = [&](const std::vector<double>& s) {
            return s[index(right, bottom)] - s[index(left, bottom)] - s[index(right, top)] +
                   s[index(left, top)];
        };
        const double count = double(right - left) * (bottom - top);
        const double mean = inside(m_sum) / count;
        return {mean, std::sqrt(std::max(0.0, inside(m_squares) / count - mean * mean))};
    }

private:
    static std::size_t cells(const Luma& luma)
    {
        return static_cast<std::size_t>(luma.width + 1) * static_cast<std::size_t>(luma.height + 1);
    }
    [[nodiscard]] std::size_t index(int x, int y) const
    {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(m_width) +
               static_cast<std::size_t>(x);
    }

    int m_width;
    std::vector<double> m_sum;
    std::vector<double> m_squares;
};

std::vector<float> evened(const Luma& luma)
{
    const Sums sums(luma);
    std::vector<float> even;
    even.reserve(luma.value.size());
    for (int y = 0; y < luma.height; ++y)
        for (int x = 0; x < luma.width; ++x) {
            const auto [mean, deviation] = sums.of(std::max(0, x - window), std::max(0, y - window),
                                                   std::min(luma.width, x + window + 1),
                                                   std::min(luma.height, y + window + 1));
            even.push_back(float((luma.at(x, y) - mean) / (deviation + grain)));
        }
    return even;
}

} // namespace

std::optional<ContrastLevel::Sample> ContrastLevel::sampleAt(double x, double y) const
{
    const double px = (x - left) / unitX;
    const double py = (y - top) / unitY;
    if (px < 0 || py < 0 || px >= width - 1 || py >= height - 1)
        return std::nullopt;
    const double fx = px - std::floor(px);
    const double fy = py - std::floor(py);
    const std::size_t at = static_cast<std::size_t>(py) * static_cast<std::size_t>(width) +
                           static_cast<std::size_t>(px);
    const std::size_t below = at + static_cast<std::size_t>(width);
    const double upperStep = double(value[at + 1]) - value[at];
    const double lowerStep = double(value[below + 1]) - value[below];
    const double upper = value[at] + fx * upperStep;
    const double lower = value[below] + fx * lowerStep;
    return Sample{upper + fy * (lower - upper), (upperStep + fy * (lowerStep - upperStep)) / unitX,
                  (lower - upper) / unitY};
}

std::optional<float> ContrastLevel::valueAt(double x, double y) const
{
    const auto sample = sampleAt(x, y);
    return sample ? std::optional(float(sample->value)) : std::nullopt;
}

ContrastPyramid::ContrastPyramid(const QImage& image)
{
    if (image.isNull())
        return;
    Luma luma = lumaOf(image);
    const double longSide = std::max(image.width(), image.height());
    // Of a pixel of the finest copy: the two differ a little, because its sides are whole pixels.
    double unitX = image.width() / longSide / luma.width;
    double unitY = image.height() / longSide / luma.height;
    const double left = -image.width() / longSide / 2;
    const double top = -image.height() / longSide / 2;
    while (true) {
        m_levels.push_back({luma.width, luma.height, unitX, unitY, left + unitX / 2,
                            top + unitY / 2, evened(luma)});
        const int half = std::max(luma.width, luma.height) / 2;
        if (half < coarsestSide || std::min(luma.width, luma.height) < 2)
            break;
        luma = halved(luma);
        unitX *= 2;
        unitY *= 2;
    }
    std::ranges::reverse(m_levels);
}

} // namespace ramplight
