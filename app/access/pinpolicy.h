// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accesserror.h"
#include "access/secret.h"

#include <tl/expected.hpp>

namespace ramplight {

/// What the house asks of a new PIN. Source of the default: six digits leave one guess in a
/// million, and SignInGuard allows a hundred.
struct PinPolicy
{
    int digits = 6;

    friend bool operator==(const PinPolicy&, const PinPolicy&) = default;
};

/// Checked when a PIN is chosen, never when one is entered: an older, shorter PIN stays good until
/// it is changed. Errors: the Pin... ones.
[[nodiscard]] tl::expected<void, AccessError> checkNewPin(const PinPolicy& policy,
                                                          const Secret& pin);

/// The rule in one line, to stand beside the pad where a PIN is chosen.
[[nodiscard]] QString words(const PinPolicy& policy);

} // namespace ramplight
