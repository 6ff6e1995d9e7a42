// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QFuture>
#include <QObject>
#include <QTimer>

#include <chrono>
#include <functional>

namespace ramplight {

/// Says that the kiosk lives, as long as it does: only once this thread's events run and the store
/// has answered a question since. One question is on its way at a time. GUI thread.
class Pulse : public QObject
{
    Q_OBJECT

public:
    /// ask: a question to the store; a future that ends in whatever way is an answer. alive: tells
    /// whoever wants to know.
    Pulse(std::function<QFuture<void>()> ask, std::function<void()> alive,
          std::chrono::milliseconds every, QObject* parent = nullptr);

    void start();

private:
    void beat();

    std::function<QFuture<void>()> m_ask;
    std::function<void()> m_alive;
    QTimer m_timer;
    bool m_asked = false; ///< and not answered
};

} // namespace ramplight
