// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "viewbench.h"

namespace ramplight::test {

/// A car with one of its operations open on the screen.
struct OperationScene
{
    explicit OperationScene(const char* kind, const char* place = nullptr,
                            Condition condition = Condition::Mark)
    {
        car = kiosk.bench.appraised();
        if (place != nullptr)
            kiosk.bench.found(car, place, condition);
        id = kiosk.bench.open(car, kind);
        kiosk.open(car);
        view->open(car.text, id.value);
        kiosk.settle();
    }

    /// What the last command was answered with.
    QString answer() { return kiosk.outcome(view->ask()); }
    const Operation& operation() { return kiosk.bench.operation(car, id); }
    int rowOf(const char* rowId) const
    {
        return static_cast<int>(
            column(*view->readings(), "rowId").indexOf(QString::fromLatin1(rowId)));
    }
    QVariant reading(const char* rowId, const char* role) const
    {
        return at(*view->readings(), rowOf(rowId), role);
    }

    ViewBench kiosk;
    CarId car;
    OperationId id;
    OperationView* view = kiosk.shell.operation();
};

} // namespace ramplight::test
