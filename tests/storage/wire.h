// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/storesettings.h"

#include <atomic>
#include <thread>
#include <vector>

namespace ramplight::test {

/// The line between a kiosk and its server, which a test can cut: a relay on 127.0.0.1 with a
/// thread of its own. Whole at first.
class Wire
{
public:
    explicit Wire(const PostgresAddress& server);
    Wire(const Wire&) = delete;
    Wire& operator=(const Wire&) = delete;
    ~Wire();

    /// The server's address, as seen from this end.
    [[nodiscard]] const PostgresAddress& address() const { return m_address; }

    void heal() { m_state = State::Whole; }
    /// Every connection ends, and no further one comes about.
    void cut() { m_state = State::Cut; }
    /// Nothing comes through any more, and nobody says so: as with a server that hangs.
    void hang() { m_state = State::Hangs; }

private:
    enum class State { Whole, Cut, Hangs };
    struct Pair
    {
        int near = -1;
        int far = -1;
    };

    void carry();
    void take();
    void drop(Pair& pair);

    PostgresAddress m_server;
    PostgresAddress m_address;
    int m_listener = -1;
    std::vector<Pair> m_pairs;
    std::atomic<State> m_state = State::Whole;
    std::atomic<bool> m_ends = false;
    std::thread m_thread;
};

} // namespace ramplight::test
