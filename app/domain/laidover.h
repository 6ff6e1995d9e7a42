// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

namespace ramplight {

/// Field by field: what was typed over what was shown, laid over what is there now. The rest stays
/// as others have changed it meanwhile.
template <Described T>
[[nodiscard]] T laidOver(const T& shown, const T& typed, T now)
{
    T::fields([&](const auto& field) {
        if (!(shown.*field.member == typed.*field.member))
            now.*field.member = typed.*field.member;
    });
    return now;
}

} // namespace ramplight
