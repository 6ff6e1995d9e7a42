// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/ticker.h"

#include "kiosk/steadycount.h"

namespace ramplight {

Ticker::Ticker(const Clock& clock, Steady steady, QObject* parent)
    : QObject(parent)
    , m_clock(clock)
    , m_steady(steady ? std::move(steady) : steadyCount())
    , m_minute(clock.now().ms / 60'000)
{
    m_timer.setInterval(1'000);
    connect(&m_timer, &QTimer::timeout, this, &Ticker::pulse);
}

void Ticker::start()
{
    m_timer.start();
}

void Ticker::pulse()
{
    emit second();
    const qint64 minuteNow = now().ms / 60'000;
    if (minuteNow == m_minute)
        return;
    m_minute = minuteNow;
    emit minute();
}

} // namespace ramplight
