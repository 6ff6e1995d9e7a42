// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Put in front of the C library (LD_PRELOAD): the machine's clock jumps. After every
// RAMPLIGHT_CLOCK_EVERY readings it is a day ahead, right, a day behind, right, in turn. What
// counts time that passes (CLOCK_MONOTONIC) goes on as it does.
#include <dlfcn.h>
#include <sys/time.h>

#include <array>
#include <atomic>
#include <cstdlib>
#include <ctime>

namespace {

constexpr long daySeconds = 86'400;

template <class Function>
Function next(const char* name)
{
    // dlsym answers with an object pointer; POSIX promises that it is the function.
    return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name)); // NOLINT
}

long offset()
{
    static std::atomic<long> readings = 0;
    static const long every = [] {
        const char* value = std::getenv("RAMPLIGHT_CLOCK_EVERY");
        return value == nullptr ? 0 : std::strtol(value, nullptr, 10);
    }();
    static constexpr std::array<long, 4> days{0, 1, 0, -1};
    if (every <= 0)
        return 0;
    return days.at(static_cast<std::size_t>(readings++ / every) % days.size()) * daySeconds;
}

} // namespace

extern "C" {

int clock_gettime(clockid_t clock, timespec* now) noexcept
{
    static const auto real = next<int (*)(clockid_t, timespec*)>("clock_gettime");
    const int result = real(clock, now);
    if (result == 0 && (clock == CLOCK_REALTIME || clock == CLOCK_REALTIME_COARSE))
        now->tv_sec += offset();
    return result;
}

int gettimeofday(timeval* now, void* zone) noexcept
{
    static const auto real = next<int (*)(timeval*, void*)>("gettimeofday");
    const int result = real(now, zone);
    if (result == 0)
        now->tv_sec += offset();
    return result;
}

time_t time(time_t* into) noexcept
{
    timespec now{};
    clock_gettime(CLOCK_REALTIME, &now);
    if (into != nullptr)
        *into = now.tv_sec;
    return now.tv_sec;
}

} // extern "C"
