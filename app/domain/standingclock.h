// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"

namespace ramplight {

/// Always the moment at which something was asked.
class StandingClock : public Clock
{
public:
    explicit StandingClock(Moment at)
        : m_at(at)
    {
    }
    [[nodiscard]] Moment now() const override { return m_at; }

private:
    Moment m_at;
};

} // namespace ramplight
