// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/backgroundpool.h"

#include <sys/resource.h>
#include <unistd.h>

namespace ramplight {

void giveWay()
{
    // A tenth of the weight of an ordinary thread (sched(7)). Linux keeps the niceness by thread,
    // not by process. Where it cannot be set, the work is done all the same.
    constexpr int nice = 10;
    static_cast<void>(setpriority(PRIO_PROCESS, static_cast<id_t>(gettid()), nice));
}

} // namespace ramplight
