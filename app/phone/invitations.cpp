// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/invitations.h"

#include <sodium.h>

#include <cstring>

namespace ramplight {

Invitations::Invitations(NowMs now, qint64 lifeMs, int mostPhotos)
    : m_now(std::move(now))
    , m_lifeMs(lifeMs)
    , m_mostPhotos(mostPhotos)
{
    // Safe to call again; without it the first random bytes are not.
    if (sodium_init() < 0)
        qFatal("libsodium cannot be used on this machine");
}

PhoneInvitation Invitations::open(const PhoneErrand& errand)
{
    const std::scoped_lock lock(m_gate);
    forgetOld();
    Open open;
    randombytes_buf(open.token.data(), open.token.size());
    std::array<char, tokenBytes * 2 + 1> text{};
    sodium_bin2hex(text.data(), text.size(), open.token.data(), open.token.size());
    open.invitation = {{++m_last},
                       QLatin1Char('/') + QString::fromLatin1(text.data()),
                       m_now() + m_lifeMs,
                       errand};
    return m_open.emplace(open.invitation.id, open).first->second.invitation;
}

void Invitations::end(InvitationId id)
{
    const std::scoped_lock lock(m_gate);
    m_open.erase(id);
}

void Invitations::endAll()
{
    const std::scoped_lock lock(m_gate);
    m_open.clear();
}

void Invitations::forgetOld()
{
    const qint64 now = m_now();
    std::erase_if(m_open, [now](const auto& each) { return each.second.invitation.endsMs <= now; });
}

std::optional<PhoneInvitation> Invitations::find(const char* path) const
{
    Token asked{};
    std::size_t length = 0;
    const char* end = nullptr;
    const std::size_t most = tokenBytes * 2 + 1;
    if (path == nullptr || path[0] != '/' || strnlen(path, most + 1) != most ||
        sodium_hex2bin(asked.data(), asked.size(), path + 1, most - 1, nullptr, &length, &end) !=
            0 ||
        length != asked.size() || *end != '\0')
        return {};
    const std::scoped_lock lock(m_gate);
    const qint64 now = m_now();
    std::optional<PhoneInvitation> found;
    for (const auto& [id, open] : m_open)
        if (sodium_memcmp(open.token.data(), asked.data(), asked.size()) == 0 &&
            now < open.invitation.endsMs)
            found = open.invitation;
    return found;
}

bool Invitations::takesOneMore(InvitationId id)
{
    const std::scoped_lock lock(m_gate);
    const auto open = m_open.find(id);
    if (open == m_open.end() || m_now() >= open->second.invitation.endsMs ||
        open->second.photos >= m_mostPhotos)
        return false;
    ++open->second.photos;
    return true;
}

} // namespace ramplight
