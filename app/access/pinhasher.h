// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accesserror.h"
#include "access/secret.h"
#include "domain/ids.h"

#include <QByteArray>

#include <tl/expected.hpp>

#include <cstddef>

namespace ramplight {

/// What one hash costs. The defaults are those that libsodium calls interactive, about a tenth of a
/// second on a small kiosk.
struct PinCost
{
    unsigned long long passes = 2;
    std::size_t memoryBytes = std::size_t{64} << 20U;

    friend bool operator==(const PinCost&, const PinCost&) = default;
};

/// Turns a PIN into what may be kept, and checks one against it: Argon2id over a BLAKE2b keyed with
/// the site's pepper, of the person's number and the PIN. So the kept text is worth nothing without
/// the key file, and nothing under another person's number.
/// Immutable after construction: may be used from several threads at once. Each call blocks for its
/// cost and allocates memoryBytes; run it on a pool.
class PinHasher
{
public:
    explicit PinHasher(Secret pepper, PinCost cost = {});

    /// The text to keep (ASCII, Argon2's own format with salt and cost). Errors: HashingFailed.
    [[nodiscard]] tl::expected<QByteArray, AccessError> hash(PersonId person,
                                                             const Secret& pin) const;
    /// Errors: WrongPin, HashDamaged, HashingFailed.
    [[nodiscard]] tl::expected<void, AccessError> verify(PersonId person, const Secret& pin,
                                                         const QByteArray& kept) const;
    /// True when kept was made with another cost: hash again at the next good sign-in. False for a
    /// text that is no hash at all; verify() tells that.
    [[nodiscard]] bool needsRehash(const QByteArray& kept) const;

private:
    Secret m_pepper;
    PinCost m_cost;
};

} // namespace ramplight
