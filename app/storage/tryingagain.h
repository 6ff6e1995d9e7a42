// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QRandomGenerator>

namespace ramplight {

/// When a server that answers and takes nobody is asked again: it has too many connections, starts,
/// or ends, and all kiosks of its sites knocking once a second is what it can use least. Each time
/// later, by chance sooner or later than the others do, and never so late that nobody notices that
/// it is back. Milliseconds of a steady clock. Plain value, one thread.
class TryingAgain
{
public:
    /// Between two tries at most, and at least before the second.
    static constexpr qint64 longestMs = 4'000;
    static constexpr qint64 shortestMs = 1'000;

    explicit TryingAgain(quint32 seed)
        : m_random(seed)
    {
    }

    [[nodiscard]] bool isDue(qint64 nowMs) const { return m_refusals == 0 || nowMs >= m_nextMs; }
    void refused(qint64 nowMs);
    /// It takes connections, or nobody answers at all.
    void reset() { m_refusals = 0; }

private:
    QRandomGenerator m_random;
    int m_refusals = 0; ///< in a row
    qint64 m_nextMs = 0;
};

} // namespace ramplight
