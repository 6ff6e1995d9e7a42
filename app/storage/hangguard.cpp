// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/hangguard.h"

#include "log/log.h"

#include <algorithm>

#include <pthread.h>
#include <sys/socket.h>

namespace ramplight {

namespace {

// It looks by itself instead of being told of each call: a statement costs no change of threads.
constexpr std::chrono::milliseconds look{200};
// What a call over a long line may take. A server that is slower than that cannot even be connected
// to within its limit.
constexpr std::chrono::milliseconds ordinary{500};
// A quarter of the quiet time pays back what was waited too long.
constexpr int paysBack = 4;

} // namespace

HangGuard::HangGuard(std::chrono::milliseconds patience)
    : m_patience(patience)
    , m_since(SteadyClock::now())
    , m_thread([this](const std::stop_token& stop) { watch(stop); })
{
}

HangGuard::~HangGuard() = default;

void HangGuard::watch(const std::stop_token& stop)
{
    // Else it would have the name of the thread that made it.
    ::pthread_setname_np(::pthread_self(), "hang guard");
    std::unique_lock lock(m_mutex);
    while (!stop.stop_requested()) {
        m_ends.wait_for(lock, stop, look, [] { return false; });
        if (m_socket >= 0 && SteadyClock::now() >= m_deadline) {
            log::warn(
                QStringLiteral("database: the server did not answer within %1 ms")
                    .arg(std::chrono::duration_cast<std::chrono::milliseconds>(m_deadline - m_since)
                             .count()));
            ::shutdown(m_socket, SHUT_RDWR);
            m_socket = -1;
        }
    }
}

void HangGuard::addUp()
{
    const std::scoped_lock lock(m_mutex);
    m_addsUp = true;
    m_waited = {};
}

void HangGuard::begin(int socket, std::chrono::milliseconds more, Wait wait)
{
    const std::scoped_lock lock(m_mutex);
    if (m_depth++ > 0)
        return;
    const SteadyClock::time_point now = SteadyClock::now();
    m_waited = std::max(m_waited - (now - m_since) / paysBack, SteadyClock::duration::zero());
    m_since = now;
    m_mayTake = more + ordinary;
    SteadyClock::duration most = m_patience;
    if (m_addsUp)
        most = std::min(most, ordinary + most - m_waited);
    if (wait == Wait::ForLock)
        m_mayTake = most = m_patience;
    m_deadline = now + more + most;
    m_socket = socket;
}

void HangGuard::end()
{
    const std::scoped_lock lock(m_mutex);
    if (--m_depth > 0)
        return;
    const SteadyClock::time_point now = SteadyClock::now();
    m_waited += std::max(now - m_since - m_mayTake, SteadyClock::duration::zero());
    m_since = now;
    m_socket = -1;
}

HangGuard::Watch::Watch(HangGuard& guard, int socket, std::chrono::milliseconds more, Wait wait)
    : m_guard(&guard)
{
    guard.begin(socket, more, wait);
}

HangGuard::Watch::~Watch()
{
    if (m_guard != nullptr)
        m_guard->end();
}

} // namespace ramplight
