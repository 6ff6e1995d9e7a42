// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QPointF>

// Drawn things that can be photographed twice, from somewhere else and in another light.
namespace samples {

enum class Thing {
    Wheel, ///< spokes on the floor; kerbed until it is repaired
    Door,  ///< few lines on a shaded panel; scratched until it is repaired
    Paint, ///< something everywhere, as samples::panel()
};

/// Where the camera stood and what light there was.
struct Shot
{
    double scale = 1; ///< from nearer is more
    double degrees = 0;
    double right = 0; ///< of the long side
    double down = 0;
    double gain = 1;   ///< of all light
    double lamp = 0.3; ///< where its reflection is, across the picture
    bool repaired = false;
    int grain = 1; ///< seed of the noise
    QSize size{640, 480};
};

/// The thing with this number, as the shot sees it.
QImage photographed(Thing thing, int number, const Shot& shot);
/// Where a point of one shot lies in another one; both from the middle, the long side is 1.
QPointF carried(QPointF point, const Shot& from, const Shot& to);

} // namespace samples
