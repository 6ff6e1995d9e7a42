// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

#include "kiosk/wallmodel.h"

#include <QQuickItem>

#include <algorithm>
#include <vector>

// The cards in sight on the wall, held against the rows that it has.
namespace ramplight::test {

[[nodiscard]] inline QString stockNumberOf(const WallModel& wall, int row)
{
    return wall.data(wall.index(row), wall.roleNames().key("stockNumber")).toString();
}

/// Each row has its card as far as there is room, and no card is in sight of a row that went away:
/// such wait in the scene to be used again.
[[nodiscard]] inline bool showsItsRows(KioskBench& bench)
{
    const WallModel& wall = *bench.shell().wall();
    std::vector<QQuickItem*> cards;
    for (int row = 0; row < wall.count(); ++row) {
        QQuickItem* card = nullptr;
        QMetaObject::invokeMethod(bench.ofType("WallGrid").front(), "itemAtIndex",
                                  Q_RETURN_ARG(QQuickItem*, card), Q_ARG(int, row));
        if (card == nullptr && row > 0)
            continue;
        if (card == nullptr || !card->isVisible() ||
            card->property("stockNumber").toString() != stockNumberOf(wall, row))
            return false;
        cards.push_back(card);
    }
    return std::ranges::all_of(bench.ofType("CarCard"), [&cards](QQuickItem* card) {
        return !card->isVisible() || std::ranges::find(cards, card) != cards.end();
    });
}

} // namespace ramplight::test
