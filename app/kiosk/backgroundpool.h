// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/onpool.h"

namespace ramplight {

/// One thread for work that nobody waits for with a finger on the screen: it gets a core when the
/// screen has none to draw. QThreadPool::setThreadPriority does not do that: under Linux's ordinary
/// scheduling all of its levels are one, but for the idle one, which waits for ever on a busy
/// machine.
class BackgroundPool : public QThreadPool
{
public:
    BackgroundPool() { setMaxThreadCount(1); }
};

/// Lets every other thread of ordinary niceness go before the calling one, from here on.
void giveWay();

/// f() on the pool, as onPool() has it.
template <class F>
auto onPool(BackgroundPool& pool, F f) -> QFuture<std::invoke_result_t<F&>>
{
    // Each time, because a pool's thread ends when it has had nothing to do for a while.
    return onPool(static_cast<QThreadPool&>(pool), [f = std::move(f)]() mutable {
        giveWay();
        return f();
    });
}

} // namespace ramplight
