// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "benchcrew.h"
#include "kioskbench.h"

namespace ramplight::test {

/// A car whose wheel is off and waits for Bram, and its refurbishing; or one that stands on it
/// still.
struct Wheel
{
    explicit Wheel(BenchHouse& house, bool isOff = true)
        : car(house.bringIn(QStringLiteral("K-7"),
                            {finding("wheel-front-left", Condition::Kerbed, {Remedy::Refurbish})}))
    {
        BenchCrew crew(house);
        crew.finish(car, "arrival-check");
        if (isOff)
            crew.finish(car, "wheels-off");
        work = house.open(car, "wheel-refurb");
    }

    [[nodiscard]] Operation now(BenchHouse& house) const { return *house.car(car).operation(work); }

    CarId car;
    OperationId work;
};

/// Where the operation wants its photo of afterwards.
inline const QString afterPlace = QStringLiteral("after: Face and lip, same light");

/// Signs in at the wall and goes to the operation.
inline bool goTo(KioskBench& bench, const QString& who, const CarId& car, OperationId work)
{
    const QString stock = bench.house().car(car).identity.stockNumber;
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who) && bench.openCar(stock) &&
           bench.openWork(work);
}

} // namespace ramplight::test
