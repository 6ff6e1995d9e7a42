// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/say.h"

#include <QString>

namespace ramplight {

/// What is said of a stretch of work around which somebody set the clock; empty: nobody did.
[[nodiscard]] inline QString clockWords(bool setBack, bool putForward)
{
    if (setBack)
        return say("the clock had been set back");
    return putForward ? say("the clock had been put forward") : QString();
}

} // namespace ramplight
