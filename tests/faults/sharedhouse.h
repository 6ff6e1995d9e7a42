// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/randompeople.h"
#include "../domain/randomsite.h"

#include "storage/storesettings.h"

namespace ramplight::test {

/// The workshop as people at its kiosks find it in the morning: the bench's nine, two bays, two
/// cars; two that were released yesterday, and three that were sold years ago, whose photos may go.
void setUpHouse(const StoreSettings& settings);

constexpr int peopleOfTheBench = 9;
[[nodiscard]] const HouseNames& benchNames();
/// One of those that were sold years ago.
[[nodiscard]] CarId anyOldCar(Dice& dice);
/// One of those that were released yesterday: what is worked now is done in no minute.
[[nodiscard]] CarId anyWorkedCar(Dice& dice);
/// Those that are on no wall.
[[nodiscard]] std::vector<CarId> goneCars();

/// Of the bench's: what takes no hour to dry, as nobody waits for it.
[[nodiscard]] RandomScope quickScope();
/// Most cars would only refuse a command of this kind.
[[nodiscard]] bool isAimed(std::size_t kind);
/// Perhaps this one does not.
[[nodiscard]] bool suits(std::size_t kind, const CarState& car);

} // namespace ramplight::test
