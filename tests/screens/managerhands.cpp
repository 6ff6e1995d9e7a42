// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"

#include <QQuickItem>

namespace ramplight::test {

bool goToStaff(KioskBench& bench, const QString& who)
{
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who) &&
           bench.tap(QStringLiteral("Staff and bays")) &&
           bench.until([&] { return !bench.ofType("StaffScreen").empty(); },
                       QStringLiteral("people and bays"));
}

bool goToSettings(KioskBench& bench, const QString& who)
{
    return goToStaff(bench, who) && bench.tap(QStringLiteral("Settings")) &&
           bench.until([&] { return !bench.ofType("SettingsScreen").empty(); },
                       QStringLiteral("the settings"));
}

bool signAgain(KioskBench& bench)
{
    return bench.until([&] { return bench.shell().session()->again(); },
                       QStringLiteral("the PIN again")) &&
           bench.until([&] { return !bench.ofType("PersonScreen").empty(); },
                       QStringLiteral("the pad")) &&
           bench.enterPin() &&
           bench.until([&] { return bench.ofType("PersonScreen").empty(); },
                       QStringLiteral("the form"));
}

} // namespace ramplight::test
