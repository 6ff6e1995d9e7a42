// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"

#include <QByteArray>
#include <QFile>

// What the tests of the shipped catalogue share.
namespace ramplight::test {

inline QByteArray shippedBytes()
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/catalogue/operations.json"));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// Read once: a workshop of each row of a test copies it.
inline const Catalogue& theShippedCatalogue()
{
    static const Catalogue all = readCatalogue(shippedBytes()).catalogue;
    return all;
}

inline CarFacts everyFact()
{
    CarFacts facts;
    for (const auto& [fact, name] : Names<Fact>::table)
        facts.has.push_back(fact);
    return facts;
}

} // namespace ramplight::test
