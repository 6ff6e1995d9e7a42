// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"

#include <QByteArray>
#include <QFile>

// What the tests of the shipped catalogue share.
namespace ramplight::test {

inline QByteArray shippedBytes()
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/catalogue/operations.json"));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

inline CarFacts everyFact()
{
    CarFacts facts;
    for (const auto& [fact, name] : Names<Fact>::table)
        facts.has.push_back(fact);
    return facts;
}

} // namespace ramplight::test
