// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "wire.h"

#include <QFile>

#include <algorithm>
#include <array>
#include <cerrno>
#include <string_view>
#include <utility>

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace ramplight::test {

namespace {

/// libpq looks it up by host and port, and this line has a port of its own.
QString passwordOf(const PostgresAddress& server)
{
    QFile file(qEnvironmentVariable("PGPASSFILE"));
    if (!server.password.isEmpty() || !file.open(QIODevice::ReadOnly))
        return server.password;
    return QString::fromUtf8(file.readLine()).trimmed().section(QLatin1Char(':'), -1);
}

constexpr int lookMs = 20;

sockaddr_in local(int port)
{
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<quint16>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    return address;
}

const sockaddr* plain(const sockaddr_in& address)
{
    return reinterpret_cast<const sockaddr*>(&address);
}

/// What there is to read. False: it ended.
bool receive(int from, std::string& bytes)
{
    std::array<char, 16384> got{};
    const ssize_t size = ::recv(from, got.data(), got.size(), MSG_DONTWAIT);
    if (size <= 0)
        return size < 0 && (errno == EAGAIN || errno == EINTR);
    bytes.assign(got.data(), static_cast<std::size_t>(size));
    return true;
}

/// False: nobody listens any more.
bool send(int to, std::string_view bytes)
{
    while (!bytes.empty()) {
        const ssize_t part = ::send(to, bytes.data(), bytes.size(), MSG_NOSIGNAL);
        if (part <= 0)
            return false;
        bytes.remove_prefix(static_cast<std::size_t>(part));
    }
    return true;
}

/// False: one of them ended.
bool pass(int from, int to)
{
    std::string bytes;
    return receive(from, bytes) && send(to, bytes);
}

} // namespace

Wire::Wire(const PostgresAddress& server)
    : m_server(server)
    , m_address(server)
    , m_listener(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0))
{
    const sockaddr_in any = local(0);
    sockaddr_in got{};
    socklen_t size = sizeof got;
    if (m_listener < 0 || ::bind(m_listener, plain(any), sizeof any) != 0 ||
        ::listen(m_listener, 16) != 0 ||
        ::getsockname(m_listener, reinterpret_cast<sockaddr*>(&got), &size) != 0)
        qFatal("no port for the test's line");
    m_address.host = QStringLiteral("127.0.0.1");
    m_address.port = ntohs(got.sin_port);
    m_address.password = passwordOf(server);
    m_thread = std::thread([this] { carry(); });
}

Wire::~Wire()
{
    m_ends = true;
    m_thread.join();
    for (Pair& pair : m_pairs)
        drop(pair);
    ::close(m_listener);
}

void Wire::drop(Pair& pair)
{
    for (int* end : {&pair.near, &pair.far}) {
        if (*end >= 0)
            ::close(*end);
        *end = -1;
    }
}

void Wire::delay(std::chrono::milliseconds late)
{
    m_lateMs = static_cast<int>(late.count());
    m_state = State::Late;
}

void Wire::trickle(int bytesPerSecond)
{
    m_bytesPerSecond = bytesPerSecond;
    m_state = State::Trickles;
}

bool Wire::passAnswers(Pair& pair, State state)
{
    Answer answer{std::chrono::steady_clock::now(), {}};
    const bool goesOn = receive(pair.far, answer.bytes);
    // It may have been healed since this look at it began.
    if (State now = State::CutsLater; state == now && !answer.bytes.empty() &&
                                      --m_answersLeft < 0 &&
                                      m_state.compare_exchange_strong(now, State::Cut))
        return false;
    if (!answer.bytes.empty())
        pair.answers.push_back(std::move(answer));
    return letArrive(pair, state) && goesOn;
}

bool Wire::letArrive(Pair& pair, State state)
{
    const Time now = std::chrono::steady_clock::now();
    if (pair.answers.empty())
        pair.dripped = now;
    while (!pair.answers.empty()) {
        Answer& first = pair.answers.front();
        std::size_t arrived = first.bytes.size();
        if (state == State::Late && now - first.came < std::chrono::milliseconds(m_lateMs))
            return true;
        if (state == State::Trickles) {
            const std::chrono::duration<double> since = now - std::max(pair.dripped, first.came);
            arrived = std::min(arrived, static_cast<std::size_t>(since.count() * m_bytesPerSecond));
            if (arrived == 0)
                return true;
            pair.dripped = now;
        }
        if (!send(pair.near, std::string_view(first.bytes).substr(0, arrived)))
            return false;
        first.bytes.erase(0, arrived);
        if (first.bytes.empty())
            pair.answers.pop_front();
    }
    return true;
}

void Wire::take()
{
    Pair pair{::accept4(m_listener, nullptr, nullptr, SOCK_CLOEXEC)};
    if (pair.near < 0)
        return;
    ++m_taken;
    const sockaddr_in server = local(m_server.port);
    pair.far = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (m_state == State::Cut || ::connect(pair.far, plain(server), sizeof server) != 0)
        drop(pair);
    else
        m_pairs.push_back(std::move(pair));
}

void Wire::carry()
{
    while (!m_ends) {
        const State state = m_state;
        if (state == State::Cut)
            for (Pair& pair : m_pairs)
                drop(pair);
        std::erase_if(m_pairs, [](const Pair& pair) { return pair.near < 0; });
        std::vector<pollfd> looked{{m_listener, POLLIN, 0}};
        for (const Pair& pair : m_pairs) {
            const short wanted = state == State::Hangs ? 0 : POLLIN;
            looked.push_back({pair.near, wanted, 0});
            looked.push_back({pair.far, wanted, 0});
        }
        if (::poll(looked.data(), looked.size(), lookMs) < 0)
            continue;
        const std::size_t pairs = m_pairs.size();
        for (std::size_t i = 0; i < pairs && state != State::Hangs; ++i) {
            Pair& pair = m_pairs[i];
            const bool here = looked[1 + 2 * i].revents == 0 || pass(pair.near, pair.far);
            const bool there =
                looked[2 + 2 * i].revents == 0 ? letArrive(pair, state) : passAnswers(pair, state);
            if (!here || !there)
                drop(pair);
        }
        if (looked.front().revents != 0)
            take();
        if (state == State::Hangs)
            std::this_thread::sleep_for(std::chrono::milliseconds(lookMs));
    }
}

} // namespace ramplight::test
