// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <vector>

class QQuickItem;
class QQuickWindow;

namespace ramplight::test {

/// Scrolls what flicks (a list, a grid) there and back by flicks of a finger: quick at first,
/// slower and slower, 60 steps a second. GUI thread.
class Flicks
{
public:
    /// Both outlive the flicks.
    Flicks(QQuickWindow* window, QQuickItem* what, Qt::Orientation way);

    /// Adds the milliseconds of each frame: moving on, what follows from it, drawing.
    void frames(int count, std::vector<double>& took);

private:
    void step();

    QQuickWindow* m_window;
    QQuickItem* m_what;
    const char* m_content;
    qreal m_end;
    qreal m_at = 0;
    qreal m_speed = 0;
    int m_direction = 1;
};

/// "p50 4.10, p95 6.00, p99 8.50, most 12.00 ms"
[[nodiscard]] QString spread(const std::vector<double>& frames);

} // namespace ramplight::test
