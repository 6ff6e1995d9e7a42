// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// What anybody in the workshop's network may send to the page for phones: bytes into a socket of
// the real server, its thread and its library included. The first byte says after how many of the
// others a pause of the line cuts them; the word TOKEN in them stands for the code of the open
// invitation.
#include "fuzzing.h"

#include "phone/phoneserver.h"

#include <arpa/inet.h>
#include <netinet/tcp.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <thread>

using namespace ramplight;
using fuzz::must;

namespace {

constexpr int tries = 200;

/// A server with an invitation that never ends, whose photos are taken at once.
class House
{
public:
    House()
        : m_server(
              [this](InvitationId, const QByteArray& photo, const PhoneServer::Reply& reply) {
                  must(photo.size() <= limits.photoBytes, "no photo is too large");
                  ++m_photos;
                  reply(PhotoAnswer(QString()));
              },
              limits, [] { return qint64{1'000}; })
    {
        must(m_server.listen(QStringLiteral("127.0.0.1"), 0).has_value(), "a server listens");
        m_path = m_server
                     .invite({QStringLiteral("after: the face"),
                              QStringLiteral("Refurbish the wheel"), QStringLiteral("K-7")})
                     .path.toLatin1();
        must(serves(), "the page is there");
    }

    [[nodiscard]] QByteArray token() const { return m_path.mid(1); }
    [[nodiscard]] int photos() const { return m_photos; }
    [[nodiscard]] bool serves() const
    {
        for (int i = 0; i < tries; ++i)
            if (ask("GET " + m_path + " HTTP/1.1\r\nHost: here\r\n\r\n", 0)
                    .startsWith("HTTP/1.1 200"))
                return true;
        return false;
    }

    /// Everything that the server says until it closes. cut: so many bytes come first.
    [[nodiscard]] QByteArray ask(const QByteArray& bytes, qsizetype cut) const
    {
        const int line = dial();
        const auto send = [line](const char* from, qsizetype size) {
            // The server may have closed on what it has seen; what it said of it is read all the
            // same.
            return ::send(line, from, static_cast<std::size_t>(size), MSG_NOSIGNAL) == size;
        };
        cut = std::min(cut, bytes.size());
        if (cut == 0 || send(bytes.constData(), cut))
            send(bytes.constData() + cut, bytes.size() - cut);
        ::shutdown(line, SHUT_WR);
        QByteArray said;
        std::array<char, 4096> piece{};
        for (;;) {
            const ssize_t got = ::recv(line, piece.data(), piece.size(), 0);
            if (got <= 0)
                break;
            said.append(piece.data(), got);
        }
        ::close(line);
        return said;
    }

private:
    // Short, as half a request waits for the other half until its time is over.
    static constexpr PhoneLimits limits{.headMs = 20,
                                        .wholeMs = 60,
                                        .photoBytes = 600,
                                        .formBytes = 3'000,
                                        .heldBytes = 1'500,
                                        .photosPerForm = 3,
                                        .photosPerInvitation = 1'000'000'000};

    [[nodiscard]] int dial() const
    {
        sockaddr_in where{};
        where.sin_family = AF_INET;
        where.sin_port = htons(m_server.port());
        where.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        for (int i = 0; i < tries; ++i) {
            const int line = ::socket(AF_INET, SOCK_STREAM, 0);
            must(line >= 0, "a socket");
            const int on = 1;
            ::setsockopt(line, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
            if (::connect(line, reinterpret_cast<const sockaddr*>(&where), sizeof where) == 0)
                return line;
            // Ports of closed lines are not free at once.
            ::close(line);
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
        }
        must(false, "the server takes a line");
        return -1;
    }

    std::atomic<int> m_photos = 0;
    PhoneServer m_server;
    QByteArray m_path;
};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static House house;
    static unsigned asked = 0;
    if (size < 2)
        return 0;
    QByteArray request(reinterpret_cast<const char*>(data) + 1, static_cast<qsizetype>(size) - 1);
    const bool invited = request.contains("TOKEN");
    request.replace("TOKEN", house.token());
    const int photos = house.photos();
    const QByteArray said = house.ask(request, data[0]);
    must(said.isEmpty() || said.startsWith("HTTP/1."), "it answers in its protocol, or not at all");
    must(invited || !said.startsWith("HTTP/1.1 200"), "who has no code sees nothing");
    must(invited || house.photos() == photos, "who has no code hands in nothing");
    must(invited || !said.contains(house.token()), "nobody is told a code");
    must(++asked % 64 != 0 || house.serves(), "it goes on serving those who are invited");
    return 0;
}
