// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcard.h"
#include "storage/storethread.h"

#include <QByteArray>
#include <QObject>

#include <functional>
#include <optional>
#include <vector>

namespace ramplight::test {

/// Of all that the cards say, whatever their order.
[[nodiscard]] QByteArray digestOf(const std::vector<CarCard>& cards);

/// The wall of one kiosk as that holds it: read once, and from then on only when the store's thread
/// says that something changed; once more when changes came while it was read. What nobody told it
/// is not on it. Lives on a thread that runs an event loop now and then.
class HeldWall : public QObject
{
public:
    /// told: called whenever it was read. The store outlives it.
    HeldWall(StoreThread& store, std::function<void()> told);

    /// digestOf() what hangs there; empty: it was never read.
    [[nodiscard]] QByteArray digest() const;

private:
    void read();

    StoreThread& m_store;
    std::function<void()> m_told;
    std::optional<std::vector<CarCard>> m_cards;
    bool m_reading = false;
    bool m_again = false;
};

} // namespace ramplight::test
