// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "domain/explain.h"
#include "domain/housecatalogue.h"

namespace ramplight::cli {

namespace {

int check(const QString& path, Terminal& terminal)
{
    const auto bytes = readFile(path);
    if (!bytes)
        return failed(terminal, bytes.error(), NoInput);
    const CatalogueReading reading = readCatalogue(*bytes);
    for (const QString& fault : reading.faults)
        terminal.out << fault << Qt::endl;
    if (!reading.faults.isEmpty())
        return BadData;
    terminal.out << reading.catalogue.operations.size() << " operations, "
                 << reading.catalogue.rules.size() << " rules: good." << Qt::endl;
    return Ok;
}

int explainCar(const QString& stockNumber, Terminal& terminal)
{
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    SqlLedger& ledger = house->store().ledger();
    const auto id = carCalled(stockNumber, *house, terminal);
    if (!id)
        return id.error();
    const auto car = ledger.car(*id);
    const auto site = ledger.site();
    if (!car || !site)
        return failed(terminal, QStringLiteral("The ledger cannot be read."), Unavailable);
    terminal.out << explainText(*car, houseCatalogue(house->catalogue(), *site), site->rules)
                 << Qt::flush;
    return Ok;
}

} // namespace

int catalogue(const QStringList& given, Terminal& terminal)
{
    if (given.size() == 2 && given.first() == QLatin1String("explain"))
        return explainCar(given.last(), terminal);
    if (given.value(0) == QLatin1String("export") || given.value(0) == QLatin1String("import"))
        return catalogueFile(given, terminal);
    if (given.isEmpty() || given.first() != QLatin1String("check") || given.size() > 2)
        return usage(terminal, *find(QStringLiteral("catalogue")));
    return check(given.size() == 2 ? given.last()
                                   : QStringLiteral(":/ramplight/catalogue/operations.json"),
                 terminal);
}

} // namespace ramplight::cli
