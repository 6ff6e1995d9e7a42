// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QFuture>
#include <QObject>
#include <QTimer>

#include <chrono>
#include <functional>

namespace ramplight {

/// Says that the kiosk lives, as long as it does: only when this thread's events run and the store
/// has answered since. One question is on its way at a time; while it waits behind long work (the
/// demo workshop is made, what was kept is sent to the server), the statements that the store
/// carried out since are answers, too. GUI thread.
class Pulse : public QObject
{
    Q_OBJECT

public:
    /// ask: a question to the store; a future that ends in whatever way is an answer. statements:
    /// how many it carried out so far. alive: tells whoever wants to know.
    Pulse(std::function<QFuture<void>()> ask, std::function<quint64()> statements,
          std::function<void()> alive, std::chrono::milliseconds every, QObject* parent = nullptr);

    void start();

private:
    void beat();

    std::function<QFuture<void>()> m_ask;
    std::function<quint64()> m_statements;
    std::function<void()> m_alive;
    QTimer m_timer;
    quint64 m_counted = 0; ///< statements at the last beat
    bool m_asked = false;  ///< and not answered
};

} // namespace ramplight
