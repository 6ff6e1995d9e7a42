// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phoneserver.h"

#include "domain/say.h"
#include "phone/phoneengine.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <array>

namespace ramplight {

namespace {

/// 224.0.0.0: from here on no address belongs to one machine (RFC 5771, RFC 1112).
constexpr quint32 firstOfMany = 0xE000'0000;

} // namespace

PhoneServer::PhoneServer(Receiver receiver, const PhoneLimits& limits, Invitations::NowMs now)
    : m_receiver(std::move(receiver))
    , m_limits(limits)
    , m_invitations(std::move(now), limits.invitationMs, limits.photosPerInvitation)
{
}

PhoneServer::~PhoneServer()
{
    stop();
}

tl::expected<void, QString> PhoneServer::listen(const QString& address, quint16 port)
{
    stop();
    sockaddr_in where{};
    where.sin_family = AF_INET;
    where.sin_port = htons(port);
    const bool read = inet_pton(AF_INET, qPrintable(address), &where.sin_addr) == 1;
    // Not every address there is: a second network card may lead anywhere.
    if (!read || where.sin_addr.s_addr == INADDR_ANY || ntohl(where.sin_addr.s_addr) >= firstOfMany)
        return tl::unexpected(
            say("%1 is no address of a machine. Four numbers such as 192.168.1.20 are expected.")
                .arg(address));
    auto engine = std::make_unique<Engine>(m_invitations, m_receiver, m_limits);
    if (const QString fault = engine->start(where); !fault.isEmpty())
        return tl::unexpected(
            say("Phones cannot reach this kiosk at %1, port %2: %3. Choose the address that this "
                "machine has in the workshop's network.")
                .arg(address)
                .arg(port)
                .arg(fault));
    m_engine = std::move(engine);
    return {};
}

void PhoneServer::stop()
{
    m_invitations.endAll();
    m_engine.reset();
}

bool PhoneServer::isListening() const
{
    return m_engine != nullptr;
}

quint16 PhoneServer::port() const
{
    return m_engine ? m_engine->port() : quint16{0};
}

PhoneInvitation PhoneServer::invite(const PhoneErrand& errand)
{
    return m_invitations.open(errand);
}

void PhoneServer::end(InvitationId id)
{
    m_invitations.end(id);
}

QString PhoneServer::addressOf(const PhoneInvitation& invitation) const
{
    return m_engine ? QStringLiteral("http://%1:%2%3")
                          .arg(m_engine->address())
                          .arg(port())
                          .arg(invitation.path)
                    : QString();
}

QStringList ownAddresses()
{
    ifaddrs* all = nullptr;
    if (getifaddrs(&all) != 0)
        return {};
    QStringList addresses;
    for (const ifaddrs* each = all; each != nullptr; each = each->ifa_next) {
        if (each->ifa_addr == nullptr || each->ifa_addr->sa_family != AF_INET ||
            (each->ifa_flags & IFF_UP) == 0U || (each->ifa_flags & IFF_LOOPBACK) != 0U)
            continue;
        std::array<char, INET_ADDRSTRLEN> text{};
        const auto* address = reinterpret_cast<const sockaddr_in*>(each->ifa_addr);
        if (inet_ntop(AF_INET, &address->sin_addr, text.data(), text.size()) != nullptr)
            addresses.append(QString::fromLatin1(text.data()));
    }
    freeifaddrs(all);
    addresses.sort();
    addresses.removeDuplicates();
    return addresses;
}

} // namespace ramplight
