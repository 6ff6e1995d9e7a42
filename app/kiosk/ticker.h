// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"

#include <QObject>
#include <QTimer>

#include <functional>

namespace ramplight {

/// The time for the screens: what the clock says, and a signal when a second or a minute of it has
/// gone. Idle time comes from a steady count, which no change of the clock touches. GUI thread.
class Ticker : public QObject
{
    Q_OBJECT

public:
    using Steady = std::function<qint64()>; ///< milliseconds

    /// The clock outlives the ticker. Without a steady count it uses its own.
    explicit Ticker(const Clock& clock, Steady steady = {}, QObject* parent = nullptr);

    void start();
    [[nodiscard]] Moment now() const { return m_clock.now(); }
    [[nodiscard]] qint64 steadyMs() const { return m_steady(); }
    /// Looks at the time and signals; the timer calls it each second, tests call it themselves.
    void pulse();

signals:
    void second();
    void minute();

private:
    const Clock& m_clock;
    Steady m_steady;
    QTimer m_timer;
    qint64 m_minute = 0;
};

} // namespace ramplight
