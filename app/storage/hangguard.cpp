// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/hangguard.h"

#include "log/log.h"

#include <sys/socket.h>

namespace ramplight {

namespace {

// It looks by itself instead of being told of each call: a statement costs no change of threads.
constexpr std::chrono::milliseconds look{200};

} // namespace

HangGuard::HangGuard(std::chrono::milliseconds patience)
    : m_patience(patience)
    , m_thread([this](const std::stop_token& stop) { watch(stop); })
{
}

HangGuard::~HangGuard() = default;

void HangGuard::watch(const std::stop_token& stop)
{
    std::unique_lock lock(m_mutex);
    while (!stop.stop_requested()) {
        m_ends.wait_for(lock, stop, look, [] { return false; });
        if (m_socket >= 0 && std::chrono::steady_clock::now() >= m_deadline) {
            log::warn(QStringLiteral("database: the server did not answer within %1 ms")
                          .arg(m_patience.count()));
            ::shutdown(m_socket, SHUT_RDWR);
            m_socket = -1;
        }
    }
}

HangGuard::Watch::Watch(HangGuard& guard, int socket, std::chrono::milliseconds more)
    : m_guard(&guard)
{
    const std::scoped_lock lock(guard.m_mutex);
    if (guard.m_depth++ > 0)
        return;
    guard.m_socket = socket;
    guard.m_deadline = std::chrono::steady_clock::now() + guard.m_patience + more;
}

HangGuard::Watch::~Watch()
{
    if (m_guard == nullptr)
        return;
    const std::scoped_lock lock(m_guard->m_mutex);
    if (--m_guard->m_depth == 0)
        m_guard->m_socket = -1;
}

} // namespace ramplight
