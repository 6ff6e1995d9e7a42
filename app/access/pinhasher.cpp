// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/pinhasher.h"

#include <sodium.h>

#include <array>
#include <cerrno>
#include <string_view>
#include <utility>

namespace ramplight {
namespace {

constexpr std::string_view purpose = "ramplight pin 1";

/// libsodium's calls take exactly a buffer of this length with a zero at its end.
using HashText = std::array<char, crypto_pwhash_STRBYTES>;

bool toHashText(const QByteArray& kept, HashText& text)
{
    if (kept.isEmpty() || kept.size() >= static_cast<qsizetype>(text.size()))
        return false;
    text.fill('\0');
    std::copy(kept.begin(), kept.end(), text.begin());
    return true;
}

/// Peppered and bound to the person. The number has a fixed width and the PIN comes last, so that
/// no two pairs give the same input.
Secret peppered(const Secret& pepper, PersonId person, const Secret& pin)
{
    crypto_generichash_state state;
    std::array<unsigned char, 32> digest{};
    std::array<unsigned char, 4> number{};
    for (std::size_t i = 0; i < number.size(); ++i)
        number[i] = static_cast<unsigned char>(static_cast<unsigned>(person.value) >> (8U * i));

    crypto_generichash_init(&state, pepper.data(), pepper.size(), digest.size());
    crypto_generichash_update(&state, reinterpret_cast<const unsigned char*>(purpose.data()),
                              purpose.size());
    crypto_generichash_update(&state, number.data(), number.size());
    crypto_generichash_update(&state, pin.data(), pin.size());
    crypto_generichash_final(&state, digest.data(), digest.size());
    Secret result{QByteArrayView(digest)};
    sodium_memzero(&state, sizeof state);
    sodium_memzero(digest.data(), digest.size());
    return result;
}

} // namespace

PinHasher::PinHasher(Secret pepper, PinCost cost)
    : m_pepper(std::move(pepper))
    , m_cost(cost)
{
}

tl::expected<QByteArray, AccessError> PinHasher::hash(PersonId person, const Secret& pin) const
{
    if (sodium_init() < 0)
        return tl::unexpected(AccessError::HashingFailed);
    const Secret input = peppered(m_pepper, person, pin);
    HashText text{};
    if (crypto_pwhash_str(text.data(), input.bytes().data(), input.size(), m_cost.passes,
                          m_cost.memoryBytes) != 0)
        return tl::unexpected(AccessError::HashingFailed);
    return QByteArray(text.data());
}

tl::expected<void, AccessError> PinHasher::verify(PersonId person, const Secret& pin,
                                                  const QByteArray& kept) const
{
    if (sodium_init() < 0)
        return tl::unexpected(AccessError::HashingFailed);
    HashText text{};
    if (!toHashText(kept, text) ||
        crypto_pwhash_str_needs_rehash(text.data(), m_cost.passes, m_cost.memoryBytes) < 0)
        return tl::unexpected(AccessError::HashDamaged);
    const Secret input = peppered(m_pepper, person, pin);
    errno = 0;
    if (crypto_pwhash_str_verify(text.data(), input.bytes().data(), input.size()) == 0)
        return {};
    // libsodium sets EINVAL for a hash that differs; anything else means that it could not compute.
    return tl::unexpected(errno == EINVAL ? AccessError::WrongPin : AccessError::HashingFailed);
}

bool PinHasher::needsRehash(const QByteArray& kept) const
{
    HashText text{};
    return toHashText(kept, text) &&
           crypto_pwhash_str_needs_rehash(text.data(), m_cost.passes, m_cost.memoryBytes) == 1;
}

} // namespace ramplight
