// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/onpool.h"

#include <QString>

#include <functional>
#include <utility>

namespace ramplight {

/// Keeps a setting of this kiosk for the next start: on a thread of its own, one after the other,
/// so that no screen waits for a disk. GUI thread; ends once what was asked for is done.
template <class T>
class Keeping
{
public:
    /// Called on that thread. Words for a person: why it was not kept; empty when all is well.
    using Keeper = std::function<QString(const T& value)>;

    /// An empty keeper keeps nothing beyond this start.
    explicit Keeping(Keeper keeper)
        : m_keeper(std::move(keeper))
    {
        m_pool.setMaxThreadCount(1);
    }

    /// What the keeper says.
    [[nodiscard]] QFuture<QString> keep(const T& value)
    {
        if (!m_keeper)
            return QtFuture::makeReadyFuture(QString());
        return onPool(m_pool, [keeper = m_keeper, value] { return keeper(value); });
    }

private:
    Keeper m_keeper;
    QThreadPool m_pool;
};

} // namespace ramplight
