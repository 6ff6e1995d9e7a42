// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <utility>

namespace ramplight {

/// Ends a call to a server that does not come back. libpq waits without a limit for an answer, and
/// the kernel only helps where the other machine is gone: not where the server itself hangs. When a
/// watched call takes longer than the patience, its socket is shut down from another thread; libpq
/// then reports a lost connection. Used by one thread at a time.
class HangGuard
{
public:
    explicit HangGuard(std::chrono::milliseconds patience);
    HangGuard(const HangGuard&) = delete;
    HangGuard& operator=(const HangGuard&) = delete;
    ~HangGuard();

    /// From now on a server that answers each call just in time counts as lost, too, because a
    /// signature is some twenty calls: what calls take beyond half a second is added up, the time
    /// between them pays a part of it back, and in all it may not pass the patience either.
    void addUp();

    enum class Wait {
        ForServer,
        ForLock, ///< of somebody else: says nothing about the server, and is not added up
    };

    /// While it lives, the call is watched.
    class Watch
    {
    public:
        Watch() = default;
        Watch(HangGuard& guard, int socket, std::chrono::milliseconds more,
              Wait wait = Wait::ForServer);
        Watch(Watch&& other) noexcept
            : m_guard(std::exchange(other.m_guard, nullptr))
        {
        }
        Watch& operator=(Watch&&) = delete;
        Watch(const Watch&) = delete;
        Watch& operator=(const Watch&) = delete;
        ~Watch();

    private:
        HangGuard* m_guard = nullptr;
    };

private:
    using SteadyClock = std::chrono::steady_clock;

    void watch(const std::stop_token& stop);
    void begin(int socket, std::chrono::milliseconds more, Wait wait);
    void end();

    const std::chrono::milliseconds m_patience;
    std::mutex m_mutex;
    std::condition_variable_any m_ends;
    int m_socket = -1; ///< of the call that is under way
    bool m_addsUp = false;
    int m_depth = 0; ///< watched calls inside one another count as the outermost
    SteadyClock::time_point m_deadline;
    SteadyClock::time_point m_since;    ///< the call that is under way began, or the last one ended
    SteadyClock::duration m_mayTake{0}; ///< that call; what is beyond is added up
    SteadyClock::duration m_waited{0};  ///< beyond, in all; the time between calls pays back
    std::jthread m_thread;              ///< last: it uses the others
};

} // namespace ramplight
