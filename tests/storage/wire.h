// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/storesettings.h"

#include <atomic>
#include <chrono>
#include <deque>
#include <string>
#include <thread>
#include <vector>

namespace ramplight::test {

/// The line between a kiosk and its server, which a test can cut or make slow: a relay on 127.0.0.1
/// with a thread of its own. Whole at first.
class Wire
{
public:
    explicit Wire(const PostgresAddress& server);
    Wire(const Wire&) = delete;
    Wire& operator=(const Wire&) = delete;
    ~Wire();

    /// The server's address, as seen from this end.
    [[nodiscard]] const PostgresAddress& address() const { return m_address; }

    /// What is on its way arrives at once.
    void heal() { m_state = State::Whole; }
    /// Each answer of the server arrives so much later.
    void delay(std::chrono::milliseconds late);
    /// The server's answers arrive drop by drop.
    void trickle(int bytesPerSecond);
    /// Every connection ends, and no further one comes about.
    void cut() { m_state = State::Cut; }
    /// Cut once the server gave so many answers.
    void cutAfter(int answers)
    {
        m_answersLeft = answers;
        m_state = State::CutsLater;
    }
    [[nodiscard]] bool isCut() const { return m_state == State::Cut; }
    /// How many connections were begun so far.
    [[nodiscard]] int taken() const { return m_taken; }
    /// Nothing comes through any more, and nobody says so: as with a server that hangs.
    void hang() { m_state = State::Hangs; }

private:
    enum class State { Whole, Late, Trickles, CutsLater, Cut, Hangs };
    using Time = std::chrono::steady_clock::time_point;
    /// What the server said and nobody has heard yet.
    struct Answer
    {
        Time came;
        std::string bytes;
    };
    struct Pair
    {
        int near = -1;
        int far = -1;
        std::deque<Answer> answers = {};
        Time dripped = {}; ///< when the last bytes of a trickle went on
    };

    void carry();
    void take();
    /// False: it ended.
    bool passAnswers(Pair& pair, State state);
    /// As much of the answers as may have arrived by now. False: nobody listens.
    bool letArrive(Pair& pair, State state);
    static void drop(Pair& pair);

    PostgresAddress m_server;
    PostgresAddress m_address;
    int m_listener = -1;
    std::vector<Pair> m_pairs;
    std::atomic<State> m_state = State::Whole;
    std::atomic<int> m_answersLeft = 0;
    std::atomic<int> m_taken = 0;
    std::atomic<int> m_lateMs = 0;
    std::atomic<int> m_bytesPerSecond = 0;
    std::atomic<bool> m_ends = false;
    std::thread m_thread;
};

} // namespace ramplight::test
