// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/pulse.h"

#include <QFutureWatcher>

#include <utility>

namespace ramplight {

Pulse::Pulse(std::function<QFuture<void>()> ask, std::function<quint64()> statements,
             std::function<void()> alive, std::chrono::milliseconds every, QObject* parent)
    : QObject(parent)
    , m_ask(std::move(ask))
    , m_statements(std::move(statements))
    , m_alive(std::move(alive))
{
    m_timer.setInterval(every);
    connect(&m_timer, &QTimer::timeout, this, &Pulse::beat);
}

void Pulse::start()
{
    m_timer.start();
    beat();
}

void Pulse::beat()
{
    const quint64 now = m_statements();
    const bool gotOn = std::exchange(m_counted, now) != now;
    if (m_asked) {
        if (gotOn)
            m_alive();
        return;
    }
    m_asked = true;
    auto* watcher = new QFutureWatcher<void>(this);
    // Also when it was cancelled: a store that could not be opened answers that.
    connect(watcher, &QFutureWatcher<void>::finished, this, [this, watcher] {
        watcher->deleteLater();
        m_asked = false;
        m_alive();
    });
    watcher->setFuture(m_ask());
}

} // namespace ramplight
