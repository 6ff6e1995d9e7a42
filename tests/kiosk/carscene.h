// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "viewbench.h"

namespace ramplight::test {

/// A car that is open on the screen.
struct CarScene
{
    explicit CarScene(bool appraised = true)
    {
        car = appraised ? kiosk.bench.appraised() : kiosk.bench.bringIn();
        kiosk.settle();
        kiosk.open(car);
    }

    QString answer() { return kiosk.outcome(view->ask()); }
    CarState now() { return kiosk.bench.car(car); }

    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    CarId car;
    CarView* view = kiosk.shell.car();
};

} // namespace ramplight::test
