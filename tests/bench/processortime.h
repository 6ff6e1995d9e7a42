// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <ctime>

namespace ramplight::test {

/// Seconds that the calling thread has had a processor: on a shared machine, what a core of its own
/// would have taken.
[[nodiscard]] inline double processorSeconds()
{
    timespec time = {};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return double(time.tv_sec) + double(time.tv_nsec) / 1e9;
}

} // namespace ramplight::test
