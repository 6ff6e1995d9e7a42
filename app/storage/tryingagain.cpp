// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/tryingagain.h"

#include <algorithm>

namespace ramplight {

void TryingAgain::refused(qint64 nowMs)
{
    // 2, 4, 4, ...: of each the second half is left to chance.
    ++m_refusals;
    const qint64 most = std::min(longestMs, shortestMs << std::min(m_refusals, 8));
    m_nextMs = nowMs + most / 2 + m_random.bounded(most / 2 + 1);
}

} // namespace ramplight
