// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

#include "kiosk/planday.h"

#include <QQuickItem>
#include <QTest>

// What several tests of bays and plan do by touch, and how they look at what is shown.
namespace ramplight::test {

bool isPlanned(KioskBench& bench);
bool goToBays(KioskBench& bench);
bool signInManager(KioskBench& bench);
bool showPlan(KioskBench& bench, const QString& by);
/// The first job of the plan that fits, begins within its first day and somebody else could do.
int movableJob(Shell& shell);
QString otherPerson(Shell& shell);
/// Touches the bar of a job on the day that is shown first.
bool touchJob(KioskBench& bench, int job);
/// From the wall to the plan by person, and to a job there that may be moved.
bool openMovableJob(KioskBench& bench);
TimeWords timesOf(KioskBench& bench);
/// What an item says that shows these words, inside another one; null when nothing does.
QQuickItem* wordsIn(QQuickItem* outer, const QString& words);
QRectF placeIn(const QQuickItem* outer, const QQuickItem* item);
bool isConsidered(KioskBench& bench);
BayId bayNumbered(KioskBench& bench, int number);

} // namespace ramplight::test
