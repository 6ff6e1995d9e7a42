// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "phone/invitations.h"
#include "phone/phonepage.h"

#include <QStringList>

#include <memory>

namespace ramplight {

/// What one phone, or everybody in the network together, may ask of this machine. Sources of the
/// defaults: telephones make files of 5 to 25 MB, a workshop's wireless network carries 1 MB/s on a
/// bad day; the rest keeps the worst case under 100 MB and one thread.
struct PhoneLimits
{
    int connections = 16;
    int connectionsPerAddress = 6;
    int headBytes = 24 * 1024;      ///< a connection's own memory: request line and headers
    int headMs = 10'000;            ///< from the connection to the end of the headers
    int wholeMs = 180'000;          ///< from the connection to the last byte
    int silenceSeconds = 20;        ///< nothing came or went
    qint64 photoBytes = 25'000'000; ///< of one photo
    qint64 formBytes = 150'000'000; ///< of one request: a form without script sends all at once
    qint64 heldBytes = 80'000'000;  ///< of all photos that arrive or wait to be kept
    int photosPerForm = 20;         ///< what comes behind them is refused in words
    int photosPerInvitation = 60;   ///< refused ones count
    qint64 invitationMs = 10LL * 60'000; ///< how long an invitation holds
};

/// Serves one page for each open invitation, on a thread of its own: GET shows it, POST takes
/// photos from it; every other path is "nothing here". What comes is bounded in size, number and
/// time, and handed on as bytes that nobody has looked at yet. One request for each connection. GUI
/// thread.
class PhoneServer
{
public:
    /// Answers for one photo, from any thread; only the first call counts, and dropping it without
    /// a call leaves the phone waiting until the server stops.
    using Reply = std::function<void(const PhotoAnswer&)>;
    /// A photo came: called on the server's thread, returns at once.
    using Receiver = std::function<void(InvitationId, const QByteArray& photo, const Reply&)>;

    /// now: the clock of the invitations.
    PhoneServer(Receiver receiver, const PhoneLimits& limits, Invitations::NowMs now);
    ~PhoneServer();
    PhoneServer(const PhoneServer&) = delete;
    PhoneServer& operator=(const PhoneServer&) = delete;

    /// address: one of this machine's own, IPv4 ("192.168.1.20"), never all of them at once; port 0
    /// takes a free one. Stops first what is served elsewhere. Error: words for who set it.
    [[nodiscard]] tl::expected<void, QString> listen(const QString& address, quint16 port);
    /// Every invitation ends, too.
    void stop();
    [[nodiscard]] bool isListening() const;
    [[nodiscard]] quint16 port() const;

    [[nodiscard]] PhoneInvitation invite(const PhoneErrand& errand);
    /// A photo that arrives later is refused.
    void end(InvitationId id);
    /// "http://192.168.1.20:8190/..." while it listens.
    [[nodiscard]] QString addressOf(const PhoneInvitation& invitation) const;

private:
    class Engine;

    Receiver m_receiver;
    PhoneLimits m_limits;
    Invitations m_invitations;
    std::unique_ptr<Engine> m_engine;
};

/// This machine's IPv4 addresses that others can reach, sorted; without loopback.
[[nodiscard]] QStringList ownAddresses();

} // namespace ramplight
