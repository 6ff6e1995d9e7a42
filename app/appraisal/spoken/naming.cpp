// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/items.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

std::size_t positionsSaid(const Naming& naming)
{
    std::size_t said = naming.positions.size();
    while (said > 0 && !naming.positions[said - 1].sideSaid &&
           naming.positions[said - 1].axle == Axle::None)
        --said;
    return said;
}

/// "near side front and rear": the rear is on the near side, too.
void share(Naming& naming)
{
    for (std::size_t i = 1; i < naming.positions.size(); ++i) {
        Position& here = naming.positions[i];
        const Position& before = naming.positions[i - 1];
        if (!here.sideSaid && before.sideSaid) {
            here.sideSaid = true;
            here.side = before.side;
        }
        if (here.axle == Axle::None)
            here.axle = before.axle;
    }
    for (std::size_t i = naming.positions.size(); i-- > 1;) {
        Position& here = naming.positions[i - 1];
        const Position& behind = naming.positions[i];
        if (here.axle == Axle::None)
            here.axle = behind.axle;
        if (!here.sideSaid && behind.sideSaid) {
            here.sideSaid = true;
            here.side = behind.side;
        }
    }
}

} // namespace

void shareOut(Naming& naming)
{
    naming.positions.resize(std::max<std::size_t>(1, positionsSaid(naming)));
    share(naming);
}

} // namespace ramplight::spoken
