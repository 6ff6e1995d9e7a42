// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QRandomGenerator>
#include <QString>
#include <QtGlobal>

namespace ramplight::test {

/// Choices that a test makes anew each time and tells, so that a failure can be had again: from
/// RAMPLIGHT_SEED where the environment has it. The same for the whole program.
[[nodiscard]] inline QRandomGenerator toldRandom()
{
    static const unsigned seed = [] {
        bool given = false;
        const unsigned asked = qEnvironmentVariable("RAMPLIGHT_SEED").toUInt(&given);
        return given ? asked : QRandomGenerator::global()->generate();
    }();
    qInfo("RAMPLIGHT_SEED=%u makes these choices again", seed);
    return QRandomGenerator(seed);
}

} // namespace ramplight::test
