// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/flicks.h"

#include "bench/report.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QQuickItem>
#include <QQuickWindow>

#include <algorithm>

namespace ramplight::test {

Flicks::Flicks(QQuickWindow* window, QQuickItem* what, Qt::Orientation way)
    : m_window(window)
    , m_what(what)
    , m_content(way == Qt::Vertical ? "contentY" : "contentX")
    , m_end(way == Qt::Vertical ? what->property("contentHeight").toReal() - what->height()
                                : what->property("contentWidth").toReal() - what->width())
{
}

void Flicks::frames(int count, std::vector<double>& took)
{
    QElapsedTimer timer;
    for (int i = 0; i < count; ++i) {
        step();
        timer.start();
        m_what->setProperty(m_content, m_at);
        QCoreApplication::processEvents();
        QEvent update(QEvent::UpdateRequest);
        QCoreApplication::sendEvent(m_window, &update);
        took.push_back(double(timer.nsecsElapsed()) / 1e6);
    }
}

void Flicks::step()
{
    constexpr qreal stepsPerSecond = 60;
    constexpr qreal slowest = 60;   // pixels per second
    constexpr qreal fastest = 5000; // as a quick flick of a hand
    constexpr qreal friction = 0.965;
    if (m_speed < slowest)
        m_speed = fastest;
    m_at += m_direction * m_speed / stepsPerSecond;
    if (m_at < 0 || m_at > m_end) {
        m_direction = -m_direction;
        m_at = std::clamp(m_at, 0.0, m_end);
    }
    m_speed *= friction;
}

QString spread(const std::vector<double>& frames)
{
    return QStringLiteral("p50 %1, p95 %2, p99 %3, most %4 ms")
        .arg(quantile(frames, 0.5), 0, 'f', 2)
        .arg(quantile(frames, 0.95), 0, 'f', 2)
        .arg(quantile(frames, 0.99), 0, 'f', 2)
        .arg(quantile(frames, 1), 0, 'f', 2);
}

} // namespace ramplight::test
