// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>

#include <optional>
#include <vector>

// What photoalignment.h compares: copies of a picture at falling sizes, in which every place has
// the same light and contrast. Pure, any thread.
namespace ramplight {

/// One copy. Positions are from the middle of the picture, its long side is 1.
struct ContrastLevel
{
    int width = 0;
    int height = 0;
    double unitX = 0; ///< of a pixel
    double unitY = 0;
    double left = 0; ///< the middle of the first pixel
    double top = 0;
    std::vector<float> value; ///< row by row; about 0, mostly between -2 and 2

    struct Sample
    {
        double value = 0;
        double dx = 0; ///< change along the long side's measure
        double dy = 0;
    };

    [[nodiscard]] double xOf(int column) const { return left + column * unitX; }
    [[nodiscard]] double yOf(int row) const { return top + row * unitY; }
    /// Between the pixels; nothing outside of the picture.
    [[nodiscard]] std::optional<float> valueAt(double x, double y) const;
    [[nodiscard]] std::optional<Sample> sampleAt(double x, double y) const;
};

/// The coarsest copy first (its long side has 40 to 79 pixels, or all of a smaller picture), each
/// twice as large as the one before it.
class ContrastPyramid
{
public:
    static constexpr int finestSide = 320;
    static constexpr int coarsestSide = 40;

    /// A picture of less than 320 pixels is taken as it is.
    explicit ContrastPyramid(const QImage& image);

    /// At least one, for a picture that is not empty.
    [[nodiscard]] const std::vector<ContrastLevel>& levels() const { return m_levels; }

private:
    std::vector<ContrastLevel> m_levels;
};

} // namespace ramplight
