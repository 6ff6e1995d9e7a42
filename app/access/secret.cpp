// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/secret.h"

#include <sodium.h>

#include <algorithm>

namespace ramplight {

Secret::Secret(QByteArrayView bytes)
{
    const auto count = static_cast<std::size_t>(bytes.size());
    if (count > capacity)
        return;
    std::copy(bytes.begin(), bytes.end(), m_bytes.begin());
    m_size = count;
}

Secret Secret::taking(QString& typed)
{
    QByteArray utf8 = typed.toUtf8();
    Secret secret{QByteArrayView(utf8)};
    sodium_memzero(utf8.data(), static_cast<std::size_t>(utf8.size()));
    sodium_memzero(typed.data(), static_cast<std::size_t>(typed.size()) * sizeof(QChar));
    typed.truncate(0); // keeps the buffer, so that what was overwritten can be looked at
    return secret;
}

Secret Secret::random(std::size_t count)
{
    Secret secret;
    if (count > capacity || sodium_init() < 0)
        return secret;
    randombytes_buf(secret.m_bytes.data(), count);
    secret.m_size = count;
    return secret;
}

Secret::Secret(Secret&& other) noexcept
    : m_bytes(other.m_bytes)
    , m_size(other.m_size)
{
    other.clear();
}

Secret& Secret::operator=(Secret&& other) noexcept
{
    if (this != &other) {
        m_bytes = other.m_bytes;
        m_size = other.m_size;
        other.clear();
    }
    return *this;
}

Secret::~Secret()
{
    clear();
}

QByteArrayView Secret::bytes() const
{
    return {m_bytes.data(), static_cast<qsizetype>(m_size)};
}

void Secret::append(char byte)
{
    if (m_size < capacity)
        m_bytes[m_size++] = static_cast<unsigned char>(byte);
}

void Secret::chop()
{
    if (m_size > 0)
        m_bytes[--m_size] = 0;
}

void Secret::clear()
{
    sodium_memzero(m_bytes.data(), m_bytes.size());
    m_size = 0;
}

bool operator==(const Secret& a, const Secret& b)
{
    // The unused tail is always zero, so that the whole buffer can be compared.
    return a.m_size == b.m_size &&
           sodium_memcmp(a.m_bytes.data(), b.m_bytes.data(), Secret::capacity) == 0;
}

} // namespace ramplight
